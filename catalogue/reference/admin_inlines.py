"""The rows that stand within a record of the back office, each with what is typed of it."""

from django import forms
from django.contrib import admin

from catalogue.reference.admin_rows import BlocksOfRows, OnceTogether, Rows
from catalogue.reference.models import (
    Citation,
    OwnSilhouette,
    QuestionView,
    SizeLength,
    StockNumber,
    TypeFeature,
    TypeName,
    VersionAncestor,
    VersionName,
)
from catalogue.reference.words import NameBy
from identification.dating.size_marks import bare_mark


class TypeNameRows(Rows):
    model = TypeName


class TypeFeatureRows(Rows):
    model = TypeFeature
    autocomplete_fields = ["feature"]


class OwnSilhouetteRows(Rows):
    model = OwnSilhouette


class VersionNameRows(Rows):
    model = VersionName


class SellersName(forms.ModelForm):
    """A name that sellers use; members' names are proposed under review."""

    class Meta:
        model = VersionName
        fields = ["name", "never_issued", "position"]

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.instance.used_by = NameBy.SELLERS


class SellersNameRows(Rows):
    model = VersionName
    form = SellersName
    verbose_name_plural = "names used by sellers"

    def get_queryset(self, request):
        return super().get_queryset(request).filter(used_by=NameBy.SELLERS)


class AncestorRows(Rows):
    model = VersionAncestor
    fk_name = "version"
    autocomplete_fields = ["ancestor"]


class NumberRows(Rows):
    model = StockNumber


class EachLengthOnce(OnceTogether):
    """Says of two rows typed at once what the table would refuse only when it is written."""

    def clean(self):
        super().clean()
        met = set()
        for form in self.forms:
            given = getattr(form, "cleaned_data", {})
            if not given.get("mark") or not given.get("what") or given.get("DELETE"):
                continue
            cell = (bare_mark(given["mark"]), given["what"])
            if cell in met:
                form.add_error("mark", "This length of this mark stands in another row.")
            met.add(cell)


class SizeRows(Rows):
    model = SizeLength
    formset = EachLengthOnce
    autocomplete_fields = ["source"]


class VersionCitationRows(Rows):
    model = Citation
    fk_name = "version"
    fields = ["source", "stance", "position"]
    autocomplete_fields = ["source"]


class IssuerCitationRows(VersionCitationRows):
    fk_name = "issuer"


class NumberCitationRows(VersionCitationRows):
    fk_name = "stock_number"


class CompanionCitationRows(VersionCitationRows):
    fk_name = "companion"


class ViewRows(BlocksOfRows):
    model = QuestionView
    extra = 1
    autocomplete_fields = ["sources"]


class HeldViewRows(ViewRows):
    """Under review a view is changed by who wrote it down, on its page; here it is read."""

    extra = 0
    can_delete = False
    autocomplete_fields = []
    fields = readonly_fields = ["letter", "holder", "text", "named", "by", "stands"]

    def has_add_permission(self, request, obj):
        return False

    @admin.display(description="sources")
    def named(self, view):
        return ", ".join(source.code for source in view.sources.all()) or "–"
