"""What a proposal does to identification. The engine's part comes from a later layer, which registers itself here at
the start, so this slice never imports it."""

from dataclasses import dataclass, replace
from typing import Protocol

from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.separation import separation
from catalogue.reference.snapshots import KeptForState

keep_effect = KeptForState(most=256)


@dataclass(frozen=True)
class Identified:
    """How well the versions of a type are identified with a pack: mean number of questions from the start, and how
    many of its versions come out as themselves with everything looked at."""

    questions: float
    told_apart: int


class Weigher(Protocol):
    def identified(self, facts: TypeFacts, number: int) -> Identified | None:
        """With a pack compiled from these facts, real or proposed; None where there is nothing to ask."""


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
    """Another version of the type, and what then tells the two apart."""

    code: str
    name: str
    features: tuple[str, ...] = ()


@dataclass(frozen=True)
class Effect:
    """`separable`: versions that could not be told from this one and then can; `inseparable`: the other way round.

    `before` is None where nothing stands yet, `after` where nothing would; `versions` are numbers of the type's.
    """

    separable: tuple[Pair, ...]
    inseparable: tuple[Pair, ...]
    before: Identified | None
    after: Identified | None
    versions: tuple[int, int]

    @property
    def is_nothing(self) -> bool:
        return not self.separable and not self.inseparable and self.before == self.after


def effect_of(
    home: TypeFacts, now: VersionFacts | None, then: VersionFacts | None, *, key: tuple, number: int, goes: str = ""
) -> Effect:
    """What it does that `then` stands in place of `now`; no `now` for a version that is new, no `then` for one that
    goes; `goes`: the code of another that goes as well. Worked out once for each state of the reference and each `key`,
    the proposal with its revision."""
    return keep_effect(key, lambda: make_effect(home, now, then, number, goes), number=number)


def make_effect(home: TypeFacts, now: VersionFacts | None, then: VersionFacts | None, number: int, goes: str) -> Effect:
    code = (now or then).code
    others = [version for other, version in home.versions.items() if other not in (code, goes)]
    separable, inseparable = [], []
    for other in others:
        before, after = features_between(home, now, other), features_between(home, then, other)
        if before is not None and after is not None and bool(before) != bool(after):
            (separable if after else inseparable).append(Pair(other.code, other.name, after or before))
        elif before is None and not after:
            inseparable.append(Pair(other.code, other.name))
    changed = {c: v for c, v in home.versions.items() if c not in (code, goes)} | ({code: then} if then else {})
    proposed = replace(home, versions=changed)
    return Effect(
        tuple(separable),
        tuple(inseparable),
        weigher().identified(home, number) if home.versions else None,
        weigher().identified(proposed, number) if changed else None,
        (len(home.versions), len(changed)),
    )


def features_between(home: TypeFacts, one: VersionFacts | None, other: VersionFacts) -> tuple[str, ...] | None:
    """Names of the features with no state in common; None where one of the two is not there."""
    if one is None:
        return None
    return tuple(feature.name for feature in separation(one, other, home.features.values()).features)
