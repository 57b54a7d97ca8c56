from importlib import import_module

from django.apps import AppConfig


class IdentificationConfig(AppConfig):
    name = "identification"
    verbose_name = "Identification"

    def ready(self):
        """The form for pieces, the review and the health of the reference ask the identification, which they may not
        import, by what registers here."""
        import_module("identification.walk_through.advising")
        import_module("identification.walk_through.health_measure")
        import_module("identification.walk_through.proposed")
