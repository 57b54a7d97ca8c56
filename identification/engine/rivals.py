"""How firmly the answers hold the other versions off the leading one.

The posterior alone is not enough to name a version: it can rest on colour, on one part that is often changed in
service, or on abundance with no check made. Here evidence is taken answer by answer.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from identification.engine.counting import count, definite, last
from identification.engine.model import CANNOT_TELL, KIND_GROUPS, Answers, Feature
from identification.engine.pack import Allowed, Belief, Pack

# Ten to one, as log10 of the odds. Ours, a judgement and no measurement: on pieces drawn from the demo's record the
# kinds that are said wrongly are as rare at even odds or without the rule (python -m tests.benchmarks.identification
# kinds). It is for copies that are commoner or closer than the record makes them.
CHECKED = 1.0
# An answer to a feature that people often get wrong counts for five to one at most: one alone never decides. Ours.
WEAK_ERROR, WEAK_MOST = 0.15, 0.7
# A rival that only one replaceable part or only weak features hold off stands again under three to one. Ours.
STANDS_AGAIN = 0.48
LEAST_TELLING = 0.1
TINY = 1e-300


@dataclass(frozen=True)
class Evidence:
    """log10 of P(answer | leader) / P(answer | version) for each definite answer, answers × versions.

    `separates`: whether the record of both names states, none in common, for the feature or a part implied by it.
    """

    lead: int
    features: tuple[Feature, ...]
    weights: np.ndarray
    separates: np.ndarray

    @property
    def weak(self) -> np.ndarray:
        return np.array([feature.error >= WEAK_ERROR for feature in self.features], dtype=bool)

    @property
    def replaceable(self) -> np.ndarray:
        return np.array([feature.replaceable for feature in self.features], dtype=bool)


def evidence_for(pack: Pack, answers: Answers, lead: str) -> Evidence:
    """What each definite answer says for the leading version against every other."""
    counted = [one for one in count(pack, answers)[0] if definite(answers[one.feature])]
    row = pack.version_place[lead]
    shape = (len(counted), len(pack.versions))
    ratio = [np.log10(max(one.of_version[row], TINY) / np.maximum(one.of_version, TINY)) for one in counted]
    apart = pack.separates_from(row)
    separates = [apart[with_implied_parts(pack, one.feature, answers)].any(axis=0) for one in counted]
    features = tuple(pack.features[pack.place[one.feature]] for one in counted)
    return Evidence(row, features, np.array(ratio).reshape(shape), np.array(separates, dtype=bool).reshape(shape))


def with_implied_parts(pack: Pack, code: str, answers: Answers) -> list[int]:
    """The feature and the parts above it that nobody answered, which it shows to be there."""
    places = [pack.place[code]]
    while (above := pack.features[places[-1]].parent) in pack.place and above not in answers:
        places.append(pack.place[above])
    return places


def favour(evidence: Evidence) -> np.ndarray:
    """How far answers that tell two versions apart favour the leader over each: log10, each weak feature capped."""
    told = np.where(evidence.separates, evidence.weights, 0.0)
    return told[~evidence.weak].sum(axis=0) + np.minimum(told[evidence.weak], WEAK_MOST).sum(axis=0)


def doubtful_rivals(pack: Pack, belief: Belief, evidence: Evidence) -> dict[int, str | None]:
    """Seen versions that would stand again without weak features and without one replaceable part.

    By the version's place; with the part's feature, or None where weak features alone make the difference. Versions
    that nothing separates from the leader are no rivals: they are named with it.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        odds = np.log10(np.maximum(belief.posterior[evidence.lead], TINY) / np.maximum(belief.posterior, TINY))
    positive = np.maximum(evidence.weights, 0.0)
    firm = odds - np.maximum(positive[evidence.weak] - WEAK_MOST, 0.0).sum(axis=0)
    parts = np.where(evidence.replaceable[:, None] & ~evidence.weak[:, None], positive, 0.0)
    without_part = firm - parts.max(axis=0, initial=0.0)
    twins = {pack.version_place[code] for code in pack.inseparable_from(pack.version_codes[evidence.lead])}
    found: dict[int, str | None] = {}
    for place in np.flatnonzero(without_part < STANDS_AGAIN):
        if place != evidence.lead and int(place) not in twins and pack.versions[place].piece_seen:
            by_part = firm[place] >= STANDS_AGAIN
            found[int(place)] = evidence.features[int(parts[:, place].argmax())].code if by_part else None
    return found


@dataclass(frozen=True)
class Unchecked:
    """A look-alike: a version of another kind of piece that the answers have not ruled out, and what would.

    `would_show` may be asked here, `not_allowed` may not; both most telling for the effort first. `leads_to`: of a
    part that must be answered first, the detail for which it is asked.
    """

    version: str
    group: str
    would_show: tuple[str, ...]
    not_allowed: tuple[str, ...]
    leads_to: Mapping[str, str] = field(default_factory=dict)


def group_of(pack: Pack, code: str) -> str:
    """issued, altered or copy."""
    return KIND_GROUPS[pack.versions[pack.version_place[code]].kind]


def unchecked(pack: Pack, answers: Answers, lead: str, allowed: Allowed | None = None) -> tuple[Unchecked, ...]:
    """Versions of another kind of piece than the leader's that have not been ruled out ten to one."""
    group = group_of(pack, lead)
    others = [version for version in pack.versions if version.piece_seen and KIND_GROUPS[version.kind] != group]
    if not others:
        return ()
    favours = favour(evidence_for(pack, answers, lead))
    return tuple(
        Unchecked(
            version.code,
            KIND_GROUPS[version.kind],
            *checks_between(pack, answers, lead, version.code, allowed),
            details_between(pack, answers, lead, version.code, allowed),
        )
        for version in others
        if favours[pack.version_place[version.code]] < CHECKED
    )


def checks_between(
    pack: Pack, answers: Answers, one: str, other: str, allowed: Allowed | None = None
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Unanswered features that tell two versions apart, most telling per effort first; and those not allowed.

    A detail whose part was not answered yet is reached through the part, which then stands in its place.
    """
    may: dict[str, float] = {}
    may_not: dict[str, float] = {}
    for code in pack.separating(one, other):
        place = next_on_the_way(pack, pack.place[code], answers)
        if place is None:
            continue
        worth = telling(pack, pack.place[code], one, other) / pack.features[place].effort
        way = (pack.features[place], pack.features[pack.place[code]])
        kept = may if allowed is None or all(allowed(feature) for feature in way) else may_not
        step = pack.feature_codes[place] if kept is may else code
        kept[step] = max(worth, kept.get(step, 0.0))
    return tuple(best_first(may, pack)), tuple(best_first(may_not, pack))


def details_between(
    pack: Pack, answers: Answers, one: str, other: str, allowed: Allowed | None = None
) -> dict[str, str]:
    """For each part that leads to a detail which tells two versions apart, the most telling that may be asked."""
    found: dict[str, tuple[float, str]] = {}
    for code in pack.separating(one, other):
        place = next_on_the_way(pack, pack.place[code], answers)
        if place is not None and pack.feature_codes[place] != code:
            if allowed is not None and not allowed(pack.features[pack.place[code]]):
                continue  # the part cannot lead there: the detail itself stands among what is not allowed
            worth = telling(pack, pack.place[code], one, other), code
            found[pack.feature_codes[place]] = max(worth, found.get(pack.feature_codes[place], worth))
    own = set(pack.separating(one, other))
    return {part: code for part, (_, code) in found.items() if part not in own}


def untold_between(pack: Pack, answers: Answers, one: str, other: str) -> tuple[str, ...]:
    """Features that tell two versions apart and were answered with cannot tell, most telling for the effort first."""
    worth = {
        code: telling(pack, pack.place[code], one, other) / pack.features[pack.place[code]].effort
        for code in pack.separating(one, other)
        if last(answers.get(code)) is CANNOT_TELL
    }
    return tuple(best_first(worth, pack))


def best_first(worth: Mapping[str, float], pack: Pack) -> list[str]:
    return sorted(worth, key=lambda code: (-worth[code], pack.place[code]))


def next_on_the_way(pack: Pack, place: int, answers: Answers) -> int | None:
    """The feature itself, or the part above it that must be answered first; None where neither can be asked."""
    while pack.feature_codes[place] not in answers:
        feature = pack.features[place]
        if pack.part_was_seen(feature, answers):
            return place
        place = pack.place[feature.parent]
    return None


def telling(pack: Pack, place: int, one: str, other: str) -> float:
    """Expected weight of evidence of the feature's answer when the piece is `one` (Kullback-Leibler, nats)."""
    span = slice(int(pack.starts[place]), int(pack.starts[place + 1]))
    a, b = pack.table[span, pack.version_place[one]], pack.table[span, pack.version_place[other]]
    return float((a * np.log(np.maximum(a, TINY) / np.maximum(b, TINY))).sum())
