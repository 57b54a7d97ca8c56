"""One search for names, nicknames, sellers' names, makers, codes and stock numbers in any punctuation.

The index is made once for each state of the reference; a search asks the database nothing more.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from catalogue.reference.addresses import address_of
from catalogue.reference.facts import NumberFacts, TypeFacts, VersionFacts
from catalogue.reference.models import Issuer, Maker, OpenQuestion, Source
from catalogue.reference.numbers import bare_number, folded
from catalogue.reference.snapshots import all_types, keep_for_state

LONGEST_QUERY = 200
SHORTEST_PART_OF_A_NUMBER = 4
MOST_RESULTS = 60
EXACT, BEGINS, HOLDS, ALL_WORDS, PART = range(5)
VERSIONS, TYPES, MAKERS, ISSUERS, SOURCES, QUESTIONS = (
    "Versions",
    "Garment types",
    "Makers",
    "Issuers",
    "Sources",
    "Open questions",
)


@dataclass(frozen=True)
class Entry:
    """Something that can be found. `bare`: its number without punctuation, or empty. `loose`: words in any order do."""

    text: str
    bare: str
    group: str
    code: str
    title: str
    detail: str
    why: str
    address: str
    loose: bool = False


@dataclass(frozen=True)
class Found:
    entry: Entry
    rank: int
    why: str


def index(*, number: int | None = None) -> tuple[Entry, ...]:
    """Everything that can be found, in the order of the book."""
    return keep_for_state(("search",), lambda: tuple(all_entries()), number=number)


def all_entries() -> Iterable[Entry]:
    types = all_types()
    holders: dict[str, list[str]] = {}
    for facts in types:
        for version in facts.versions.values():
            for number in version.stock_numbers:
                holders.setdefault(bare_number(number.number), []).append(version.code)
    for facts in types:
        yield from type_entries(facts)
        for version in facts.versions.values():
            yield from version_entries(facts, version, holders)
    yield from table_entries()


def table_entries() -> Iterable[Entry]:
    """Makers, issuers, sources and open questions."""
    for maker in Maker.objects.order_by("code"):
        texts = [(maker.name, "name"), (maker.code, "code"), (maker.mark, "what stands on its labels")]
        yield from named(MAKERS, "maker", maker.code, maker.name, maker.kind, texts)
    for issuer in Issuer.objects.order_by("code"):
        yield from named(
            ISSUERS, "issuer", issuer.code, issuer.name, issuer.place, [(issuer.name, "name"), (issuer.code, "code")]
        )
    for source in Source.objects.order_by("code"):
        texts = [(source.title, "title"), (source.code, "code")]
        yield from named(SOURCES, "source", source.code, source.title, f"{source.kind}, grade {source.grade}", texts)
    for question in OpenQuestion.objects.order_by("code"):
        standing = "settled" if question.settled else "open"
        texts = [(question.question, "the question"), (question.code, "code")]
        yield from named(QUESTIONS, "open_question", question.code, question.question, standing, texts)


def named(
    group: str, page: str, code: str, title: str, detail: str, texts: Iterable[tuple[str, str]]
) -> Iterable[Entry]:
    """One entry for each of the texts under which a record can be found."""
    address = address_of(page, code)
    for text, why in texts:
        if text:
            yield Entry(folded(text), "", group, code, title, detail, why, address)


def type_entries(facts: TypeFacts) -> Iterable[Entry]:
    texts = [(facts.name, "name"), (facts.code, "code"), *((n, f"also called {n}") for n in facts.other_names)]
    many = len(facts.versions)
    detail = f"{many} version{'' if many == 1 else 's'}"
    return named(TYPES, "type", facts.code, facts.name, detail, texts)


def version_entries(facts: TypeFacts, version: VersionFacts, holders: dict[str, list[str]]) -> Iterable[Entry]:
    address = address_of("version", version.code)
    detail = version_detail(version)

    def entry(text: str, why: str, bare: str = "", *, loose: bool = False) -> Entry:
        return Entry(folded(text), bare, VERSIONS, version.code, version.name, detail, why, address, loose)

    yield entry(version.name, "name")
    yield entry(version.code, "code")
    for name in version.names:
        why = f"sellers’ name “{name.name}”" if name.by_sellers else f"also called {name.name}"
        yield entry(name.name, f"{why}; no such garment was ever issued" if name.never_issued else why)
    for number in version.stock_numbers:
        bare = bare_number(number.number)
        others = [code for code in dict.fromkeys(holders[bare]) if code != version.code]
        yield entry(number.number, number_words(number, others), bare)
    yield entry(words_of(facts, version), "holds all these words", loose=True)


def version_detail(version: VersionFacts) -> str:
    parts = [version.kind_words, version.date_words, "" if version.piece_seen else "no piece has been seen"]
    return ", ".join(part for part in parts if part)


def words_of(facts: TypeFacts, version: VersionFacts) -> str:
    """All that may be said of a version in a search of several words."""
    names = [version.name, version.code, facts.name, *facts.other_names, version.cut, version.colourway]
    names += [name.name for name in version.names] + [maker.name for maker in version.makers]
    return " ".join([*names, version.kind_words, version.date_words])


def number_words(number: NumberFacts, others: list[str]) -> str:
    """Why a number leads to a version, with all that a person should know of the number."""
    parts = [f"{number.form.split(':')[0].lower() or 'number'} {number.number}"]
    if number.years:
        parts[0] += f", on labels of {number.years}"
    if number.misprint_of:
        parts.append(f"a misprint of {number.misprint_of}")
    if others:
        parts.append(f"also known for {', '.join(others)}: a number narrows, it does not decide")
    if number.note:
        parts.append(number.note)
    return "; ".join(parts)


def search(query: str, *, number: int | None = None) -> list[Found]:
    """All that the query finds, best first: exact, then beginnings, then parts. Each record once."""
    wanted, bare = folded(query.strip()[:LONGEST_QUERY]), bare_number(query[:LONGEST_QUERY])
    if not wanted:
        return []
    words = wanted.split()
    bare = bare if any(c.isdigit() for c in bare) else ""
    best: dict[str, Found] = {}
    for entry in index(number=number):
        found = match(entry, wanted, words, bare)
        if found and (entry.address not in best or found.rank < best[entry.address].rank):
            best[entry.address] = found
    return sorted(best.values(), key=lambda found: found.rank)


def match(entry: Entry, wanted: str, words: list[str], bare: str) -> Found | None:
    """How well an entry answers the query, or None."""
    if entry.loose:
        return Found(entry, ALL_WORDS, entry.why) if all(word in entry.text for word in words) else None
    if entry.text == wanted or (bare and entry.bare == bare):
        return Found(entry, EXACT, entry.why)
    if entry.text.startswith(wanted):
        return Found(entry, BEGINS, entry.why)
    if wanted in entry.text:
        return Found(entry, HOLDS, f"part of {entry.why}" if entry.bare else entry.why)
    if len(bare) >= SHORTEST_PART_OF_A_NUMBER and bare in entry.bare:
        return Found(entry, PART, f"part of {entry.why}")
    return None


def codes_of_versions(query: str, *, number: int | None = None) -> list[str]:
    """Codes of the versions that a search finds."""
    return [found.entry.code for found in search(query, number=number) if found.entry.group == VERSIONS]


def near_entries(query: str, *, number: int | None = None, most: int = 5) -> list[Entry]:
    """What is spelled nearly so: names, and numbers by their figures alone."""
    wanted, bare = folded(query.strip()[:80]), bare_number(query[:80])
    entries = [entry for entry in index(number=number) if not entry.loose]
    texts = {entry.text: entry for entry in entries}
    found = [texts[text] for text in get_close_matches(wanted, texts, most, 0.6)]
    if any(c.isdigit() for c in bare):
        numbers = {entry.bare: entry for entry in entries if entry.bare}
        found = [numbers[close] for close in get_close_matches(bare, numbers, most, 0.75)] + found
    return list({entry.address: entry for entry in found}.values())[:most]


def search_context(query: str, *, number: int) -> dict:
    """What the search page shows for a query: results in groups, the group of the best result first."""
    found = search(query, number=number)
    groups: dict[str, list[Found]] = {}
    for one in found[:MOST_RESULTS]:
        groups.setdefault(one.entry.group, []).append(one)
    asked = bool(query.strip())
    near = near_entries(query, number=number) if asked and not found else []
    return {
        "query": query,
        "asked": asked,
        "number": len(found),
        "more": max(0, len(found) - MOST_RESULTS),
        "groups": [{"name": name, "rows": [result_row(one) for one in rows]} for name, rows in groups.items()],
        "near": [{"title": e.title, "why": e.why, "address": e.address} for e in near],
    }


def result_row(found: Found) -> dict:
    entry = found.entry
    return {
        "title": entry.title,
        "code": entry.code,
        "detail": entry.detail,
        "why": found.why[:1].upper() + found.why[1:],
        "address": entry.address,
    }
