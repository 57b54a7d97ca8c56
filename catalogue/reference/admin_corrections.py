"""What was changed by hand, over all records, those that were deleted among them."""

from django.contrib import admin
from django.core.exceptions import PermissionDenied
from django.shortcuts import render

from catalogue.back_office import HISTORY
from catalogue.reference.models import Correction


@admin.register(Correction)
class CorrectionAdmin(admin.ModelAdmin):
    """Only read: a correction is written once, with the change itself."""

    office_group, office_place = HISTORY, 1
    office_about = "Every change by hand: before, after, who, when and why"
    list_display = ["title", "table_words", "deed", "member", "made_at", "why"]
    list_filter = ["deed", "member", "table", "made_at"]
    list_select_related = ["member"]
    search_fields = ["title", "why", "member__username"]
    search_help_text = "Name or code of the record, who changed it, or a word of why"

    @admin.display(description="sort of record", ordering="table")
    def table_words(self, correction) -> str:
        known = {model._meta.model_name: model._meta.verbose_name for model in self.admin_site._registry}
        return str(known.get(correction.table, correction.table))

    def change_view(self, request, object_id, form_url="", extra_context=None):
        correction = self.get_object(request, object_id)
        if correction is None:
            return self._get_obj_does_not_exist_redirect(request, self.opts, object_id)
        if not self.has_view_permission(request, correction) or request.method == "POST":
            raise PermissionDenied
        context = self.admin_site.each_context(request)
        context |= {"title": correction.title, "opts": self.opts, "one": correction}
        return render(request, "admin/catalogue/one_correction.html", context)

    def has_add_permission(self, request):
        return False

    def has_change_permission(self, request, obj=None):
        return False

    def has_delete_permission(self, request, obj=None):
        return False
