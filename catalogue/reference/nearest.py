"""When a code does not exist: which ones are spelled nearly so."""

from collections.abc import Iterable
from difflib import get_close_matches

from django.http import Http404

from catalogue.reference.addresses import address_of
from catalogue.reference.models import IssueVersion
from catalogue.reference.snapshots import keep_for_state, type_of_retired

NEAR = 0.6
LONGEST_SHOWN = 80


class NoSuchRecord(Http404):
    """A page for a record that does not exist; `near` names records with nearly that code, with their addresses.

    `now_at`: the page that says what became of the record, where there was one; the visitor is led there.
    """

    def __init__(self, words: str, near: list[dict], now_at: str = ""):
        super().__init__(words)
        self.near, self.now_at = near, now_at


def no_such_record(what: str, page: str, code: str, known: Iterable[tuple[str, str]]) -> NoSuchRecord:
    """The exception to raise; `known` holds code and name of every record of the kind."""
    names = dict(known)
    if page == "version":  # a retired one answers too, and is named only where its own code is meant
        names |= dict(IssueVersion.objects.retired().filter(code__iexact=code).values_list("code", "name"))
    near = [{"address": address_of(page, c), "words": f"{c}: {names[c]}"} for c in near_codes(code, names)]
    retired = page == "version" and type_of_retired(code) is not None
    now_at = address_of("version", code) if retired else ""
    return NoSuchRecord(f"There is no {what} “{code[:LONGEST_SHOWN]}”.", near, now_at)


def record_or_nearest(rows, what: str, page: str, code: str, name: str):
    """The record with this code; otherwise a 404 that names what is spelled nearly so."""
    found = rows.filter(code=code).first()
    if found is None:
        raise no_such_record(what, page, code, rows.model.objects.values_list("code", name))
    return found


def near_codes(code: str, known: Iterable[str], most: int = 3) -> list[str]:
    """Codes that are spelled nearly so, nearest first; capitals and small letters count as the same."""
    by_capitals = {one.upper(): one for one in known}
    return [by_capitals[found] for found in get_close_matches(code[:LONGEST_SHOWN].upper(), by_capitals, most, NEAR)]


def version_names(*, number: int | None = None) -> dict[str, str]:
    """Name of every version in force by code, kept until the reference changes."""
    return keep_for_state(
        ("version names",), lambda: dict(IssueVersion.objects.in_force().values_list("code", "name")), number=number
    )
