"""The year of one piece within its version, and its tape against its size mark, in words."""

from collections import defaultdict

from django.utils import timezone

from catalogue.member_examples.dated import details_of_type, documented, issued_examples, maker_names
from catalogue.member_examples.models import Example, Measurement
from catalogue.member_examples.queries import evidence_of, keep_evidence
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.label_context import society_context
from catalogue.reference.words import VersionKind
from identification.dating.comparing_words import mark_sentences, table_sentences
from identification.dating.piece_year import KnownOfPiece, date_piece
from identification.dating.size_marks import Measured, Reading, against_mark, against_table
from identification.dating.spans import date_version
from identification.dating.words import piece_sentences, too_few_to_date
from identification.label_reading import read_label
from identification.label_reading.contracts import years_of_contracts

UNTESTED = "The dated labels of other pieces are too few to hold it against."


def year_words(example: Example, facts: TypeFacts | None, version: VersionFacts | None, *, number: int) -> list[str]:
    """Of an accepted piece of an issued version with other dated ones; the piece bears no witness for itself.

    A piece whose own label is read and fits needs no words: its label year stands on the page.
    """
    if facts is None or version is None or version.kind != VersionKind.ISSUE:
        return []
    seen = evidence_of(facts.code, number=number).by_code.get(example.code)
    known = KnownOfPiece(
        label_year=example.label_year,
        contract_year=contract_year_of(example, number=number),
        maker=example.maker.code if example.maker else "",
        maker_from=example.maker.first_year if example.maker else None,
        maker_to=example.maker.last_year if example.maker else None,
        details=seen.states if seen else {},
    )
    return dated_within(known, facts, version, number=number, but=example.code)


def contract_year_of(example: Example, *, number: int) -> int | None:
    """The year in which the contract on its label was signed, as the society writes its contracts. None where the
    number cannot be read without a guess, or speaks of several."""
    if not example.contract:
        return None
    context = society_context(garment="", this_year=timezone.localdate().year, number=number)
    years = years_of_contracts(read_label(example.contract, context))
    return years.pop() if len(years) == 1 else None


def dated_within(
    known: KnownOfPiece, facts: TypeFacts, version: VersionFacts, *, number: int, but: str = "", of_label: bool = False
) -> list[str]:
    """When a piece of this issued version was probably made, by the other dated ones; `but` is its own code. That there
    are too few, where three different years are not there and no papers either.

    Where its own label gives the year and all fits, nothing, unless `of_label` asks for it.
    """
    issued = issued_examples(facts, number=number)
    years = [one.year for one in issued if one.version == version.code and one.year and one.code != but]
    dates = date_version(years, documented(version))
    if dates is None or dates.low is None:
        if known.label_year is None:
            return [too_few_to_date(years)]
        return [f"Its label says {known.label_year}. {UNTESTED}"] if of_label else []
    changes = {code: one.changes for code, one in details_of_type(facts, number=number).histories.items()}
    found = date_piece(known, dates, years, changes)
    if known.label_year is not None and not found.against and not of_label:
        return []
    names = {code: f"“{feature.name.lower()}”" for code, feature in facts.features.items()}
    papers = dates.documented.first is not None or dates.documented.last is not None
    return piece_sentences(found, names | maker_names(issued), labels=len(years), papers=papers)


def mark_words(example: Example, facts: TypeFacts | None, version: VersionFacts | None, *, number: int) -> list[str]:
    """Against the version's size table, then against its other accepted pieces; nothing where the piece has no mark or
    was not measured."""
    if facts is None or version is None or not example.size_mark:
        return []
    measured = measured_pieces(facts, number=number)
    own = measured.get(example.code)
    if own is None or not own.lengths:
        return []
    held = {one.code for one in issued_examples(facts, number=number) if one.version == version.code}
    others = against_mark(own, [piece for code, piece in measured.items() if code in held])
    table = size_table(version)
    said = table_sentences(against_table(own, table), list(table))
    return said if others.reading is Reading.TOO_FEW else said + mark_sentences(others)


def size_table(version: VersionFacts) -> dict[str, dict[str, float]]:
    """The version's documented lengths in mm, by mark."""
    table: dict[str, dict[str, float]] = defaultdict(dict)
    for cell in version.sizes:
        table[cell.mark][cell.what] = float(cell.mm)
    return table


def measured_pieces(facts: TypeFacts, *, number: int) -> dict[str, Measured]:
    """The accepted pieces of a type with their mark and lengths; of a length that several took, the first."""
    return keep_evidence(("measured", facts.code), lambda: read_measured(facts), number=number)


def read_measured(facts: TypeFacts) -> dict[str, Measured]:
    rows = (
        Measurement.objects.filter(example__in=Example.objects.accepted().filter(garment_type__code=facts.code))
        .order_by("pk")
        .values_list("example__code", "example__size_mark", "what", "mm")
    )
    lengths: dict[str, dict[str, float]] = defaultdict(dict)
    marks = {}
    for code, mark, what, mm in rows:
        marks[code] = mark
        lengths[code].setdefault(what, float(mm))
    return {code: Measured(marks[code], lengths[code], code) for code in marks}
