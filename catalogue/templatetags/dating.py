"""What label years and measurements say, on the pages of versions, types, issuers and pieces."""

from django import template
from django.urls import reverse

from catalogue.figures.change_charts import for_screens, span_chart, span_signs
from catalogue.member_examples.addresses import gallery_address
from catalogue.member_examples.dated import contracts_of_ends, label_years_of
from catalogue.member_examples.dated import version_dates as dates_of
from catalogue.member_examples.piece_pages import mark_words, year_words
from catalogue.member_examples.queries import keep_evidence
from catalogue.reference.addresses import address_of
from catalogue.reference.evidence_pages import dated_link
from catalogue.reference.words import VersionKind
from catalogue.templatetags.drawings import drawn
from identification.dating.spans import date_version
from identification.dating.words import counted, span_sentences

register = template.Library()
# Where the label need not be of the year in which the piece became what it is.
OTHER_LABELS = {
    VersionKind.TRANSITIONAL: "The label may be that of the older body.",
    VersionKind.DEPOT_MODIFICATION: "The label is that of the garment before it was changed.",
    VersionKind.CONVERSION: "The label is that of the garment it was made from.",
    VersionKind.COMMERCIAL_COPY: "A copy’s label dates no issue.",
    VersionKind.REPRODUCTION: "A reproduction’s label dates no issue.",
}


@register.inclusion_tag("member_examples/drawn_chart.html")
def drawn_chart(svg: str, signs, title: str):
    """A chart of dated examples with its signs explained."""
    return {"svg": drawn(svg) if svg else "", "signs": signs, "title": title}


@register.inclusion_tag("member_examples/drawn_chart.html")
def issuer_drawing(svg: str, title: str, recorded: bool = False):
    return {
        "svg": drawn(svg) if svg else "",
        "signs": ("sure", "about", "hollow", "wedge") if recorded else ("sure", "about", "hollow"),
        "title": title,
        "sure": "the earlier state",
        "about": "when it may have changed",
    }


@register.inclusion_tag("member_examples/version_dates.html")
def version_dates(facts, version, number: int):
    """The span seen on labels and how far production may reach beyond it; nothing without a dated label."""
    key = ("dates of version", version.code)
    return keep_evidence(key, lambda: made_dates(facts, version, number), number=number)


def made_dates(facts, version, number: int) -> dict:
    dates, years = dates_of(facts, version, number=number)
    if dates is None or version.kind != VersionKind.ISSUE:
        return {}
    contracts = contracts_of_ends(facts, version, number=number)
    said = span_sentences(dates, contracts=contracts)
    title = f"{version.name}: dated labels"
    return {
        "sentences": said,
        "svg": drawn(for_screens(lambda width: span_chart(title, dates, years, width))),
        "signs": span_signs(dates),
        "title": title,
        "sure": "span seen",
        "about": "by papers" if dates.documented.first is not None else "production may reach",
        "details_address": reverse("details:of_type", args=[facts.code]),
    }


@register.inclusion_tag("member_examples/question_pieces.html")
def question_pieces(versions):
    """The versions that an open question touches, with what their accepted pieces say today. `versions`: records."""
    years = label_years_of(version.code for version in versions)
    return {"rows": [pieces_row(version, years.get(version.code, [])) for version in versions]}


def pieces_row(version, years: list[int | None]) -> dict:
    """No production is estimated here: the page of the version does so, with the papers at hand."""
    dates = date_version(year for year in years if year is not None)
    return dated_link(version) | {
        "counted": counted(len(years), "accepted piece") if years else "",
        "pieces": gallery_address(version=version.code),
        "said": span_sentences(dates)[0] if dates else "None with a dated label.",
        "label": OTHER_LABELS.get(version.kind, "") if dates else "",
    }


@register.inclusion_tag("member_examples/piece_dating.html")
def piece_dating(example, facts, version, number: int):
    """The year of one piece within its version, and its measurements against its size mark."""
    return {
        "year": year_words(example, facts, version, number=number),
        "mark": mark_words(example, facts, version, number=number),
        "table": f"{address_of('version', version.code)}#sizes" if version and version.sizes else "",
        "version": version,
    }
