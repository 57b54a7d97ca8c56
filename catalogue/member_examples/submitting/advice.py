"""What the form asks of the site's own identification. It comes from a later layer and registers itself here at the
start, so this slice never imports it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Protocol

from catalogue.reference.facts import TypeFacts

Answers = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class Known:
    """What is known of a piece beside its features; `code`: the piece itself, which bears no witness for itself."""

    maker: str = ""
    size: str = ""
    year: int | None = None
    code: str = ""


@dataclass(frozen=True)
class ReasonWords:
    """One answer and what it says: `mark` is +, − or ·."""

    name: str
    answer: str
    word: str
    mark: str
    direction: str
    recorded: str


@dataclass(frozen=True)
class Opinion:
    """What the identification makes of the answers. `held`: version, not_in_reference or cannot_say; `version` its
    code, `near` the codes that it names beside it."""

    title: str
    why: str
    held: str
    version: str = ""
    named: tuple[str, ...] = ()
    chance: float | None = None
    reasons: tuple[ReasonWords, ...] = field(default=())


@dataclass(frozen=True)
class View:
    """A view that a further photograph would show, with the names of what it would tell."""

    view: str
    words: str
    features: tuple[str, ...]


class Adviser(Protocol):
    def answers_in(self, facts: TypeFacts, pairs: Iterable[tuple[str, str]]) -> tuple[Answers, tuple[str, ...]]:
        """The answers of a walk's address, and what was left out of it, in words."""

    def next_question(self, facts: TypeFacts, answers: Answers, known: Known, number: int) -> str:
        """The code of the feature to be asked next; empty when no question would tell more."""

    def questions_left(self, facts: TypeFacts, answers: Answers, known: Known, number: int) -> str:
        """About how many questions are still to come, in words."""

    def best_detail(self, facts: TypeFacts, answers: Answers, held: str, known: Known, number: int) -> str:
        """The feature, outside the front as a whole and the label, whose photograph would prove most. `held`: the
        version that the owner names, or empty. Empty where there is none."""

    def further_views(self, facts: TypeFacts, views: tuple[str, ...], known: Known, number: int) -> list[View]:
        """The two views that would tell most beside these, the better one first."""

    def opinion(self, facts: TypeFacts, answers: Answers, known: Known, number: int) -> Opinion | None:
        """What the answers point to; None where nothing was answered or nothing is recorded."""


class NobodyRegistered(RuntimeError):
    """The identification app is not installed."""


registered: list[Adviser] = []


def register(one: Adviser) -> None:
    registered[:] = [one]


def adviser() -> Adviser:
    if not registered:
        raise NobodyRegistered("No identification is registered: is the app `identification` installed?")
    return registered[0]
