from django.apps import AppConfig


class IdentificationConfig(AppConfig):
    name = "identification"
    verbose_name = "Identification"
