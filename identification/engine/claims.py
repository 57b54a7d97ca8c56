"""Somebody says that a piece is of a certain version: what to look at, and whether what is seen speaks against it.

A claim is never confirmed here, only not refuted: "nothing against", "doubtful" or "not this". The limits are ours
(no source), chosen by measuring on the demo's pieces (tests/identification/telling_apart/test_claims_of_pieces.py).
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from identification.engine.label_witness import LabelWitness, with_label
from identification.engine.model import Answers
from identification.engine.pack import Allowed, Belief, Pack
from identification.engine.reasons import Reason, decibans, reasons
from identification.engine.rivals import WEAK_ERROR, Unchecked, group_of, unchecked
from identification.engine.verdict import SURE, Disagreement, Verdict, disagreements, verdict

NOTHING_AGAINST, DOUBTFUL, NOT_THIS = "nothing_against", "doubtful", "not_this"
FEWEST_SHOWN, MOST_SHOWN = 3, 5
# Checks end early when they would let so small a share of the rivals through.
SMALL_REST = 0.01
LEAST_WORTH = 0.005
# Ten to one, and about three to one, in decibans of the odds before anything was seen to those after.
REFUTED, SHAKEN = -10.0, -5.0
# In place of a feature's code, where a refutation rests on the label. No feature's code begins so.
THE_LABEL = "_label"


@dataclass(frozen=True)
class ClaimJudged:
    """What the answers make of a claim; codes only, words are the site's.

    `chance`: of the version and its `twins`, which nothing on record tells from it. `decibans`: what all answers
    together, and the label, did to the odds of it. `against`: the rival that fits best (None: no recorded version fits
    better than an unrecorded one); `reasons` are for the claim against it. `disagreements`: answers that the record
    does not know. `rests_on`: the answer without which it would not be refuted, or THE_LABEL. `unchecked`: versions of
    another kind of piece that have not been ruled out against it. `verdict`: what the engine says of the piece without
    any claim; `rather`: versions it names instead.
    """

    version: str
    standing: str
    chance: float
    decibans: float
    twins: tuple[str, ...]
    against: str | None
    reasons: tuple[Reason, ...]
    disagreements: tuple[Disagreement, ...]
    rests_on: str | None
    unchecked: tuple[Unchecked, ...]
    verdict: Verdict
    rather: tuple[str, ...]


# ---- what to look at


def refuting_checks(pack: Pack, version: str, *, allowed: Allowed | None = None) -> tuple[str, ...]:
    """The three to five features likeliest to show that a piece is not of this version, most telling first.

    A check lets a rival through as far as its answers look alike: Σ min(P(a | version), P(a | rival)). Next is always
    the one that stops most of the rivals still let through, for the effort of a right look; a detail comes with its
    parts. Versions of another kind (copies and conversions of an issued version) hold half of the rivals' weight, for
    they are what a claim is made with; within a half versions weigh as they are common.
    """
    row = pack.version_place[version]
    weights = rival_weights(pack, version)
    passing = weights.copy()
    chosen: list[int] = []
    while len(chosen) < MOST_SHOWN and not (len(chosen) >= FEWEST_SHOWN and passing.sum() < SMALL_REST):
        best = best_path(pack, row, passing, chosen, allowed)
        if not best:
            break
        chosen += best
        for place in best:
            passing = passing * alike(pack, place, row)
    return tuple(pack.feature_codes[place] for place in chosen)


def rival_weights(pack: Pack, version: str) -> np.ndarray:
    """A weight for each version that the piece may be instead; nought for those that nothing tells from this one."""
    group = group_of(pack, version)
    twins = {version, *pack.inseparable_from(version)}
    is_rival = np.array([v.piece_seen and v.code not in twins for v in pack.versions], dtype=bool)
    is_other_kind = np.array([group_of(pack, code) != group for code in pack.version_codes], dtype=bool)
    weights = np.zeros(len(pack.versions))
    for part in (is_rival & is_other_kind, is_rival & ~is_other_kind):
        whole = pack.prior[part].sum()
        if whole > 0:
            weights[part] = pack.prior[part] / whole
    return weights / weights.sum() if weights.sum() else weights


def best_path(pack: Pack, row: int, passing: np.ndarray, chosen: Sequence[int], allowed: Allowed | None) -> list[int]:
    """The feature, with its parts that are not asked yet, that stops most for its effort."""
    best: tuple[float, int, list[int]] | None = None
    for place in range(len(pack.features)):
        path = path_to(pack, place, chosen)
        features = [pack.features[step] for step in path]
        if place in chosen or len(chosen) + len(path) > MOST_SHOWN or not pack.is_recorded[place, row]:
            continue
        if allowed is not None and not all(allowed(feature) for feature in features):
            continue
        through = passing.copy()
        for step in path:
            through = through * alike(pack, step, row)
        stopped = float((passing - through).sum())
        score = round(stopped / sum(feature.sure_effort for feature in features), 9)
        if stopped >= LEAST_WORTH and (best is None or score > best[0]):
            best = (score, place, path)
    return best[2] if best else []


def path_to(pack: Pack, place: int, chosen: Sequence[int]) -> list[int]:
    """The parts above that are not asked yet, outermost first, and the feature itself."""
    path = [place]
    while (parent := pack.features[path[0]].parent) in pack.place and pack.place[parent] not in chosen:
        path.insert(0, pack.place[parent])
    return path


def alike(pack: Pack, place: int, row: int) -> np.ndarray:
    """For every version how far its answers to a feature look like those of this one: 1 where they are the same."""
    span = slice(int(pack.starts[place]), int(pack.starts[place + 1]))
    return np.minimum(pack.table[span], pack.table[span, [row]]).sum(axis=0).clip(0.0, 1.0)


# ---- what the answers say


def judge_claim(
    pack: Pack,
    version: str,
    answers: Answers,
    *,
    allowed: Allowed | None = None,
    label: LabelWitness | None = None,
    on_label: Collection[str] = (),
) -> ClaimJudged:
    """What speaks against the claim that the piece is of this version.

    `label`: what its label says, with the answers about features in `on_label` already in it. It counts as one more
    answer that is often got wrong, since labels get moved: what rests on it alone is doubtful, never "not this".

    Not this: the chance of it is under 5 %, the answers made its odds at least ten times worse, both would be so
    without any one of the answers and without all that are often got wrong, and the engine would not name it.
    Doubtful: the first two; or an answer that the record does not know, of a feature that is seldom got wrong; or
    odds about three times worse. Otherwise nothing speaks against it so far.
    """
    body = pack
    if label is not None:
        pack = with_label(pack, label, on_label)
    belief = pack.weigh(answers)
    twins = body.inseparable_from(version)
    before = chance_of(body, body.weigh({}), (version, *twins))
    chance = chance_of(pack, belief, (version, *twins))
    change = change_of_odds(before, chance)
    found = verdict(pack, answers, allowed=allowed)
    odd = disagreements(pack, answers, version)
    named = set(found.named) & {version, *twins}
    part = None
    standing = NOTHING_AGAINST
    if is_refuted(before, chance) and not named:
        part = resting_part(body, pack, (version, *twins), answers, odd, on_label)
        standing = DOUBTFUL if part else NOT_THIS
    elif change <= SHAKEN or any(is_firm(pack, one.feature) for one in odd):
        standing = DOUBTFUL
    against = best_rival(pack, belief, {version, *twins})
    return ClaimJudged(
        version=version,
        standing=standing,
        chance=chance,
        decibans=change,
        twins=twins,
        against=against,
        reasons=tuple(reasons(pack, answers, version, against)),
        disagreements=odd,
        rests_on=part,
        unchecked=unchecked(pack, answers, version, allowed),
        verdict=found,
        rather=found.named if standing != NOTHING_AGAINST and not named and found.status != "open" else (),
    )


def is_firm(pack: Pack, feature: str) -> bool:
    return pack.features[pack.place[feature]].error < WEAK_ERROR


def chance_of(pack: Pack, belief: Belief, together: Collection[str]) -> float:
    """The chance of a version and of those that nothing tells from it."""
    return min(1.0, float(belief.posterior[[pack.version_place[code] for code in together]].sum()))


def change_of_odds(before: float, after: float) -> float:
    """Decibans between two chances of the version, twins with it: 0 before anything is seen."""
    return decibans(after, 1 - after) - decibans(before, 1 - before)


def is_refuted(before: float, after: float) -> bool:
    return after < 1 - SURE and change_of_odds(before, after) <= REFUTED


def resting_part(
    body: Pack,
    pack: Pack,
    together: Collection[str],
    answers: Answers,
    odd: Sequence[Disagreement],
    on_label: Collection[str],
) -> str | None:
    """What a refutation rests on: without it, or without all that is often got wrong, none is left.

    `pack` is `body` with what the label says; the same pack where no label was read. Without the label means without
    the answers about it as well.
    """
    before = chance_of(body, body.weigh({}), together)

    def refuted_by(known: Pack, kept: Mapping) -> bool:
        return is_refuted(before, chance_of(known, known.weigh(kept), together))

    def without(codes: Collection[str]) -> dict:
        return {code: answer for code, answer in answers.items() if code not in codes}

    against = [one.feature for one in odd]
    given = [*against, *(code for code in answers if code in body.place and code not in against)]
    weak = [code for code in given if not is_firm(body, code)]
    if pack is not body and not refuted_by(body, without(on_label)):
        return THE_LABEL
    if weak and not refuted_by(body, without([*weak, *on_label])):
        return weak[0]
    return next((code for code in given if not refuted_by(pack, without([code]))), None)


def best_rival(pack: Pack, belief: Belief, out: Collection[str]) -> str | None:
    """The likeliest seen version that is not in `out`, unless an unrecorded one is likelier still."""
    rivals = [i for i, v in enumerate(pack.versions) if v.piece_seen and v.code not in out]
    best = max(rivals, key=lambda i: belief.posterior[i], default=None)
    if best is None or belief.posterior[best] < belief.unrecorded:
        return None
    return pack.version_codes[best]
