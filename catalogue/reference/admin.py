"""The back office for the reference. Every change marks the reference as changed in the same transaction."""

from django.contrib import admin
from django.db import transaction

from catalogue.reference.models import (
    Citation,
    Colourway,
    Cut,
    Feature,
    FeaturePlace,
    FeatureState,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    OpenQuestion,
    ProfileCell,
    QuestionView,
    ReferenceState,
    Source,
    StockNumber,
    TypeFeature,
    TypeName,
    VersionAncestor,
    VersionName,
    VersionRecord,
)
from catalogue.reference.uncertain_dates import year_span


class ReferenceAdmin(admin.ModelAdmin):
    """A record of the reference."""

    save_on_top = True

    def changeform_view(self, request, *args, **kwargs):
        with transaction.atomic():
            return super().changeform_view(request, *args, **kwargs)

    def save_related(self, request, form, formsets, change):
        super().save_related(request, form, formsets, change)
        ReferenceState.mark_changed()

    def delete_model(self, request, obj):
        with transaction.atomic():
            super().delete_model(request, obj)
            ReferenceState.mark_changed()

    def delete_queryset(self, request, queryset):
        with transaction.atomic():
            super().delete_queryset(request, queryset)
            ReferenceState.mark_changed()


class ReadOnlyAdmin(admin.ModelAdmin):
    """History: it is read here, and written only by what makes a new record."""

    def has_add_permission(self, request, obj=None):
        return False

    def has_change_permission(self, request, obj=None):
        return False

    def has_delete_permission(self, request, obj=None):
        return False


class Rows(admin.TabularInline):
    extra = 0


class TypeNameRows(Rows):
    model = TypeName


class TypeFeatureRows(Rows):
    model = TypeFeature
    autocomplete_fields = ["feature"]


class StateRows(Rows):
    model = FeatureState


class PlaceRows(Rows):
    model = FeaturePlace


class VersionNameRows(Rows):
    model = VersionName


class AncestorRows(Rows):
    model = VersionAncestor
    fk_name = "version"
    autocomplete_fields = ["ancestor"]


class NumberRows(Rows):
    model = StockNumber


class VersionCitationRows(Rows):
    model = Citation
    fk_name = "version"
    fields = ["source", "stance", "position"]
    autocomplete_fields = ["source"]


class IssuerCitationRows(VersionCitationRows):
    fk_name = "issuer"


class NumberCitationRows(VersionCitationRows):
    fk_name = "stock_number"


class ViewRows(admin.StackedInline):
    model = QuestionView
    extra = 0
    autocomplete_fields = ["sources"]


@admin.register(Issuer)
class IssuerAdmin(ReferenceAdmin):
    list_display = ["name", "code", "date", "place"]
    search_fields = ["name", "code"]
    autocomplete_fields = ["predecessor", "successor"]
    inlines = [IssuerCitationRows]


@admin.register(Maker)
class MakerAdmin(ReferenceAdmin):
    list_display = ["name", "code", "kind", "first_year", "last_year"]
    list_filter = ["kind"]
    search_fields = ["name", "code", "mark"]


@admin.register(Source)
class SourceAdmin(ReferenceAdmin):
    list_display = ["code", "title", "kind", "grade", "date"]
    list_filter = ["grade", "kind", "personal_data"]
    search_fields = ["code", "title", "holder"]


@admin.register(Cut, Colourway)
class AxisAdmin(ReferenceAdmin):
    list_display = ["name", "code", "position"]
    search_fields = ["name", "code"]


@admin.register(GarmentType)
class GarmentTypeAdmin(ReferenceAdmin):
    list_display = ["name", "code", "garment_class", "issuer"]
    list_filter = ["issuer"]
    search_fields = ["name", "code", "other_names__name"]
    autocomplete_fields = ["issuer"]
    inlines = [TypeNameRows, TypeFeatureRows]


@admin.register(Feature)
class FeatureAdmin(ReferenceAdmin):
    list_display = ["name", "code", "group", "kind", "seen", "effort", "error"]
    list_filter = ["group", "seen", "kind", "garment_types"]
    search_fields = ["name", "code", "question"]
    autocomplete_fields = ["parent"]
    raw_id_fields = ["absent_state", "shown_when"]
    inlines = [StateRows, PlaceRows]


@admin.register(IssueVersion)
class IssueVersionAdmin(ReferenceAdmin):
    list_display = ["name", "code", "garment_type", "kind", "date", "certainty", "piece_seen"]
    list_filter = ["garment_type", "kind", "cut", "colourway", "certainty", "hazard_kind"]
    list_select_related = ["garment_type"]
    search_fields = ["name", "code", "other_names__name", "stock_numbers__number", "stock_numbers__bare"]
    autocomplete_fields = ["garment_type", "cut", "colourway", "issuer", "makers", "passes_for"]
    inlines = [VersionNameRows, AncestorRows, NumberRows, VersionCitationRows]

    def save_model(self, request, obj, form, change):
        obj.from_year, obj.to_year = year_span(obj.date) if obj.date else (None, None)
        super().save_model(request, obj, form, change)


@admin.register(NumberForm)
class NumberFormAdmin(ReferenceAdmin):
    list_display = ["name", "code", "pattern", "years"]
    search_fields = ["name", "code"]


@admin.register(StockNumber)
class StockNumberAdmin(ReferenceAdmin):
    list_display = ["number", "version", "form", "first_year", "last_year", "misprint_of"]
    list_filter = ["form"]
    list_select_related = ["version", "form"]
    search_fields = ["number", "bare", "version__code"]
    autocomplete_fields = ["version", "form"]
    inlines = [NumberCitationRows]


@admin.register(OpenQuestion)
class OpenQuestionAdmin(ReferenceAdmin):
    list_display = ["code", "question", "settled"]
    list_filter = ["settled"]
    search_fields = ["code", "question"]
    autocomplete_fields = ["versions"]
    inlines = [ViewRows]


@admin.register(VersionRecord)
class VersionRecordAdmin(ReadOnlyAdmin):
    list_display = ["version", "number", "standing", "made_at"]
    list_filter = ["standing", "version__garment_type"]
    list_select_related = ["version"]
    search_fields = ["version__code", "version__name"]


@admin.register(ProfileCell)
class ProfileCellAdmin(ReadOnlyAdmin):
    list_display = ["record", "state", "how_often", "certainty"]
    list_filter = ["certainty", "record__version__garment_type"]
    list_select_related = ["record__version", "state__feature"]
    search_fields = ["record__version__code", "state__feature__name", "state__label"]
