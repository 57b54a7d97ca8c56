"""The back office: one import a slice."""

from django.contrib import admin

from catalogue.accounts import admin as accounts_admin
from catalogue.member_examples import admin as member_examples_admin
from catalogue.reference import admin as reference_admin

__all__ = ["accounts_admin", "member_examples_admin", "reference_admin"]

admin.site.site_header = "Back office"
admin.site.site_title = "Back office"
admin.site.index_title = "The reference and its members"
