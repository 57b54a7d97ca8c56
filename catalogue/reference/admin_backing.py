"""The back office for what versions rest on: makers, services, sources and number forms."""

from django.contrib import admin, messages
from django.utils.html import format_html

from catalogue.reference.admin_base import ReferenceAdmin
from catalogue.reference.backing_rows import BACKINGS
from catalogue.reference.review_state import address_to_propose_on, under_review


class BackingAdmin(ReferenceAdmin):
    """What versions rest on. Under review the fields that identification or dating reads are only read here, and are
    changed by a proposal; words beside them are written here."""

    @property
    def backing(self):
        return BACKINGS[self.model._meta.model_name]

    def get_readonly_fields(self, request, obj=None):
        found = tuple(super().get_readonly_fields(request, obj))
        return (*found, "proposed", *self.backing.fields) if obj and under_review(request) else found

    def get_fieldsets(self, request, obj=None):
        found = super().get_fieldsets(request, obj)
        if not obj or not under_review(request):
            return found
        for _, options in found:
            options["fields"] = [name for name in options["fields"] if name != "proposed"]
        return [(None, {"fields": ["proposed"]}), *found]

    def has_add_permission(self, request):
        return super().has_add_permission(request) and not (self.backing.made and under_review(request))

    def has_delete_permission(self, request, obj=None):
        return super().has_delete_permission(request, obj) and not (self.backing.made and under_review(request))

    @admin.display(description="under review")
    def proposed(self, record):
        """Why some fields are only read here, and where they are changed."""
        fields = ", ".join(self.backing.fields.values()).lower()
        words = (
            "Versions are told apart and dated by these: {}. They are changed by a proposal, which two others decide. "
            '<a href="{}">Propose a change</a>.'
        )
        return format_html(words, fields, address_to_propose_on(self.model._meta.model_name, record.code))

    def changelist_view(self, request, extra_context=None):
        """Where one that is new is proposed, it says so."""
        if self.backing.made and under_review(request) and request.method == "GET":
            words = 'A new {} is proposed, and two others decide. <a href="{}">Propose one</a>.'
            address = address_to_propose_on(self.model._meta.model_name)
            messages.info(request, format_html(words, self.backing.sort, address))
        return super().changelist_view(request, extra_context)
