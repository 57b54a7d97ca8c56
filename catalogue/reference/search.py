"""One search for names, nicknames, sellers' names, makers, codes and stock numbers in any punctuation.

The index is made once for each state of the reference; a search asks the database nothing more.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from django.urls import reverse

from catalogue.reference.contents import Contents, contents
from catalogue.reference.facts import years_in_words
from catalogue.reference.models import IssueVersion, Maker, Source, StockNumber
from catalogue.reference.numbers import bare_number, folded
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.uncertain_dates import in_words
from catalogue.reference.words import NameBy

LONGEST_QUERY = 200
SHORTEST_PART_OF_A_NUMBER = 4
MOST_RESULTS = 60
EXACT, BEGINS, HOLDS, PART = 0, 1, 2, 3


@dataclass(frozen=True)
class Entry:
    """Something that can be found. `bare` is its number without punctuation, or empty."""

    text: str
    bare: str
    group: str
    title: str
    detail: str
    why: str
    address: str


@dataclass(frozen=True)
class Found:
    entry: Entry
    rank: int
    why: str


def index() -> tuple[Entry, ...]:
    """Everything that can be found, in the order of the book."""
    return keep_for_state(("search",), lambda: tuple(all_entries()))


def all_entries() -> Iterable[Entry]:
    for one in contents():
        yield from type_entries(one)
    rows = IssueVersion.objects.order_by("garment_type__position", "position", "code")
    versions = list(rows.prefetch_related("other_names", "stock_numbers__form"))
    holders: dict[str, list[str]] = {}
    for version in versions:
        for number in version.stock_numbers.all():
            holders.setdefault(number.bare, []).append(version.code)
    for version in versions:
        yield from version_entries(version, holders)
    for maker in Maker.objects.all():
        address = reverse("reference:maker", args=[maker.code])
        for text in filter(None, (maker.name, maker.code, maker.mark)):
            yield Entry(folded(text), "", "Makers", maker.name, maker.kind, f"maker: {text}", address)
    for source in Source.objects.all():
        address = reverse("reference:source", args=[source.code])
        for text in (source.title, source.code):
            yield Entry(folded(text), "", "Sources", source.title, source.kind, f"source {source.code}", address)


def type_entries(one: Contents) -> Iterable[Entry]:
    address = reverse("reference:type", args=[one.code])
    for text, why in [(one.name, "name"), (one.code, "code"), *((n, f"also called {n}") for n in one.other_names)]:
        yield Entry(folded(text), "", "Garment types", one.name, one.description, why, address)


def version_entries(version: IssueVersion, holders: dict[str, list[str]]) -> Iterable[Entry]:
    address = reverse("reference:version", args=[version.code])
    dates = in_words(version.date)
    unseen = "" if version.piece_seen else "; no piece has been seen"
    detail = f"{version.get_kind_display()}{f', {dates}' if dates else ''}{unseen}"
    for text, why in ((version.name, "name"), (version.code, "code")):
        yield Entry(folded(text), "", "Versions", version.name, detail, why, address)
    for name in version.other_names.all():
        by_sellers = name.used_by == NameBy.SELLERS
        why = f"sellers’ name “{name.name}”" if by_sellers else f"also called {name.name}"
        if name.never_issued:
            why += "; no such garment was ever issued"
        yield Entry(folded(name.name), "", "Versions", version.name, detail, why, address)
    for number in version.stock_numbers.all():
        why = number_words(number, [code for code in holders[number.bare] if code != version.code])
        yield Entry(folded(number.number), number.bare, "Versions", version.name, detail, why, address)


def number_words(number: StockNumber, others: list[str]) -> str:
    """Why a number leads to a version, with all that a person should know of the number."""
    form = number.form.name.split(":")[0].lower() if number.form else "number"
    parts = [f"{form} {number.number}"]
    if years := years_in_words(number.first_year, number.last_year):
        parts[0] += f", on labels of {years}"
    if number.misprint_of:
        parts.append(f"a misprint of {number.misprint_of}")
    if others:
        parts.append(f"also known for {', '.join(others)}: a number narrows, it does not decide")
    if number.note:
        parts.append(number.note)
    return "; ".join(parts)


def search(query: str) -> list[Found]:
    """What the query finds, best first: exact, then beginnings, then parts. Each entry's page once."""
    wanted, bare = folded(query.strip()[:LONGEST_QUERY]), bare_number(query[:LONGEST_QUERY])
    if not wanted:
        return []
    is_number = any(c.isdigit() for c in bare)
    best: dict[str, Found] = {}
    for entry in index():
        found = match(entry, wanted, bare if is_number else "")
        if found and (entry.address not in best or found.rank < best[entry.address].rank):
            best[entry.address] = found
    return sorted(best.values(), key=lambda found: found.rank)[:MOST_RESULTS]


def match(entry: Entry, wanted: str, bare: str) -> Found | None:
    if entry.text == wanted or (bare and entry.bare == bare):
        return Found(entry, EXACT, entry.why)
    if entry.text.startswith(wanted):
        return Found(entry, BEGINS, entry.why)
    if wanted in entry.text or all(word in entry.text for word in wanted.split()):
        return Found(entry, HOLDS, entry.why)
    if len(bare) >= SHORTEST_PART_OF_A_NUMBER and entry.bare and bare in entry.bare:
        return Found(entry, PART, f"part of {entry.why}")
    return None


def near_words(query: str, most: int = 5) -> list[str]:
    """Names that are spelled nearly so."""
    titles = {entry.text: entry.title for entry in index()}
    return list(dict.fromkeys(titles[text] for text in get_close_matches(folded(query[:80]), titles, most, 0.6)))
