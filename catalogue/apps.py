from importlib import import_module

from django.apps import AppConfig

from catalogue.stock_words import say_it_in_our_words

say_it_in_our_words()  # this module is imported before every other that has a form


class CatalogueConfig(AppConfig):
    name = "catalogue"
    verbose_name = "Catalogue"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self):
        """The slices say what belongs to a person: sections of their page, parts of their export."""
        import_module("catalogue.member_parts")
        import_module("catalogue.accounts.used_codes")  # is told of authenticator apps that are set up
        import_module("catalogue.review.features.recording")  # is told when features may have changed
        import_module("catalogue.review.health.after_writing")  # is told of changes, and works the figures out
        import_module("catalogue.review.notices.telling")  # is told of what waits, and tells people
        import_module("catalogue.review.records.citing")  # says which sources an approved change rests on
        import_module("catalogue.review.records.renaming")  # is told when versions may be called otherwise
        import_module("catalogue.review.records.sealing")  # is told of every record that is written
