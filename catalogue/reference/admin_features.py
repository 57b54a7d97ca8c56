"""Features in the back office: what is asked, its states and places; under review what no proposal holds."""

from django.contrib import admin
from django.core.exceptions import ValidationError
from django.utils.html import format_html

from catalogue.back_office import REFERENCE
from catalogue.reference.admin_base import ReferenceAdmin, ReferenceForm, grouped_states
from catalogue.reference.admin_places import PlaceRows, StatePictures
from catalogue.reference.admin_rows import OnceTogether
from catalogue.reference.codes import alike
from catalogue.reference.models import Feature, FeatureState
from catalogue.reference.review_state import address_to_propose_feature, review_is_on
from catalogue.reference.spreadsheets.garment_checks import first_break
from catalogue.reference.words import FeatureKind


class StatesInOrder(OnceTogether):
    """The states of a feature, at least one of a choice; their bands, where they have any, run upward without a gap."""

    def clean(self):
        super().clean()
        if any(self.errors):
            return
        kept = [form for form in self.forms if form.instance.code and not self._should_delete_form(form)]
        if self.instance.kind == FeatureKind.CHOICE and not kept:
            raise ValidationError("Write at least one state: a question without an answer to choose cannot be asked.")
        last = max((form.instance.position for form in kept), default=0)
        old_first = sorted(kept, key=lambda form: form.instance.position if form.instance.pk else last + 1)
        codes: dict[str, str] = {}
        for code in (form.instance.code for form in kept):
            if (first := codes.setdefault(alike(code), code)) != code:
                raise ValidationError(f"{first} and {code} are one code: a code stands once, whatever its capitals.")
        bands = [(form.instance.low, form.instance.high) for form in old_first]
        place = first_break(bands)
        if place is not None:
            code = old_first[place].instance.code
            words = "Bands run upward without a gap, each beginning where the one before ends"
            raise ValidationError(f"{words}; {code} does not. Leave all ends empty where the answer is no number.")


class StateRows(StatePictures):
    model = FeatureState
    extra = 4
    formset = StatesInOrder


class DrawingRows(StatePictures):
    """Under review the states are only read here, but for the society's own drawings of them."""

    model = FeatureState
    extra = 0
    can_delete = False
    fields = ["drawn", "code", "label", "explained", "label_says", "low", "high", "drawing"]
    readonly_fields = ["drawn", "code", "label", "explained", "label_says", "low", "high"]

    def has_add_permission(self, request, obj):
        return False


class FeatureForm(ReferenceForm):
    """A feature, with its own states and those of its parent to choose from."""

    class Meta:
        model = Feature
        fields = "__all__"  # noqa: DJ007 - the page of the back office shows them all
        labels = {"spread": "spread of a measurement", "absent_state": "state that a lost part leaves"}

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        states = FeatureState.objects.select_related("feature").order_by("feature__name", "position", "code")
        own = [state for state in states if state.feature_id == self.instance.pk]
        others = [state for state in states if state.feature_id != self.instance.pk]
        if "absent_state" in self.fields:
            self.fields["absent_state"].choices = [("", "–"), *((state.pk, state.label) for state in own)]
            if not own:
                self.fields["absent_state"].help_text = "can be chosen once the states are saved"
            self.fields["shown_when"].choices = grouped_states(others)
            self.fields["shown_when"].widget.attrs["size"] = 12

    def clean(self):
        given = super().clean()
        parent, shown, absent = given.get("parent"), given.get("shown_when") or [], given.get("absent_state")
        if absent and absent.feature_id != self.instance.pk:
            self.add_error("absent_state", f"“{absent}” is a state of “{absent.feature}”, not of this feature.")
        strange = [state for state in shown if parent and state.feature_id != parent.pk]
        if strange:
            listed = ", ".join(f"“{state}” of “{state.feature}”" for state in strange)
            self.add_error("shown_when", f"Only states of the parent, “{parent}”, can be chosen; not {listed}.")
        elif shown and not parent:
            self.add_error("shown_when", "Choose the parent as well, or no state.")
        elif parent and not shown and "parent" not in self.errors:
            self.add_error("shown_when", f"Choose the states of “{parent}” under which this feature is there.")
        return given


# Of a feature whatever changes what people are asked or how their answers count.
ASKED_OR_COUNTED = (
    "name", "question", "kind", "unit", "spread", "seen", "effort", "error", "service_change", "absent_state", "loss",
    "gain", "parent", "shown_when",
)  # fmt: skip


@admin.register(Feature)
class FeatureAdmin(ReferenceAdmin):
    office_group, office_place = REFERENCE, 4
    office_about = "What to look at: questions, states, places, how people err"
    list_display = ["name", "code", "group", "kind", "seen", "effort", "error"]
    list_filter = ["group", "seen", "kind", "garment_types"]
    search_fields = ["name", "code", "question", "states__label"]
    search_help_text = "Name, code, question or words of a state"
    form = FeatureForm
    autocomplete_fields = ["parent"]
    inlines = [StateRows, PlaceRows]
    fieldsets = [
        (None, {"fields": ["code", "name", "group", "question", "kind", "unit", "spread", "basis", "position"]}),
        ("How it is looked at", {"fields": ["seen", "effort", "error", "error_note"]}),
        ("In service", {"fields": ["service_change", "change_note", "absent_state", "loss", "gain"]}),
        ("A detail of another feature", {"fields": ["parent", "shown_when"]}),
    ]

    def get_readonly_fields(self, request, obj=None):
        """Under review what is asked and counted changes by proposals alone; notes beside it are written here."""
        found = tuple(super().get_readonly_fields(request, obj))
        return (*found, "proposed", *ASKED_OR_COUNTED) if obj and review_is_on() else found

    def get_fieldsets(self, request, obj=None):
        found = super().get_fieldsets(request, obj)
        return [(None, {"fields": ["proposed"]}), *found] if obj and review_is_on() else found

    def get_inlines(self, request, obj):
        return [DrawingRows] if obj and review_is_on() else super().get_inlines(request, obj)

    def has_add_permission(self, request):
        return super().has_add_permission(request) and not review_is_on()

    def has_delete_permission(self, request, obj=None):
        return super().has_delete_permission(request, obj) and not review_is_on()

    @admin.display(description="under review")
    def proposed(self, feature):
        """Why some fields are only read here, and where they are changed."""
        words = (
            "What is asked, where, and how an answer counts is changed by a proposal, which two others decide. "
            '<a href="{}">Propose a change</a>.'
        )
        return format_html(words, address_to_propose_feature(feature.code))
