from importlib import import_module

from django.apps import AppConfig
from django.contrib.admin import apps as admin_apps


class CatalogueConfig(AppConfig):
    name = "catalogue"
    verbose_name = "Catalogue"
    default = True
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self):
        """The slices say what belongs to a person: sections of their page, parts of their export."""
        import_module("catalogue.member_parts")


class BackOfficeConfig(admin_apps.AdminConfig):
    """Django's admin, opened by the society's own roles."""

    default = False
    default_site = "catalogue.accounts.office.BackOffice"
