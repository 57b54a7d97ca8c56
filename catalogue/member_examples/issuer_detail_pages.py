"""One detail on all garment types of an issuer: the dated changes, and what stands behind those on record."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from catalogue.figures.change_charts import TypeRow, for_screens, issuer_chart
from catalogue.member_examples.dated import details_of_type, keep_details_of
from catalogue.member_examples.detail_pages import detail_address, issuer_detail_address, labels_of
from catalogue.member_examples.detail_papers import (
    ORDERED,
    Expected,
    RecordedChange,
    expected_changes,
    grounds_of,
    is_order,
    recorded_changes,
)
from catalogue.member_examples.queries import keep_evidence
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.models import Source, VersionRecord
from identification.dating.change_over import History, Shown
from identification.dating.words import counted, history_in_short


def of_issuer(issuer: str, types: list[TypeFacts]) -> list[TypeFacts]:
    """Types that the issuer of this code gave out."""
    return [facts for facts in types if facts.issuer == issuer]


def issuer_details_context(issuer, types: list[TypeFacts], *, number: int) -> dict:
    """Which details can be followed over the issuer's types, with how many of them changed."""
    key = ("details of issuer", issuer.code)
    return keep_evidence(key, lambda: make_issuer_details(issuer, types, number=number), number=number)


def make_issuer_details(issuer, types: list[TypeFacts], *, number: int) -> dict:
    names: dict[str, str] = {}
    changed, dated = Counter(), Counter()
    keep_details_of(of_issuer(issuer.code, types), number=number)
    for facts in of_issuer(issuer.code, types):
        for code, history in details_of_type(facts, number=number).histories.items():
            names.setdefault(code, facts.features[code].name)
            dated[code] += 1
            changed[code] += history.shown is Shown.CHANGED
    rows = [
        {
            "name": names[code],
            "address": issuer_detail_address(issuer.code, code),
            "words": f"changed in {changed[code]} of {counted(dated[code], 'garment type')}",
            "changed": changed[code],
        }
        for code in names
    ]
    return issuer_frame(issuer) | {"rows": sorted(rows, key=lambda row: (-row["changed"], row["name"]))}


def issuer_frame(issuer) -> dict:
    return {"issuer": issuer, "issuer_address": address_of("issuer", issuer.code)}


def issuer_detail_context(issuer, types: list[TypeFacts], code: str, *, number: int) -> dict | None:
    """One detail of all types of an issuer on the same years; None where no type of it has the feature."""
    having = [facts for facts in of_issuer(issuer.code, types) if code in facts.features]
    if not having:
        return None
    key = ("detail of issuer", issuer.code, code)
    return keep_evidence(key, lambda: make_issuer_detail(issuer, having, code, number=number), number=number)


def make_issuer_detail(issuer, having: list[TypeFacts], code: str, *, number: int) -> dict:
    rows, on_record, undated = [], {}, []
    keep_details_of(having, number=number)
    for facts in having:
        details = details_of_type(facts, number=number)
        on_record[facts.name] = recorded_changes(facts, code)
        pieces = tuple(details.pieces.get(code, ()))
        if not pieces and not on_record[facts.name]:
            undated.append(facts.name)
            continue
        history = details.histories.get(code, History(Shown.TOO_FEW, 0))
        words = history_in_short(history, labels_of(facts.features[code])) if pieces else "no dated example"
        years = tuple(one.year for one in on_record[facts.name] if one.year and one.beside is None)
        rows.append(TypeRow(facts.name, detail_address(facts.code, code), pieces, history, words, years))
    name, labels = having[0].features[code].name, labels_of(having[0].features[code])
    title = f"{name}: all garment types of {issuer.name}"
    every = [one for changes in on_record.values() for one in changes]
    known = behind(every)
    seen = {
        facts.code: {p.state for p in details_of_type(facts, number=number).pieces.get(code, ())} for facts in having
    }
    expected = expected_changes(having, code, years_of_changes(rows, on_record), seen)
    return issuer_frame(issuer) | {
        "name": name,
        "svg": for_screens(lambda width: issuer_chart(title, rows, width)),
        "recorded": any(on_record.values()),
        "rows": [
            {
                "name": row.name,
                "address": row.address,
                "words": row.words,
                "recorded": [recorded_row(one, labels, known) for one in on_record[row.name]],
            }
            for row in rows
        ],
        "expected": [expected_row(one, labels) for one in expected],
        "undated": undated,
    }


def years_of_changes(rows: list[TypeRow], on_record: Mapping[str, list[RecordedChange]]) -> dict:
    """The year of each change by garment type: from dated examples, else on record; none of a side version."""
    found: dict[tuple[str, str], dict[str, int]] = {}
    for row in rows:
        for one in on_record[row.name]:
            if one.year and one.beside is None and len(one.before) == len(one.after) == 1:
                found.setdefault((one.before[0], one.after[0]), {})[row.name] = one.year
        for change in row.history.changes:
            found.setdefault((change.before, change.after), {})[row.name] = change.about
    return found


def writers_of(versions: Iterable[VersionFacts]) -> dict[str, str]:
    """Who wrote the record in force of each version, by its code; nothing where it was imported."""
    numbers = {version.code: version.record_number for version in versions}
    rows = VersionRecord.objects.filter(version__code__in=numbers, written_by__isnull=False)
    columns = rows.values_list("version__code", "number", "written_by__username")
    return {code: name for code, number, name in columns if numbers[code] == number}


def papers_of(changes: Iterable[RecordedChange]) -> dict[str, Source]:
    """The sources that they rest on, by code."""
    return Source.objects.in_bulk({paper.source for one in changes for paper in one.papers}, field_name="code")


@dataclass(frozen=True)
class Behind:
    """What stands behind the changes of one page: who wrote each version's record, and the sources."""

    writers: Mapping[str, str]
    sources: Mapping[str, Source]


def behind(changes: Sequence[RecordedChange]) -> Behind:
    return Behind(writers_of(one.version for one in changes), papers_of(changes))


def recorded_row(one: RecordedChange, labels: Mapping[str, str], known: Behind) -> dict:
    kinds = {code: source.kind for code, source in known.sources.items()}
    grounds = grounds_of(one, kinds)
    # What else it rests on, as a photograph or dated labels, ordered nothing.
    orders = [paper for paper in one.papers if is_order(kinds.get(paper.source, ""))]
    papers = orders if grounds == ORDERED else one.papers
    return {
        "before": states_words(one.before, labels),
        "after": states_words(one.after, labels),
        "version": one.version.name,
        "version_address": address_of("version", one.version.code),
        "dates": one.version.date_words,
        "grounds": grounds,
        "by": by_whom(one, grounds, known),
        "papers": [paper_row(paper.source, paper.title, known.sources.get(paper.source)) for paper in papers],
        "carried_from": one.carried_from,
        "beside": one.beside
        and {
            "name": one.beside.name,
            "address": address_of("version", one.beside.code),
            "until": one.beside.to_year,
        },
    }


def states_words(states: Iterable[str], labels: Mapping[str, str]) -> str:
    return " or ".join(labels.get(state, state) for state in states)


def by_whom(one: RecordedChange, grounds: str, known: Behind) -> str:
    """An order is the issuer's; what was inferred or guessed is of whoever wrote the record."""
    who = one.version.issuer if grounds == ORDERED else known.writers.get(one.version.code, "")
    return f"by {who}" if who else "(by whom is not on record)"


def paper_row(code: str, title: str, source: Source | None) -> dict:
    """A paper with its kind, unless its title has it, its date and who keeps it."""
    kind = source.get_kind_display() if source else ""
    told = source and source.kind in title.lower()
    return {
        "title": title,
        "kind": "" if told else kind,
        "address": address_of("source", code),
        "where": source.kept_where() if source else "",
    }


def expected_row(one: Expected, labels: Mapping[str, str]) -> dict:
    return {
        "name": one.type_name,
        "before": labels.get(one.before, one.before),
        "after": labels.get(one.after, one.after),
        "version": one.version.name,
        "version_address": address_of("version", one.version.code),
        "until": one.version.to_year,
        "year": one.year,
        "elsewhere": " and ".join(one.elsewhere),
    }
