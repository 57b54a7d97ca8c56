from django.apps import AppConfig


class CatalogueConfig(AppConfig):
    name = "catalogue"
    verbose_name = "Catalogue"
    default_auto_field = "django.db.models.BigAutoField"
