"""Profiles in the back office: a record is read, never changed; a changed profile is written as a new record."""

from django import forms
from django.contrib import admin
from django.core.exceptions import ValidationError
from django.forms.models import BaseInlineFormSet

from catalogue.reference.actions import write_profile
from catalogue.reference.admin_base import ReferenceAdmin, Rows, grouped_states
from catalogue.reference.models import FeatureState, IssueVersion, Maker, ProfileCell, Source, VersionRecord
from catalogue.reference.spreadsheets.faults import nearest
from catalogue.reference.spreadsheets.profiles import FIELDS, current_profiles

EMPTY_ROWS = 5


class CodesField(forms.CharField):
    """Codes of other records, spaces between, as in the spreadsheets; read as the records."""

    def __init__(self, *, of, **kwargs):
        super().__init__(required=False, **kwargs)
        self.of = of

    def clean(self, value):
        codes = list(dict.fromkeys(super().clean(value).split()))
        found = {one.code: one for one in self.of.objects.filter(code__in=codes)}
        for code in codes:
            if code not in found:
                near = nearest(code, self.of.objects.values_list("code", flat=True))
                raise ValidationError(f"There is no code “{code}”.{f' Nearest: {near}.' if near else ''}")
        return [found[code] for code in codes]


class CellForm(forms.ModelForm):
    """One state that the version shows."""

    source_codes = CodesField(of=Source, label="sources", help_text="codes, spaces between")
    maker_codes = CodesField(of=Maker, label="only from", help_text="codes of makers, spaces between")

    class Meta:
        model = ProfileCell
        fields = ["state", "how_often", "share", "certainty", "sizes", "first_year", "last_year", "note"]
        widgets = {"note": forms.Textarea(attrs={"rows": 1, "cols": 30})}

    def has_changed(self) -> bool:
        """A row without a state is an empty row, whatever its other boxes hold by default."""
        return bool(self.data.get(self.add_prefix("state"))) or super().has_changed()

    def as_cell(self) -> tuple:
        """The cell as `write_profile` takes it."""
        given = self.cleaned_data
        makers = frozenset(maker.pk for maker in given["maker_codes"])
        sources = tuple(source.pk for source in given["source_codes"])
        return (tuple(given[name] for name in FIELDS), " ".join(given["sizes"].split()), makers, sources)


class CellRows(BaseInlineFormSet):
    """A whole profile. It begins with the cells of the current record, and lists the states of the garment type."""

    def __init__(self, *args, version_id=None, **kwargs):
        super().__init__(*args, **kwargs)
        states = FeatureState.objects.select_related("feature").order_by(
            "feature__position", "feature__code", "position"
        )
        version = IssueVersion.objects.filter(pk=version_id or self.instance.version_id).first()
        if version:
            states = states.filter(feature__garment_types=version.garment_type_id)
        self.choices = [("", "–"), *grouped_states(states)]

    def add_fields(self, form, index):
        super().add_fields(form, index)
        form.fields["state"].choices = self.choices

    def get_unique_error_message(self, unique_check):
        return "One state stands in two rows. Nothing was written: take one of them away."

    def kept(self) -> list[CellForm]:
        return [form for form in self.forms if form.has_changed() and not self._should_delete_form(form)]

    def clean(self):
        if any(self.errors):
            return
        super().clean()
        cells = self.cells()
        if not cells:
            raise ValidationError("A record needs at least one state. Nothing was written.")
        if current_profiles([self.instance.version_id]).get(self.instance.version_id) == cells:
            raise ValidationError("This is what the current record says already. Nothing was written.")

    def cells(self) -> dict[int, tuple]:
        return {form.cleaned_data["state"].pk: form.as_cell() for form in self.kept()}


class NewCells(Rows):
    model = ProfileCell
    form = CellForm
    formset = CellRows
    verbose_name_plural = "the whole profile: what has no row is not recorded, which is not the same as absent"

    def get_extra(self, request, obj=None, **kwargs):
        return len(first_cells(request)) + EMPTY_ROWS


class OldCells(Rows):
    model = ProfileCell
    fields = ["feature", "state", "how_often", "share", "certainty", "sizes", "first_year", "last_year", "note"]
    readonly_fields = ["feature"]
    can_delete = False

    def get_queryset(self, request):
        return super().get_queryset(request).select_related("state__feature")

    def has_add_permission(self, request, obj=None):
        return False

    def has_change_permission(self, request, obj=None):
        return False

    @admin.display(description="feature")
    def feature(self, cell):
        return cell.state.feature


def first_cells(request) -> list[dict]:
    """The rows that a new record begins with: those of the current record of the version in the address."""
    version = asked_version(request)
    if version is None or version.current_record_id is None:
        return []
    cells = version.current_record.cells.prefetch_related("makers", "citations__source")
    in_order = cells.order_by("state__feature__position", "state__feature__code", "state__position")
    return [
        {name: getattr(cell, name) for name in (*FIELDS, "sizes")}
        | {
            "state": cell.state_id,
            "maker_codes": " ".join(maker.code for maker in cell.makers.all()),
            "source_codes": " ".join(citation.source.code for citation in cell.citations.all()),
        }
        for cell in in_order
    ]


def asked_version(request) -> IssueVersion | None:
    asked = request.GET.get("version", "")
    return IssueVersion.objects.filter(pk=asked).first() if asked.isascii() and asked.isdigit() else None


@admin.register(VersionRecord)
class VersionRecordAdmin(ReferenceAdmin):
    """Written once: a new one can be added, an old one only read."""

    list_display = ["version", "number", "standing", "made_at"]
    list_filter = ["standing", "version__garment_type"]
    list_select_related = ["version"]
    search_fields = ["version__code", "version__name"]
    autocomplete_fields = ["version"]

    def get_fields(self, request, obj=None):
        return ["version", "number", "standing", "made_at"] if obj else ["version", "standing"]

    def get_inlines(self, request, obj):
        return [OldCells] if obj else [NewCells]

    def get_formset_kwargs(self, request, obj, inline, prefix):
        kwargs = super().get_formset_kwargs(request, obj, inline, prefix)
        if isinstance(inline, NewCells):
            version = asked_version(request)
            kwargs["version_id"] = version.pk if version and request.method == "GET" else None
            if request.method == "GET":
                kwargs["initial"] = first_cells(request)
        return kwargs

    def has_change_permission(self, request, obj=None):
        return False

    def has_delete_permission(self, request, obj=None):
        return False

    def save_model(self, request, obj, form, change):
        """Nothing yet: the record and its cells are written together."""

    def save_related(self, request, form, formsets, change):
        cells = next(rows for rows in formsets if isinstance(rows, CellRows))
        version, standing = form.cleaned_data["version"], form.cleaned_data["standing"]
        written = write_profile(version=version, cells=cells.cells(), standing=standing)
        form.instance.pk, form.instance.number = written.pk, written.number
        for rows in formsets:
            rows.new_objects, rows.changed_objects, rows.deleted_objects = [], [], []


@admin.register(ProfileCell)
class ProfileCellAdmin(admin.ModelAdmin):
    """For finding cells; they are written with their record."""

    list_display = ["record", "feature", "state", "how_often", "certainty"]
    list_filter = ["certainty", "record__version__garment_type"]
    list_select_related = ["record__version", "state__feature"]
    search_fields = ["record__version__code", "state__feature__name", "state__label"]

    @admin.display(description="feature", ordering="state__feature")
    def feature(self, cell):
        return cell.state.feature

    def has_add_permission(self, request, obj=None):
        return False

    def has_change_permission(self, request, obj=None):
        return False

    def has_delete_permission(self, request, obj=None):
        return False
