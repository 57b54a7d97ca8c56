"""What several people's looks at one piece come to, and what pieces of a version show. Plain values only."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from catalogue.member_examples.words import Answer


@dataclass(frozen=True)
class Said:
    """One look, in the order in which looks were written down. `state` is empty where none was named."""

    observer: str
    answer: str
    state: str = ""


def last_looks(said: Iterable[Said]) -> list[Said]:
    """Of each person the last look, in the order in which they first looked."""
    last: dict[str, Said] = {}
    for one in said:
        last[one.observer] = one
    return list(last.values())


def agreed_state(said: Iterable[Said]) -> str:
    """The state that most of those who saw one saw last; empty where nobody did, or where as many saw another.

    "Cannot tell" counts for nothing. A part that is gone, or an altered one, says nothing of the version, so one such
    look by anybody leaves the piece out.
    """
    last = last_looks(said)
    if any(one.answer in (Answer.PART_MISSING, Answer.ALTERED) for one in last):
        return ""
    seen = Counter(one.state for one in last if one.answer == Answer.SEEN and one.state).most_common(2)
    if not seen or (len(seen) == 2 and seen[0][1] == seen[1][1]):
        return ""
    return seen[0][0]


@dataclass(frozen=True)
class PieceSeen:
    """An accepted example: its version, and by feature the state that people agree on. `pictured`: it had photographs
    when it was read; whether they may be seen now is asked when they are shown."""

    code: str
    version: str
    states: Mapping[str, str]
    altered: frozenset[str] = frozenset()
    pictured: bool = False


@dataclass(frozen=True)
class Shown:
    """On which examples of a version a feature shows which state. `pieces` are all that speak of the feature."""

    by_state: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def pieces(self) -> int:
        return sum(len(codes) for codes in self.by_state.values())

    def showing(self, states: Iterable[str]) -> int:
        return sum(len(self.by_state.get(state, ())) for state in states)


NOTHING_SHOWN = Shown()


@dataclass(frozen=True)
class Evidence:
    """All accepted examples of a garment type that are held as one of its versions."""

    pieces: tuple[PieceSeen, ...] = ()

    @cached_property
    def by_code(self) -> dict[str, PieceSeen]:
        return {piece.code: piece for piece in self.pieces}

    @cached_property
    def by_version(self) -> dict[str, list[PieceSeen]]:
        found: dict[str, list[PieceSeen]] = {}
        for piece in self.pieces:
            found.setdefault(piece.version, []).append(piece)
        return found

    @cached_property
    def shown(self) -> dict[str, dict[str, Shown]]:
        """By version, then by feature."""
        return {version: shown_on(pieces) for version, pieces in self.by_version.items()}

    def of(self, version: str, feature: str) -> Shown:
        return self.shown.get(version, {}).get(feature, NOTHING_SHOWN)

    @cached_property
    def number_showing(self) -> Counter:
        """Pieces of whatever version, by (feature, state)."""
        return Counter((feature, state) for piece in self.pieces for feature, state in piece.states.items())

    def pictured_showing(self, feature: str) -> dict[str, list[PieceSeen]]:
        """By state the pieces that show it and had photographs."""
        return self.pictured_by_state.get(feature, {})

    @cached_property
    def pictured_by_state(self) -> dict[str, dict[str, list[PieceSeen]]]:
        found: dict[str, dict[str, list[PieceSeen]]] = {}
        for piece in self.pieces:
            if piece.pictured:
                for feature, state in piece.states.items():
                    found.setdefault(feature, {}).setdefault(state, []).append(piece)
        return found

    def counts(self, version: str, *, without: str = "") -> dict[str, dict[str, int]]:
        """Examples of the version by feature and state, as the engine takes them. `without`: a piece that is judged,
        which must not bear witness for itself."""
        counted = {
            feature: {state: len(codes) for state, codes in shown.by_state.items()}
            for feature, shown in self.shown.get(version, {}).items()
        }
        left_out = self.by_code.get(without)
        if left_out is not None and left_out.version == version:
            for feature, state in left_out.states.items():
                counted[feature][state] -= 1
        return counted

    def nearest(self, version: str, answers: Mapping[str, Iterable[str]], most: int) -> list[tuple[PieceSeen, int]]:
        """The examples of a version that agree with most of the answers, and with how many; fewer disagreements
        decide between equals. `answers`: by feature the states that it may be."""
        ranked = []
        for piece in self.by_version.get(version, ()):
            both = [(piece.states[f], set(states)) for f, states in answers.items() if f in piece.states]
            agree = sum(state in states for state, states in both)
            ranked.append((-agree, len(both) - agree, piece.code, piece))
        return [(piece, -agree) for agree, _, _, piece in sorted(ranked, key=lambda row: row[:3])[:most]]


def shown_on(pieces: Iterable[PieceSeen]) -> dict[str, Shown]:
    found: dict[str, dict[str, list[str]]] = {}
    for piece in pieces:
        for feature, state in piece.states.items():
            found.setdefault(feature, {}).setdefault(state, []).append(piece.code)
    return {
        feature: Shown({state: tuple(codes) for state, codes in by_state.items()})
        for feature, by_state in found.items()
    }
