"""Which version a claim means: its code, its name, or a name that sellers use."""

from dataclasses import dataclass

from catalogue.reference.facts import TypeFacts
from catalogue.reference.nearest import near_codes, version_names
from catalogue.reference.numbers import folded
from catalogue.reference.search import EXACT, LONGEST_QUERY, VERSIONS, near_entries, search
from catalogue.reference.snapshots import type_of_version

MOST_MEANT = 12


@dataclass(frozen=True)
class Claimed:
    """`code` of the version that is meant, with its type; or what else it may mean, and what is spelled nearly so."""

    typed: str
    code: str = ""
    facts: TypeFacts | None = None
    meant: tuple[dict, ...] = ()
    near: tuple[dict, ...] = ()


def claimed_version(text: str, *, number: int) -> Claimed:
    """The version that somebody says. A name that sellers use is never taken for the version without asking."""
    typed = " ".join(text.split())[:LONGEST_QUERY]
    names = version_names(number=number)
    code = code_of(typed, names)
    if code:
        return Claimed(typed, code, type_of_version(code, number=number))
    found = [one for one in search(typed, number=number) if one.entry.group == VERSIONS]
    exact = [one for one in found if one.rank == EXACT]
    meant = tuple(
        {"code": one.entry.code, "name": one.entry.title, "detail": one.entry.detail, "why": one.why}
        for one in (exact or found)[:MOST_MEANT]
    )
    return Claimed(typed, meant=meant, near=() if meant else tuple(near(typed, names, number)))


def code_of(typed: str, names: dict[str, str]) -> str:
    """The version of this code, capitals or not, or of exactly this name if it is the only one."""
    if typed in names:
        return typed
    alike = [code for code in names if code.upper() == typed.upper()]
    alike = alike or [code for code, name in names.items() if folded(name) == folded(typed)]
    return alike[0] if len(alike) == 1 else ""


def near(typed: str, names: dict[str, str], number: int) -> list[dict]:
    """Versions whose code or name is spelled nearly so."""
    codes = near_codes(typed, names)
    codes += [entry.code for entry in near_entries(typed, number=number) if entry.group == VERSIONS]
    return [{"code": code, "name": names[code]} for code in dict.fromkeys(codes)]
