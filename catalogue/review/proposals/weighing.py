"""What a proposal does to identification. The engine's part comes from a later layer, which registers itself here at
the start, so this slice never imports it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from catalogue.member_examples.queries import evidence_of
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.separation import separation
from catalogue.reference.snapshots import KeptForState
from catalogue.review.health.headline import Headline, headline_of

keep_effect = KeptForState(most=256)
# To name one takes some milliseconds, twice.
MOST_PIECES = 120


class Weigher(Protocol):
    def named(self, facts: TypeFacts, pieces: Mapping[str, Mapping[str, str]]) -> dict[str, tuple[str, ...]]:
        """The codes of the versions that each piece comes out as, by the records alone, in their order; none where it
        comes out as no version. `pieces`: what is seen on each, a state by feature."""


registered: list[Weigher] = []


def register(one: Weigher) -> None:
    registered[:] = [one]


class NobodyRegistered(RuntimeError):
    """The identification app is not installed."""


def weigher() -> Weigher:
    if not registered:
        raise NobodyRegistered("No identification is registered: is the app `identification` installed?")
    return registered[0]


@dataclass(frozen=True)
class Pair:
    """Another version of the type, and what then tells the two apart. `of`: from which of the two that a split makes,
    by its code."""

    code: str
    name: str
    features: tuple[str, ...] = ()
    of: str = ""


@dataclass(frozen=True)
class NamedOtherwise:
    """An accepted piece that would come out as other versions than today, in words."""

    code: str
    before: str
    after: str


@dataclass(frozen=True)
class Effect:
    """`separable`: versions that could not be told from this one and then can; `inseparable`: the other way round.

    `each_other`: names of the features that tell the two apart which a split makes; None of anything else.
    `before`, `after`: the headline of the type, None where it has no versions. `otherwise`: of the first `looked_at` of
    all `pieces` that are accepted.
    """

    separable: tuple[Pair, ...]
    inseparable: tuple[Pair, ...]
    before: Headline | None
    after: Headline | None
    otherwise: tuple[NamedOtherwise, ...] = ()
    looked_at: int = 0
    pieces: int = 0
    each_other: tuple[str, ...] | None = None

    @property
    def is_nothing(self) -> bool:
        said = [one and one.said for one in (self.before, self.after)]
        same = said[0] == said[1] and not self.otherwise and self.each_other is None
        return same and not self.separable and not self.inseparable


def effect_of(
    home: TypeFacts, now: VersionFacts | None, then: Sequence[VersionFacts], *, key: tuple, number: int, goes: str = ""
) -> Effect:
    """What it does that `then` stands in place of `now`; no `now` for a version that is new, nothing in `then` for one
    that goes, two for one that is split; `goes`: the code of another that goes as well. Worked out once for each state
    of the reference and each `key`, the proposal with its revision."""
    return keep_effect(key, lambda: make_effect(home, now, then, number, goes), number=number)


def make_effect(
    home: TypeFacts, now: VersionFacts | None, then: Sequence[VersionFacts], number: int, goes: str
) -> Effect:
    gone = {one.code for one in (now, *then) if one} | {goes}
    others = {code: version for code, version in home.versions.items() if code not in gone}
    separable, inseparable = [], []
    for new in then:
        of = new.code if len(then) > 1 else ""
        for other in others.values():
            before, after = features_between(home, now, other), features_between(home, new, other)
            if before is not None and bool(before) != bool(after):
                (separable if after else inseparable).append(Pair(other.code, other.name, after or before, of))
            elif before is None and not after:
                inseparable.append(Pair(other.code, other.name, of=of))
    changed = others | {one.code: one for one in then}
    proposed = replace(home, versions=changed)
    evidence = evidence_of(home.code, number=number)
    seen = {piece.code: piece.states for piece in evidence.pieces}
    looked_at = dict(list(seen.items())[:MOST_PIECES])
    return Effect(
        tuple(separable),
        tuple(inseparable),
        headline_of(home, evidence) if home.versions else None,
        headline_of(proposed, evidence) if changed else None,
        named_otherwise(home, proposed, looked_at, now.code if now and len(then) > 1 else ""),
        len(looked_at),
        len(seen),
        features_between(home, *then) if len(then) > 1 else None,
    )


def named_otherwise(
    home: TypeFacts, proposed: TypeFacts, pieces: Mapping[str, Mapping[str, str]], split: str = ""
) -> tuple[NamedOtherwise, ...]:
    """The pieces that the engine names otherwise with the proposed records; none where either has no version. `split`:
    a version in whose place either of those that it becomes is no other name."""
    if not home.versions or not proposed.versions:
        return ()
    before, after = weigher().named(home, pieces), weigher().named(proposed, pieces)
    return tuple(
        NamedOtherwise(code, in_words(before[code]), in_words(after[code]))
        for code in pieces
        if before[code] != after[code] and not is_only_split(before[code], after[code], home, split)
    )


def is_only_split(before: tuple[str, ...], after: tuple[str, ...], home: TypeFacts, split: str) -> bool:
    """Whether the same versions are named but for those that the version `split` becomes, in whatever order."""
    return bool(split) and set(before) == {code if code in home.versions else split for code in after}


def in_words(codes: tuple[str, ...]) -> str:
    return " or ".join(codes) or "no version"


def features_between(home: TypeFacts, one: VersionFacts | None, other: VersionFacts) -> tuple[str, ...] | None:
    """Names of the features with no state in common; None where one of the two is not there."""
    if one is None:
        return None
    return tuple(feature.name for feature in separation(one, other, home.features.values()).features)
