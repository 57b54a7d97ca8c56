"""The back office for the reference."""

from urllib.parse import quote

from django import forms
from django.apps import apps
from django.contrib import admin
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html

from catalogue.back_office import EVIDENCE, REFERENCE
from catalogue.reference.addresses import address_of
from catalogue.reference.admin_backing import BackingAdmin
from catalogue.reference.admin_base import ReferenceAdmin, ReferenceForm
from catalogue.reference.admin_corrections import CorrectionAdmin
from catalogue.reference.admin_features import FeatureAdmin
from catalogue.reference.admin_inlines import (
    AncestorRows,
    CompanionCitationRows,
    HeldViewRows,
    IssuerCitationRows,
    NumberCitationRows,
    NumberRows,
    OwnSilhouetteRows,
    SellersNameRows,
    SizeRows,
    TypeFeatureRows,
    TypeNameRows,
    VersionCitationRows,
    VersionNameRows,
    ViewRows,
)
from catalogue.reference.admin_number_forms import NumberFormAdmin
from catalogue.reference.admin_records import ProfileCellAdmin, VersionRecordAdmin
from catalogue.reference.models import (
    Colourway,
    Companion,
    Cut,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    OpenQuestion,
    ProfileCell,
    QuestionView,
    Source,
    StockNumber,
)
from catalogue.reference.plurals import counted
from catalogue.reference.review_state import (
    address_to_propose,
    address_to_propose_on_question,
    review_is_on,
    under_review,
)
from catalogue.reference.uncertain_dates import year_span
from catalogue.reference.words import Restriction

__all__ = ["CorrectionAdmin", "FeatureAdmin", "NumberFormAdmin", "ProfileCellAdmin", "VersionRecordAdmin"]


@admin.register(Issuer)
class IssuerAdmin(BackingAdmin):
    office_group, office_place = EVIDENCE, 3
    office_about = "Services that gave clothing out"
    list_display = ["name", "code", "date", "place"]
    search_fields = ["name", "code", "place"]
    search_help_text = "Name, code or place"
    autocomplete_fields = ["predecessor", "successor"]
    inlines = [IssuerCitationRows]


@admin.register(Maker)
class MakerAdmin(BackingAdmin):
    office_group, office_place = EVIDENCE, 2
    office_about = "Works, contractors, depots and copyists, with their habits"
    list_display = ["name", "code", "kind", "first_year", "last_year"]
    list_filter = ["kind", "place"]
    search_fields = ["name", "code", "mark", "place"]
    search_help_text = "Name, code, place or what stands on its labels"

    def rests_on(self, obj) -> list[str]:
        made = [f"Version {code}: made by {obj.name}" for code in obj.versions.values_list("code", flat=True)[:10]]
        limited = ProfileCell.objects.filter(makers=obj).count()
        holds = "holds" if limited == 1 else "hold"
        return made + ([f"{counted(limited, 'recorded state')} {holds} for this maker only"] if limited else [])


@admin.register(Source)
class SourceAdmin(BackingAdmin):
    office_group, office_place = EVIDENCE, 1
    office_about = "Papers, labels, photographs and recollections, each with its grade"
    list_display = ["code", "title", "kind", "grade", "date"]
    list_filter = ["grade", "kind", "personal_data"]
    search_fields = ["code", "title", "holder", "shelf_mark", "note"]
    search_help_text = "Code, title, holder, shelf mark or a word of the note"

    def get_deleted_objects(self, objs, request):
        """What cites a source counted in words, with the page that lists it: a list of citations says nothing."""
        deleted, counts, wanting, _ = super().get_deleted_objects(objs, request)
        kept = [words for obj in objs for words in (*cited_by(obj), *self.rests_on(obj))]
        return deleted, counts, wanting, kept

    def rests_on(self, obj) -> list[str]:
        """Views of open questions, and proposals that were sent; what a record cites the database keeps itself."""
        views = [f"View {view.letter} of “{view.question}”" for view in obj.views.select_related("question")[:10]]
        sent = apps.get_model("catalogue", "Proposal").objects.exclude(state="draft").order_by("pk")
        citing = [pk for pk, codes in sent.values_list("pk", "sources") if obj.code in codes]
        return views + [f"Proposal {pk}" for pk in citing[:10]]


# What a source is cited for, as the page of its deletion counts it.
CITED_FOR = {
    "version": "version",
    "cell": "state in the records of versions",
    "stock_number": "stock number",
    "issuer": "service",
    "companion": "pair of versions",
}
MANY = {"cell": "states in the records of versions", "companion": "pairs of versions"}


def cited_by(source: Source) -> list[str]:
    """What would lose this source, each sort counted, and where all of it is listed; nothing for one never cited."""
    found = {claim: source.citations.filter(**{f"{claim}__isnull": False}).count() for claim in CITED_FOR}
    told = [counted(count, CITED_FOR[claim], MANY.get(claim)) for claim, count in found.items() if count]
    if lengths := source.size_lengths.count():
        told.append(counted(lengths, "length of size tables", "lengths of size tables"))
    if scans := source.scans.count():
        told.append(counted(scans, "scan"))
    if not told:
        return []
    listed = f"{', '.join(told[:-1])} and {told[-1]}" if len(told) > 1 else told[0]
    words = (
        '{} is cited for {}: <a href="{}">its page</a> lists them. What records say stays readable with its '
        "source; to take a source from a version, propose a change of the version."
    )
    return [format_html(words, source.code, listed, address_of("source", source.code))]


class AxisAdmin(ReferenceAdmin):
    list_display = ["name", "code", "position"]
    search_fields = ["name", "code", "note"]
    search_help_text = "Name or code"


@admin.register(Cut)
class CutAdmin(AxisAdmin):
    office_group, office_place = REFERENCE, 6
    office_about = "Made for a climate or a wearer"


@admin.register(Colourway)
class ColourwayAdmin(AxisAdmin):
    office_group, office_place = REFERENCE, 7
    office_about = "Prints and dye groups"


@admin.register(GarmentType)
class GarmentTypeAdmin(ReferenceAdmin):
    office_group, office_place = REFERENCE, 1
    office_about = "What was given out, and which features tell its versions apart"
    list_display = ["name", "code", "garment_class", "issuer"]
    list_filter = ["issuer", "garment_class"]
    search_fields = ["name", "code", "other_names__name"]
    search_help_text = "Name, other name or code"
    autocomplete_fields = ["issuer"]
    inlines = [TypeNameRows, TypeFeatureRows, OwnSilhouetteRows]

    def get_inlines(self, request, obj):
        """Under review it is proposed of each feature which garment types it is asked of."""
        found = super().get_inlines(request, obj)
        return [one for one in found if one is not TypeFeatureRows] if obj and under_review(request) else found


RESTRICTED = [f"{kind.value}_restricted" for kind in Restriction]
# What of a version names, sorts, dates and weighs it, and its cautions; its profile is a record of its own.
PROPOSED = (
    "name", "kind", "cut", "colourway", "issuer", "date", "certainty", "reason", "note", "makers", "passes_for",
    "rarity", "abundance", "piece_seen", "hazard_kind", "hazard", *RESTRICTED,
)  # fmt: skip


class VersionForm(ReferenceForm):
    def clean_passes_for(self):
        """A version is taken for other types than its own."""
        types = self.cleaned_data["passes_for"]
        own = self.cleaned_data.get("garment_type") or (self.instance.garment_type if self.instance.pk else None)
        if own in types:
            raise forms.ValidationError("This is its own type: name the others that it may be taken for.")
        return types


@admin.register(IssueVersion)
class IssueVersionAdmin(ReferenceAdmin):
    form = VersionForm
    office_group, office_place = REFERENCE, 2
    office_about = "Names, dates, makers, numbers and cautions of each version"
    list_display = ["name", "code", "garment_type", "kind", "date", "certainty", "piece_seen"]
    list_filter = ["garment_type", "kind", "certainty", "piece_seen", "cut", "colourway", "hazard_kind"]
    list_select_related = ["garment_type"]
    search_fields = ["name", "code", "other_names__name", "stock_numbers__number", "stock_numbers__bare"]
    search_help_text = "Name, other name, code or stock number"
    autocomplete_fields = ["garment_type", "cut", "colourway", "issuer", "makers", "passes_for"]
    inlines = [VersionNameRows, AncestorRows, NumberRows, SizeRows, VersionCitationRows]
    readonly_fields = ["profile"]
    fieldsets = [
        (None, {"fields": ["code", "garment_type", "name", "kind", "cut", "colourway", "profile"]}),
        ("Given out and made", {"fields": ["issuer", "date", "makers", "reason"]}),
        ("How sure, and how many", {"fields": ["certainty", "piece_seen", "rarity", "abundance"]}),
        ("Cautions", {"fields": ["hazard_kind", "hazard", *RESTRICTED]}),
        ("Confusions and notes", {"fields": ["passes_for", "note", "position"]}),
    ]

    def get_readonly_fields(self, request, obj=None):
        """The features of a record are those of its garment type. Under review what names, dates and sorts a version
        changes by proposals alone."""
        found = tuple(super().get_readonly_fields(request, obj))
        if obj and obj.current_record_id:
            found = (*found, "garment_type")
        if not obj or not under_review(request):
            return found
        return (*dict.fromkeys((*found, "proposed", "garment_type", *PROPOSED)),)

    def get_fieldsets(self, request, obj=None):
        found = super().get_fieldsets(request, obj)
        return [(None, {"fields": ["proposed"]}), *found] if obj and under_review(request) else found

    def get_inlines(self, request, obj):
        """Under review what it continues, its stock numbers, its size table and its sources are proposed too; what
        sellers call it is no claim of the society."""
        return [SellersNameRows] if obj and under_review(request) else super().get_inlines(request, obj)

    def has_add_permission(self, request):
        return super().has_add_permission(request) and not under_review(request)

    def has_delete_permission(self, request, obj=None):
        return super().has_delete_permission(request, obj) and not under_review(request)

    @admin.display(description="under review")
    def proposed(self, version):
        """Why some fields are only read here, and where they are changed."""
        words = (
            "What names, sorts and dates a version, its makers, stock numbers, cautions, sources, size table and "
            'profile are changed by a proposal, which somebody else decides. <a href="{}">Propose a change</a>. '
            "Its garment type stays as it stands. Names used by sellers and its place in lists are written here."
        )
        return format_html(words, address_to_propose(version.code))

    @admin.display(description="profile")
    def profile(self, version):
        """Where the profile is read and written; it is no field of the version, but a record of its own."""
        if version.pk is None:
            return "Save the version first; its profile is then written as a record."
        record = version.current_record
        new = f"{reverse('admin:catalogue_versionrecord_add')}?version={version.pk}"
        board = f"{reverse('figures:drawing_board', args=[version.garment_type.code])}?_version={quote(version.code)}"
        words = '<a href="{}">Its page on the site</a>. <a href="{}">Try it on the drawing board</a>'
        page = format_html(words, address_of("version", version.code), board)
        if record is None:
            return format_html('Nothing is recorded yet. <a href="{}">Write the first record</a>. {}', new, page)
        old = reverse("admin:catalogue_versionrecord_change", args=[record.pk])
        if review_is_on():
            return format_html('<a href="{}">Record {}</a> stands. {}', old, record.number, page)
        words = '<a href="{}">Record {}</a> stands. <a href="{}">Write a new one</a> that begins with it. {}'
        return format_html(words, old, record.number, new, page)

    def get_view_on_site_url(self, obj=None):
        return address_of("version", obj.code) if obj else None

    def history_view(self, request, object_id, extra_context=None):
        """With the way to the records of its profile, which have a history of their own."""
        version = self.get_object(request, object_id)
        profile = {"profile": version.current_record_id if version else None}
        return super().history_view(request, object_id, {**(extra_context or {}), **profile})

    def save_model(self, request, obj, form, change):
        obj.from_year, obj.to_year = year_span(obj.date) if obj.date else (None, None)
        super().save_model(request, obj, form, change)


@admin.register(StockNumber)
class StockNumberAdmin(ReferenceAdmin):
    office_group, office_place = EVIDENCE, 4
    office_about = "Numbers on labels, and which versions carry them"
    list_display = ["number", "version", "form", "first_year", "last_year", "misprint_of"]
    list_filter = ["form", "version__garment_type"]
    list_select_related = ["version", "form"]
    search_fields = ["number", "bare", "version__code", "version__name"]
    search_help_text = "Number, with or without its punctuation, or the version"
    autocomplete_fields = ["version", "form"]
    inlines = [NumberCitationRows]

    def get_fieldsets(self, request, obj=None):
        found = super().get_fieldsets(request, obj)
        if not under_review(request):
            return found
        for _, options in found:
            options["fields"] = [name for name in options["fields"] if name != "proposed"]
        return [(None, {"fields": ["proposed"]}), *found]

    def get_readonly_fields(self, request, obj=None):
        found = tuple(super().get_readonly_fields(request, obj))
        return (*found, "proposed") if under_review(request) else found

    @admin.display(description="under review")
    def proposed(self, number):
        """Why it is only read here, and where it is changed."""
        words = (
            "A stock number finds its version and dates labels: it is changed by a proposal about the version, which "
            'two others decide. <a href="{}">Propose a change of {}</a>.'
        )
        return format_html(words, address_to_propose(number.version.code), number.version.code)

    def has_add_permission(self, request):
        return super().has_add_permission(request) and not under_review(request)

    def has_change_permission(self, request, obj=None):
        return super().has_change_permission(request, obj) and not under_review(request)

    def has_delete_permission(self, request, obj=None):
        return super().has_delete_permission(request, obj) and not under_review(request)


@admin.register(Companion)
class CompanionAdmin(ReferenceAdmin):
    office_group, office_place = REFERENCE, 6
    office_about = "Versions that fit each other, or were worn together"
    list_display = ["version", "goes_with", "other", "joined_by"]
    list_filter = ["goes_with", "version__garment_type"]
    list_select_related = ["version", "other", "joined_by"]
    search_fields = ["version__code", "version__name", "other__code", "other__name", "note"]
    search_help_text = "Code or name of either version"
    autocomplete_fields = ["version", "other", "joined_by"]
    inlines = [CompanionCitationRows]


@admin.register(OpenQuestion)
class OpenQuestionAdmin(ReferenceAdmin):
    office_group, office_place = REFERENCE, 5
    office_about = "Disputed matters, with every view that is held"
    list_display = ["code", "question", "settled"]
    list_filter = ["settled", "versions__garment_type"]
    search_fields = ["code", "question", "views__text", "views__holder"]
    search_help_text = "Words of the question or of a view, its holder or its code"

    def rests_on(self, obj) -> list[str]:
        held = obj.views.count()
        return [f"{counted(held, 'view')} that members hold of “{obj.question}”"] if held else []

    autocomplete_fields = ["versions", "features"]
    inlines = [ViewRows]

    def get_inlines(self, request, obj):
        return [HeldViewRows] if obj and under_review(request) else super().get_inlines(request, obj)

    def save_formset(self, request, form, formset, change):
        """A view says who wrote it down, and is theirs from then on."""
        if formset.model is QuestionView:
            for row in formset.extra_forms:
                row.instance.by, row.instance.made_at = request.user, timezone.now()
        super().save_formset(request, form, formset, change)

    def get_readonly_fields(self, request, obj=None):
        """Under review how a question stands is decided by proposals alone."""
        found = tuple(super().get_readonly_fields(request, obj))
        return (*found, "proposed", "settled", "moderator_note") if obj and under_review(request) else found

    @admin.display(description="under review")
    def proposed(self, question):
        """Why some fields are only read here, and where they are changed."""
        words = (
            "How a question stands, and the words that say it, are changed by a proposal, which two others decide. "
            '<a href="{}">Propose a decision</a>. '
            "A view is changed by who wrote it down, and a new one is written, on "
            '<a href="{}">the page of the question</a>.'
        )
        page = address_of("open_question", question.code)
        return format_html(words, address_to_propose_on_question(question.code), page)
