"""The verdict settles two questions, each with its own stop rule: what kind of piece, then which version."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from identification.engine.model import KIND_GROUPS, Answers, Measured, States
from identification.engine.pack import TINY, Allowed, Belief, Pack
from identification.engine.reasons import Reason, reasons

SURE = 0.95
PROBABLE = 0.80
NOT_IN_REFERENCE = 0.5
CONTRADICTS = 0.25
MOST_READ_BACK = 3
# A look-alike counts as checked when the answers that could tell it apart favour the leader ten to one. One answer
# on a feature that people often get wrong is worth five to one at most, so it never settles the matter alone. Ours.
CHECKED = 1.0
WEAK_ERROR, WEAK_MOST = 0.15, 0.7
SHORTEST_LIST_FOR_NARROWED = 6


@dataclass(frozen=True)
class Unchecked:
    """A version of another kind that the answers have not ruled out, and what would."""

    version: str
    group: str
    would_show: tuple[str, ...]
    not_allowed: tuple[str, ...]


@dataclass(frozen=True)
class Disagreement:
    """An answer that a version's record does not expect, with the states that it does record."""

    feature: str
    recorded: tuple[str, ...]


@dataclass(frozen=True)
class Verdict:
    """What can be said of the piece. Codes only; words are the site's.

    `kind`: issued, altered, copy or cannot say. `status`: settled, narrowed, inseparable, not_in_reference or open.
    `named` are the versions the verdict names, likeliest first; never one that no member has seen.
    """

    kind: str
    kind_shares: Mapping[str, float]
    status: str
    named: tuple[str, ...]
    short_list: tuple[tuple[str, float], ...]
    unrecorded: float
    leader: str | None = None
    second: str | None = None
    unchecked: tuple[Unchecked, ...] = ()
    nearest: tuple[tuple[str, tuple[Disagreement, ...]], ...] = ()
    not_seen: tuple[str, ...] = ()
    contradicting: tuple[str, ...] = ()
    rests_on: str | None = None
    for_and_against: tuple[Reason, ...] = ()
    next_checks: tuple[str, ...] = ()
    not_allowed_checks: tuple[str, ...] = ()
    belief: Belief | None = field(default=None, repr=False)


def verdict(pack: Pack, answers: Answers, *, allowed: Allowed | None = None) -> Verdict:
    """The verdict on these answers. `allowed` says which features may still be looked at."""
    belief = pack.weigh(answers)
    lead = leader(pack, belief)
    shares = kind_shares(pack, belief)
    if lead is None:
        return Verdict("cannot say", shares, "open", (), (), belief.unrecorded, belief=belief)
    look_alikes = unchecked(pack, answers, lead, allowed)
    resting = rests_on(pack, answers, lead)
    status, named = version_status(pack, answers, belief, lead, resting)
    second = runner_up(pack, belief, lead)
    checks = worthwhile(pack, answers, belief, lead, second, look_alikes, allowed)
    return Verdict(
        kind=kind_of_piece(pack, shares, lead, look_alikes, status),
        kind_shares=shares,
        status=status,
        named=named,
        short_list=short_list(pack, belief),
        unrecorded=belief.unrecorded,
        leader=lead,
        second=second,
        unchecked=look_alikes,
        nearest=nearest(pack, answers, belief),
        not_seen=fitting_unseen(pack, belief, lead),
        contradicting=contradicting(pack, answers, lead),
        rests_on=resting,
        for_and_against=tuple(reasons(pack, answers, lead, second)),
        next_checks=checks[0],
        not_allowed_checks=checks[1],
        belief=belief,
    )


def seen_order(pack: Pack, belief: Belief) -> list[int]:
    """Versions of which a piece has been seen, likeliest first."""
    order = np.lexsort((np.arange(len(pack.versions)), -belief.posterior))
    return [int(i) for i in order if pack.versions[i].piece_seen]


def leader(pack: Pack, belief: Belief) -> str | None:
    order = seen_order(pack, belief)
    return pack.version_codes[order[0]] if order else None


def runner_up(pack: Pack, belief: Belief, lead: str) -> str | None:
    rest = [pack.version_codes[i] for i in seen_order(pack, belief) if pack.version_codes[i] != lead]
    return rest[0] if rest else None


def group_of(pack: Pack, code: str) -> str:
    return KIND_GROUPS[pack.versions[pack.version_place[code]].kind]


def kind_shares(pack: Pack, belief: Belief) -> dict[str, float]:
    """Chance of each kind of piece among the recorded versions, and of none of them."""
    shares = dict.fromkeys(("issued", "altered", "copy"), 0.0)
    for version, chance in zip(pack.versions, belief.posterior, strict=True):
        shares[KIND_GROUPS[version.kind]] += float(chance)
    return shares | {"unrecorded": belief.unrecorded}


def kind_of_piece(pack: Pack, shares, lead: str, look_alikes, status: str) -> str:
    """The kind, where it is nearly sure and every look-alike of another kind has been checked."""
    group = group_of(pack, lead)
    sure = shares[group] >= SURE and status not in ("open", "not_in_reference")
    return group if sure and not look_alikes else "cannot say"


def is_definite(answer) -> bool:
    last = answer[-1] if isinstance(answer, tuple) else answer
    return isinstance(last, States | Measured)


def favours(pack: Pack, counted: Mapping[int, object], lead: str, other: str) -> float:
    """How far the answers that tell the two apart favour the leader: log10 of the odds, weak ones capped."""
    a, b = pack.version_place[lead], pack.version_place[other]
    total = 0.0
    for code in pack.separating(lead, other):
        column = pack.place[code]
        if column in counted and is_definite(counted[column]):
            of_version, _ = pack.likelihoods(column, counted[column])
            weight = float(np.log10(max(of_version[a], TINY) / max(of_version[b], TINY)))
            total += min(weight, WEAK_MOST) if pack.features[column].error >= WEAK_ERROR else weight
    return total


def unchecked(pack: Pack, answers: Answers, lead: str, allowed: Allowed | None) -> tuple[Unchecked, ...]:
    """Versions of another kind of piece that have not been ruled out."""
    counted, _ = pack.counted_answers(answers)
    group = group_of(pack, lead)
    found = []
    for version in pack.versions:
        if KIND_GROUPS[version.kind] == group or not version.piece_seen:
            continue
        if favours(pack, counted, lead, version.code) < CHECKED:
            may, may_not = checks_between(pack, answers, lead, version.code, allowed)
            found.append(Unchecked(version.code, KIND_GROUPS[version.kind], may, may_not))
    return tuple(found)


def checks_between(
    pack: Pack, answers: Answers, one: str, other: str, allowed: Allowed | None
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Unanswered features that tell two versions apart, most telling per effort first; and those not allowed."""
    open_now = set(pack.askable(answers, None).tolist())
    ranked = sorted(
        (-telling(pack, column, one, other) / pack.features[column].effort, column)
        for code in pack.separating(one, other)
        if (column := pack.place[code]) in open_now
    )
    features = [pack.features[column] for _, column in ranked]
    may = tuple(feature.code for feature in features if allowed is None or allowed(feature))
    return may, tuple(feature.code for feature in features if feature.code not in may)


def telling(pack: Pack, column: int, one: str, other: str) -> float:
    """Expected weight of evidence of the feature's answer when the piece is `one` (Kullback-Leibler, nats)."""
    span = slice(int(pack.starts[column]), int(pack.starts[column + 1]))
    a, b = pack.table[pack.version_place[one], span], pack.table[pack.version_place[other], span]
    return float((a * np.log(np.maximum(a, TINY) / np.maximum(b, TINY))).sum())


def rests_on(pack: Pack, answers: Answers, lead: str) -> str | None:
    """The one often replaced part without which the leader would no longer be likelier than not."""
    twins = [pack.version_place[code] for code in (lead, *pack.inseparable_from(lead))]
    for code, answer in answers.items():
        column = pack.place.get(code)
        if column is None or not is_definite(answer) or not pack.features[column].replaceable:
            continue
        without = pack.weigh({other: given for other, given in answers.items() if other != code})
        if float(without.posterior[twins].sum()) < NOT_IN_REFERENCE:
            return code
    return None


def could_have_refuted(pack: Pack, answers: Answers, lead: str) -> bool:
    """Whether some definite answer was given on a feature recorded for the leader in only some of its states."""
    row = pack.version_place[lead]
    return any(
        is_definite(answer)
        and (column := pack.place.get(code)) is not None
        and not np.isnan(pack.issued[column][row, 0])
        and (pack.issued[column][row] == 0).any()
        for code, answer in answers.items()
    )


def version_status(pack: Pack, answers: Answers, belief: Belief, lead: str, resting: str | None):
    """The second question's answer and the versions named with it."""
    twins = tuple(code for code in pack.inseparable_from(lead) if pack.versions[pack.version_place[code]].piece_seen)
    together = float(sum(belief.posterior[pack.version_place[code]] for code in (lead, *twins)))
    listed = tuple(code for code, _ in short_list(pack, belief))
    if belief.unrecorded >= NOT_IN_REFERENCE:
        return "not_in_reference", ()
    if not could_have_refuted(pack, answers, lead):
        return "open", ()
    if together >= SURE and resting is None:
        return ("inseparable" if twins else "settled"), (lead, *by_chance(pack, belief, twins))
    if len(listed) <= SHORTEST_LIST_FOR_NARROWED:
        rivals = rivals_without(pack, answers, resting) if resting else ()
        return "narrowed", tuple(dict.fromkeys([*listed, *by_chance(pack, belief, twins), *rivals]))
    return "open", ()


def by_chance(pack: Pack, belief: Belief, codes) -> list[str]:
    return sorted(codes, key=lambda code: -belief.posterior[pack.version_place[code]])


def rivals_without(pack: Pack, answers: Answers, code: str) -> tuple[str, ...]:
    """The likeliest version if the one replaceable part is left out of account."""
    belief = pack.weigh({other: given for other, given in answers.items() if other != code})
    return tuple(pack.version_codes[i] for i in seen_order(pack, belief)[:1])


def short_list(pack: Pack, belief: Belief) -> tuple[tuple[str, float], ...]:
    """Seen versions, likeliest first, up to 95 % of what the recorded versions hold together."""
    order = seen_order(pack, belief)
    total = float(sum(belief.posterior[i] for i in order))
    listed, reached = [], 0.0
    for i in order:
        if reached >= SURE * total and listed:
            break
        listed.append((pack.version_codes[i], float(belief.posterior[i])))
        reached += float(belief.posterior[i])
    return tuple(listed)


def contradicting(pack: Pack, answers: Answers, lead: str) -> tuple[str, ...]:
    """Definite answers with a chance under a quarter on the leader, least likely first, at most three."""
    counted, _ = pack.counted_answers(answers)
    row = pack.version_place[lead]
    found = []
    for column, answer in counted.items():
        code = pack.feature_codes[column]
        if code in answers and is_definite(answer):
            chance = float(pack.likelihoods(column, answer)[0][row])
            limit = CONTRADICTS**2 if isinstance(answer, tuple) else CONTRADICTS
            if chance < limit:
                found.append((chance, column, code))
    return tuple(code for _, _, code in sorted(found)[:MOST_READ_BACK])


def nearest(pack: Pack, answers: Answers, belief: Belief, most: int = 3):
    """The likeliest seen versions with exactly which answers their records do not expect."""
    return tuple(
        (pack.version_codes[i], disagreements(pack, answers, pack.version_codes[i]))
        for i in seen_order(pack, belief)[:most]
    )


def disagreements(pack: Pack, answers: Answers, version: str) -> tuple[Disagreement, ...]:
    """Definite answers on recorded features that name none of the recorded states."""
    row = pack.version_place[version]
    found = []
    counted, _ = pack.counted_answers(answers)
    for column, answer in counted.items():
        shares = pack.issued[column][row]
        code = pack.feature_codes[column]
        if code not in answers or not is_definite(answer) or np.isnan(shares[0]):
            continue
        if float(pack.likelihoods(column, answer)[0][row]) < CONTRADICTS and not agrees(pack, column, answer, shares):
            states = pack.features[column].states
            found.append(Disagreement(code, tuple(s for s, share in zip(states, shares, strict=True) if share > 0)))
    return tuple(found)


def agrees(pack: Pack, column: int, answer, shares: np.ndarray) -> bool:
    last = answer[-1] if isinstance(answer, tuple) else answer
    if not isinstance(last, States):
        return False
    states = pack.features[column].states
    return any(shares[states.index(state)] > 0 for state in last.states if state in states)


def fitting_unseen(pack: Pack, belief: Belief, lead: str) -> tuple[str, ...]:
    """Versions that fit about as well as the leader but of which no member has seen a piece: only a note."""
    floor = belief.posterior[pack.version_place[lead]] / 10
    return tuple(
        version.code
        for version, chance in zip(pack.versions, belief.posterior, strict=True)
        if not version.piece_seen and chance >= floor
    )


def worthwhile(pack: Pack, answers: Answers, belief, lead, second, look_alikes, allowed):
    """Checks still worth making: first what would unmask a look-alike, then what separates leader and runner-up,
    then what tells most; those that are not allowed apart."""
    pairs = [checks_between(pack, answers, lead, other.version, allowed) for other in look_alikes]
    if second:
        pairs.append(checks_between(pack, answers, lead, second, allowed))
    ranked = [question.feature for question in pack.rank_questions(belief, answers, allowed=allowed)]
    may = dict.fromkeys([*(code for pair in pairs for code in pair[0]), *ranked])
    may_not = dict.fromkeys(code for pair in pairs for code in pair[1])
    return tuple(may)[:8], tuple(may_not)[:8]
