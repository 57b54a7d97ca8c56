"""The back office for forms of numbers: how their pattern is written, and a try of it before it is saved."""

from django import forms
from django.contrib import admin
from django.utils import timezone

from catalogue.back_office import EVIDENCE
from catalogue.reference.admin_backing import BackingAdmin
from catalogue.reference.admin_base import ReferenceForm
from catalogue.reference.models import NumberForm
from catalogue.reference.number_forms import tried
from catalogue.reference.review_state import under_review
from catalogue.typed_words import WordsField
from identification.label_reading import Form

TRY, TRIED = "_try", "tried_number"
# What has to be right before a number can be tried.
NEEDED_TO_TRY = ("pattern", "year_group", "check_rule", "years", TRIED)
ONLY_TRIED = "Only tried: nothing is saved yet. What you typed stands below."


class NumberFormForm(ReferenceForm):
    """A form of numbers, with a number to try it with before it is saved."""

    tried_number = WordsField(
        required=False,
        max_length=200,
        label="A number to try",
        help_text="as it stands on a label; nothing is saved",
        widget=forms.TextInput(attrs={"class": "vTextField"}),
    )

    def full_clean(self):
        """A form that is only tried is never saved, and what a try does not need is not asked for."""
        super().full_clean()
        if TRY not in self.data:
            return
        for name in [name for name in self.errors if name not in NEEDED_TO_TRY]:
            del self.errors[name]
        if not self.errors and not self.cleaned_data.get(TRIED):
            self.add_error(TRIED, "Write a number to try.")
        self.add_error(None, ONLY_TRIED)

    def reading(self) -> list[str]:
        """How the number is read by the form as typed, in words; nothing while something needed is wrong."""
        if any(name in self.errors for name in NEEDED_TO_TRY):
            return []
        given = self.cleaned_data
        form = Form(
            code="form",
            name=given.get("name") or "Number",
            pattern=given["pattern"],
            groups=given.get("groups") or "",
            year_group=given.get("year_group"),
            check_rule=given.get("check_rule") or "",
            years=given.get("years") or "",
        )
        return tried(form, given[TRIED], timezone.localdate().year)


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
