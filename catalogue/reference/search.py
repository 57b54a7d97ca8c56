"""One search for names, nicknames, sellers' names, makers, codes and stock numbers in any punctuation.

The index is made once for each state of the reference; a search asks the database nothing more.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from catalogue.reference.addresses import address_of
from catalogue.reference.facts import NameFacts, NumberFacts, TypeFacts, VersionFacts
from catalogue.reference.models import Issuer, Maker, OpenQuestion, Source
from catalogue.reference.numbers import bare_number, folded
from catalogue.reference.plurals import counted
from catalogue.reference.snapshots import all_types, keep_for_state
from catalogue.reference.spelling import each_respelled, respelled, singular, words_in

LONGEST_QUERY = 200
SHORTEST_PART_OF_A_NUMBER = 4
SHORTEST_WORD = 3
MOST_RESULTS = 60
FIGURES_OF_A_LABEL = 3  # from so many on it may be a contract's or a trial's number, which the label page reads
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
    """Something that can be found. `bare`: its number or code without punctuation, or empty; of a code only the whole.

    `why` says what was found where the title does not show it. `loose` holds (text, why) of everything that may be
    said of a version, for several words in any order.
    """

    text: str
    bare: str
    group: str
    code: str
    title: str
    detail: str
    why: str
    address: str
    loose: tuple[tuple[str, str], ...] = ()


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
        for gone in facts.retired.values():
            yield from entries_of_merged(facts, gone)
    yield from table_entries()


def table_entries() -> Iterable[Entry]:
    """Makers, issuers, sources and open questions."""
    for maker in Maker.objects.order_by("code"):
        texts = [(maker.name, ""), (maker.code, ""), (maker.mark, f"on its labels: {maker.mark}")]
        yield from named(MAKERS, "maker", maker.code, maker.name, maker.kind, texts)
    for issuer in Issuer.objects.order_by("code"):
        yield from named(
            ISSUERS, "issuer", issuer.code, issuer.name, issuer.place, [(issuer.name, ""), (issuer.code, "")]
        )
    for source in Source.objects.order_by("code"):
        texts = [(source.title, ""), (source.code, "")]
        yield from named(
            SOURCES, "source", source.code, source.title, f"{source.get_kind_display()}, grade {source.grade}", texts
        )
    for question in OpenQuestion.objects.order_by("code"):
        standing = "settled" if question.settled else "open"
        texts = [(question.question, ""), (question.code, "")]
        yield from named(QUESTIONS, "open_question", question.code, question.question, standing, texts)


def named(
    group: str, page: str, code: str, title: str, detail: str, texts: Iterable[tuple[str, str]]
) -> Iterable[Entry]:
    """One entry for each of the texts under which a record can be found."""
    address = address_of(page, code)
    for text, why in texts:
        if text:
            bare = bare_number(code) if text == code else ""
            yield Entry(folded(text), bare, group, code, title, detail, why, address)


def type_entries(facts: TypeFacts) -> Iterable[Entry]:
    texts = [(facts.name, ""), (facts.code, ""), *((n, f"also called {n}") for n in facts.other_names)]
    detail = counted(len(facts.versions), "version")
    return named(TYPES, "type", facts.code, facts.name, detail, texts)


def version_entries(facts: TypeFacts, version: VersionFacts, holders: dict[str, list[str]]) -> Iterable[Entry]:
    address = address_of("version", version.code)
    detail = version_detail(version)

    def entry(text: str, why: str, bare: str = "", loose: tuple[tuple[str, str], ...] = ()) -> Entry:
        return Entry(folded(text), bare, VERSIONS, version.code, version.name, detail, why, address, loose)

    names = [(name.name, name_words(name)) for name in version.names]
    yield entry(version.name, "")
    yield entry(version.code, "", bare_number(version.code))
    for text, why in names:
        yield entry(text, why)
    for number in version.stock_numbers:
        bare = bare_number(number.number)
        others = [code for code in dict.fromkeys(holders[bare]) if code != version.code]
        yield entry(number.number, number_words(number, others), bare)
    loose = tuple((folded(text), why) for text, why in [*said_of(facts, version), *names] if text)
    yield entry(" ".join(text for text, _ in loose), "", loose=loose)


def entries_of_merged(facts: TypeFacts, gone: VersionFacts) -> Iterable[Entry]:
    """Code and name of a retired version find what it became."""
    for one in facts.in_force(gone.code):
        texts = [(text, f"stands in place of {gone.code}") for text in (gone.code, gone.name)]
        yield from named(VERSIONS, "version", one.code, one.name, version_detail(one), texts)


def name_words(name: NameFacts) -> str:
    words = f"sold as {name.name}" if name.by_sellers else f"also called {name.name}"
    return f"{words}; no such garment was ever issued" if name.never_issued else words


def version_detail(version: VersionFacts) -> str:
    parts = [version.kind_words, version.date_words, "" if version.piece_seen else "no piece has been seen"]
    return ", ".join(part for part in parts if part)


def said_of(facts: TypeFacts, version: VersionFacts) -> list[tuple[str, str]]:
    """(text, why) of all that may be said of a version in a search of several words, but its other names."""
    shown = [version.name, version.code, version.kind_words, version.date_words]
    return [
        *((text, "") for text in shown),
        (facts.name, f"garment type {facts.name}"),
        *((name, f"garment type {facts.name}, also called {name}") for name in facts.other_names),
        (version.cut, f"cut: {version.cut}"),
        (version.colourway, f"colourway: {version.colourway}"),
        *((maker.name, f"made by {maker.name}") for maker in version.makers),
    ]


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
    """All that the query finds, best first: exact, then beginnings, then parts. Each record once.

    A plural finds what its singular finds, behind what it finds itself.
    """
    wanted, bare = folded(query.strip()[:LONGEST_QUERY]), bare_number(query[:LONGEST_QUERY])
    if not wanted:
        return []
    best: dict[str, Found] = {}
    for asked in dict.fromkeys((wanted, singular(wanted, known_words(number=number)))):
        words = asked.split()
        for entry in index(number=number):
            found = match(entry, asked, words, bare)
            if found and (entry.address not in best or found.rank < best[entry.address].rank):
                best[entry.address] = found
    return sorted(best.values(), key=lambda found: found.rank)


def with_most_words(query: str, *, number: int | None = None) -> tuple[list[Found], list[str], int]:
    """What has most of the words of a query that nothing answers, the words as they were read, and how many of them.

    Words shorter than three letters count for nothing, and of fewer than two others there is no "most".
    """
    entries = index(number=number)
    typed = [word for word in folded(query.strip()[:LONGEST_QUERY]).split() if len(word) >= SHORTEST_WORD]
    known = known_words(number=number)
    plain = singular(" ".join(typed), known).split()
    words = each_respelled(plain, known, lambda word: any(begins_in(word, entry.text) for entry in entries))
    rows = [(sum(begins_in(w, entry.text) for w in words), entry) for entry in entries] if len(words) > 1 else []
    most = max((number_of for number_of, _ in rows), default=0)
    best: dict[str, Found] = {}
    for number_of, entry in rows:
        if most and number_of == most:
            held = [word for word in words if begins_in(word, entry.text)]
            said = why_all(entry, held) if entry.loose else entry.why
            best.setdefault(entry.address, Found(entry, ALL_WORDS, said))
    return list(best.values()), words, most


def begins_in(word: str, text: str) -> bool:
    """Whether a word of the text begins so."""
    return f" {word}" in f" {text}"


def match(entry: Entry, wanted: str, words: list[str], bare: str) -> Found | None:
    """How well an entry answers the query, or None."""
    if entry.loose:
        return Found(entry, ALL_WORDS, why_all(entry, words)) if all(word in entry.text for word in words) else None
    if entry.text == wanted or (bare and entry.bare == bare):
        return Found(entry, EXACT, entry.why)
    if entry.text.startswith(wanted):
        return Found(entry, BEGINS, entry.why)
    if wanted in entry.text:
        return Found(entry, HOLDS, f"part of {entry.why}" if entry.bare and entry.why else entry.why)
    if entry.why and len(bare) >= SHORTEST_PART_OF_A_NUMBER and bare in entry.bare and any(map(str.isdigit, bare)):
        return Found(entry, PART, f"part of {entry.why}")
    return None


def why_all(entry: Entry, words: list[str]) -> str:
    """Where those words stand that the row does not show by itself."""
    found = []
    for word in words:
        reasons = [why for text, why in entry.loose if word in text]
        if "" not in reasons:
            found += reasons[:1]
    return "; ".join(dict.fromkeys(found))


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


def other_spelling(query: str, found: list[Found], *, number: int | None = None) -> str:
    """What the query may have meant, where it found nothing exactly so: itself with its misspelt words put right."""
    if any(one.rank == EXACT for one in found):
        return ""
    known = known_words(number=number)
    wanted = singular(folded(query.strip()), known)
    return respelled(wanted, known, lambda words: bool(search(words, number=number)), longer=not found)


def known_words(*, number: int | None = None) -> Mapping[str, int]:
    """Every word that stands anywhere in the index."""
    return keep_for_state(
        ("words of the search",), lambda: words_in(entry.text for entry in index(number=number)), number=number
    )


def search_context(query: str, *, number: int) -> dict:
    """What the search page shows for a query: results in groups, the group of the best result first.

    A query that finds nothing is forgiven its spelling: what is shown then was found for `meant`. One that finds
    something, though no word of that spelling, shows it and offers `perhaps`. Where nothing has all of its words,
    what has most of them is shown: `some` of the `read_as`.
    """
    found = search(query, number=number)
    other = other_spelling(query, found, number=number)
    meant, perhaps = ("", other) if found else (other, "")
    found = found or (search(meant, number=number) if meant else [])
    read_as, some = [], 0
    if not found:
        found, read_as, some = with_most_words(query, number=number)
    groups: dict[str, list[Found]] = {}
    for one in found[:MOST_RESULTS]:
        groups.setdefault(one.entry.group, []).append(one)
    asked = bool(query.strip())
    near = near_entries(query, number=number) if asked and not found else []
    return {
        "query": query,
        "asked": asked,
        "may_be_of_a_label": sum(map(str.isdigit, query)) >= FIGURES_OF_A_LABEL,
        "meant": meant,
        "perhaps": perhaps,
        "some": some,
        "read_as": read_as,
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
