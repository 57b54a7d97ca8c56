"""The back office for forms of numbers: how their pattern is written, and a try of it before it is saved."""

from django.contrib import admin

from catalogue.back_office import EVIDENCE
from catalogue.reference.admin_backing import BackingAdmin
from catalogue.reference.admin_base import ReferenceForm
from catalogue.reference.models import NumberForm
from catalogue.reference.review_state import under_review
from catalogue.reference.tried_numbers import ONLY_TRIED, TRIED, TRY, TriesNumbers, field_to_try


class NumberFormForm(TriesNumbers, ReferenceForm):
    """A form of numbers, with a number to try it with before it is saved."""

    tried_number = field_to_try(**{"class": "vTextField"})


@admin.register(NumberForm)
class NumberFormAdmin(BackingAdmin):
    office_group, office_place = EVIDENCE, 5
    office_about = "How a service wrote its numbers"
    form = NumberFormForm
    change_form_template = "admin/catalogue/number_form.html"
    list_display = ["name", "code", "pattern", "years"]
    search_fields = ["name", "code", "example"]
    search_help_text = "Name, code or example"

    def get_fieldsets(self, request, obj=None):
        """The number to try stands last, beside its button; only who may write tries."""
        found = super().get_fieldsets(request, obj)
        for _, options in found:
            options["fields"] = [name for name in options["fields"] if name != TRIED]
        may = self.has_change_permission(request, obj) if obj else self.has_add_permission(request)
        may = may and not (obj and under_review(request))  # its pattern is only read here then
        return [*found, ("Try it before you save", {"fields": [TRIED]})] if may else found

    def render_change_form(self, request, context, add=False, change=False, form_url="", obj=None):
        """A try is told in place of faults."""
        form = context["adminform"].form
        context["may_try"] = {TRIED, "pattern"} <= set(form.fields)
        if request.method == "POST" and TRY in request.POST and context["may_try"]:
            context |= {"errors": None, "only_tried": ONLY_TRIED}
            context |= {"tried": form.data.get(TRIED, ""), "reading": form.reading()}
        return super().render_change_form(request, context, add, change, form_url, obj)
