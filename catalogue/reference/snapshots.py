"""A garment type as it was read out of the tables, kept for as long as the reference stays as it is.

A type's page, its versions' pages, comparisons and the walk-through all stand on the same facts, so they cannot
disagree, and a visit costs one query however much is recorded.
"""

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Lock
from typing import ClassVar, TypeVar

from catalogue.reference.facts import TypeFacts
from catalogue.reference.models import IssueVersion, ReferenceState
from catalogue.reference.tables_as_facts import read_types

Kept = TypeVar("Kept")


@contextmanager
def no_search_for_cycles() -> Iterator[None]:
    """Python looks for cycles among all objects each time that many were made. Facts of a type are hundred thousands,
    in no cycle, and stay: without the pause half of the time of reading them went into looking."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


class KeptForState:
    """What was worked out from the reference, kept until the reference changes; what was asked for longest ago goes
    when it is full."""

    of_this_process: ClassVar[list["KeptForState"]] = []

    def __init__(self, most: int):
        self.of_this_process.append(self)
        self.most = most
        self.kept: dict[tuple, tuple[int, object]] = {}
        self.lock = Lock()

    def __call__(self, key: tuple, make: Callable[[], Kept], *, number: int | None = None) -> Kept:
        """What `make` gives, worked out again only after the reference has changed.

        The number is read before the rows: a change in between makes the next visit read again, never a visit
        too few.
        """
        number = ReferenceState.current_number() if number is None else number
        kept = self.kept.get(key)
        if kept and kept[0] == number:
            with self.lock:
                if key in self.kept:
                    self.kept[key] = self.kept.pop(key)
            return kept[1]
        with no_search_for_cycles():
            made = make()
        self.keep(key, made, number=number)
        return made

    def keep(self, key: tuple, made: Kept, *, number: int) -> None:
        with self.lock:
            if len(self.kept) >= self.most:
                self.kept.pop(next(iter(self.kept)))
            self.kept[key] = (number, made)

    def lacks(self, key: tuple, *, number: int) -> bool:
        """Whether `make` would be called for this key."""
        return self.kept.get(key, (None,))[0] != number


keep_for_state = KeptForState(most=512)


def forget_everything() -> None:
    """For tests, where one process sees many databases."""
    for keeper in KeptForState.of_this_process:
        keeper.kept.clear()


def type_facts(code: str, *, number: int | None = None) -> TypeFacts | None:
    """The garment type with this code, or None."""
    return keep_for_state(("type", code), lambda: read_types({"code": code}).get(code), number=number)


def type_of_version(version_code: str, *, number: int | None = None) -> TypeFacts | None:
    """The type that a version belongs to, or None when there is no such version, or none any more."""
    number = ReferenceState.current_number() if number is None else number
    homes = keep_for_state(
        ("types of versions",),
        lambda: dict(IssueVersion.objects.in_force().values_list("code", "garment_type__code")),
        number=number,
    )
    home = homes.get(version_code)
    return type_facts(home, number=number) if home else None


def type_of_retired(version_code: str, *, number: int | None = None) -> TypeFacts | None:
    """The type that a retired version belonged to, or None for any other code."""
    number = ReferenceState.current_number() if number is None else number
    homes = keep_for_state(
        ("types of retired versions",),
        lambda: dict(IssueVersion.objects.retired().values_list("code", "garment_type__code")),
        number=number,
    )
    home = homes.get(version_code)
    return type_facts(home, number=number) if home else None


def all_types(*, number: int | None = None) -> tuple[TypeFacts, ...]:
    """Every garment type, in the society's order, read together: as many queries for three types as for three
    hundred."""
    return keep_for_state(("all types",), lambda: tuple(read_types({}).values()), number=number)
