from importlib import import_module

from django.apps import AppConfig


class IdentificationConfig(AppConfig):
    name = "identification"
    verbose_name = "Identification"

    def ready(self):
        """The form for pieces and the review ask the identification, which they may not import, by what is here."""
        import_module("identification.walk_through.advising")
        import_module("identification.walk_through.proposed")
