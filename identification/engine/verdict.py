"""The verdict settles two questions, each with its own stop rule: what kind of piece, then which version."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from identification.engine.counting import chances_of, count, definite, last
from identification.engine.model import KIND_GROUPS, Answers, States
from identification.engine.pack import Allowed, Belief, Pack
from identification.engine.reasons import Reason, prior_decibans, reasons
from identification.engine.rivals import (
    WEAK_ERROR,
    Unchecked,
    checks_between,
    doubtful_rivals,
    evidence_for,
    group_of,
    unchecked,
    untold_between,
)

# Odds of 19 to 1: Wald's limit for error rates of .05 (Wald 1945, Ann. Math. Stat. 16:117, from memory).
SURE = 0.95
PROBABLE = 0.8
NOT_IN_REFERENCE = 0.5
CONTRADICTS = 0.25
MOST_READ_BACK = 3
MOST_NARROWED = 6
MOST_CHECKS = 8
MOST_EXPLAINED = 5
CANNOT_SAY = "cannot say"
# A check tells versions apart if an answer so likely on one is so many times likelier than on another. Ours, no source.
LIKELY_ENOUGH, FAR_LIKELIER = 0.1, 2.0
# Decibans that a reason must speak against the leader to be told before those that speak for it.
NOTICED = 1.0


@dataclass(frozen=True)
class Disagreement:
    """An answer that a version's record does not expect, with the states that it does record."""

    feature: str
    recorded: tuple[str, ...]


@dataclass(frozen=True)
class Verdict:
    """What can be said of the piece. Codes only; words are the site's.

    `kind`: issued, altered, copy or cannot say; `probable_kind`: what it then probably is, where that is likely and
    no look-alike stands unchecked. `status`: settled, narrowed, inseparable, not_in_reference or open.
    `named`: the versions that the verdict names, likeliest first; never one of which no piece has been seen.
    `short_list`: seen versions up to 95 % together. `unchecked`: look-alikes of another kind not yet ruled out.
    `nearest`: the likeliest versions, each with the answers that its record does not expect. `not_seen`: fit,
    but no piece of them has been seen. `contradicting`: answers unlikely on the leader. `rests_on`: the
    one part that alone holds a rival off what is named. `second`: the likeliest version that the verdict does not
    name, or the runner-up where it names all; `for_and_against`: the leader against it, what speaks against first.
    `next_checks` may be made here, `not_allowed_checks` may not; `untold_checks` would decide but could not be told.
    """

    kind: str
    kind_shares: Mapping[str, float]
    status: str
    named: tuple[str, ...]
    short_list: tuple[tuple[str, float], ...]
    unrecorded: float
    belief: Belief = field(repr=False)
    leader: str | None = None
    second: str | None = None
    unchecked: tuple[Unchecked, ...] = ()
    nearest: tuple[tuple[str, tuple[Disagreement, ...]], ...] = ()
    not_seen: tuple[str, ...] = ()
    contradicting: tuple[str, ...] = ()
    rests_on: str | None = None
    for_and_against: tuple[Reason, ...] = ()
    others_against_leader: Mapping[str, tuple[Reason, ...]] = field(default_factory=dict)
    prior_decibans: float = 0.0
    prior_mattered: bool = False
    next_checks: tuple[str, ...] = ()
    not_allowed_checks: tuple[str, ...] = ()
    untold_checks: tuple[str, ...] = ()
    probable_kind: str | None = None

    @property
    def kind_settled(self) -> bool:
        return self.kind != CANNOT_SAY


def verdict(pack: Pack, answers: Answers, *, allowed: Allowed | None = None) -> Verdict:
    """The verdict on these answers. `allowed` says which features may still be looked at."""
    belief = pack.weigh(answers)
    lead = leader(pack, belief)
    shares = kind_shares(pack, belief)
    if lead is None:
        notes = fitting_unseen(pack, belief, None)
        return Verdict(CANNOT_SAY, shares, "open", (), (), belief.unrecorded, belief, not_seen=notes)
    doubtful = doubtful_rivals(pack, belief, evidence_for(pack, answers, lead))
    status, named = version_status(pack, answers, belief, lead, doubtful)
    listed = short_list(pack, belief)
    second = runner_up(pack, belief, lead, named)
    look_alikes = look_alikes_of(pack, answers, named or [code for code, _ in listed], lead, allowed)
    three = (lead, second, runner_up(pack, belief, lead))
    among = [*three, *named, *(code for code, _ in listed), *(other.version for other in look_alikes)]
    checks = worthwhile(pack, answers, belief, three, look_alikes, allowed, among)
    kind = kind_of_piece(pack, shares, lead, look_alikes, status)
    return Verdict(
        kind=kind,
        probable_kind=kind_of_piece(pack, shares, lead, look_alikes, status, PROBABLE) if kind == CANNOT_SAY else None,
        kind_shares=shares,
        status=status,
        named=named,
        short_list=listed,
        unrecorded=belief.unrecorded,
        belief=belief,
        leader=lead,
        second=second,
        unchecked=look_alikes,
        nearest=nearest(pack, answers, belief),
        not_seen=fitting_unseen(pack, belief, lead),
        contradicting=contradicting(pack, answers, lead),
        rests_on=next((part for part in doubtful.values() if part), None) if named else None,
        for_and_against=tuple(sorted(reasons(pack, answers, lead, second), key=lambda one: one.decibans > -NOTICED)),
        others_against_leader=others_against_leader(pack, answers, listed, lead),
        prior_decibans=prior_decibans(pack, lead, second) if second else 0.0,
        prior_mattered=prior_mattered(pack, belief, lead),
        next_checks=checks[0],
        not_allowed_checks=checks[1],
        untold_checks=checks[2],
    )


# ---- who leads


def seen_order(pack: Pack, belief: Belief) -> list[int]:
    """Versions of which a piece has been seen, likeliest first."""
    order = np.argsort(-belief.posterior, kind="stable")
    return [int(i) for i in order if pack.versions[i].piece_seen]


def leader(pack: Pack, belief: Belief) -> str | None:
    """The likeliest version of which a piece has been seen."""
    order = seen_order(pack, belief)
    return pack.version_codes[order[0]] if order else None


def runner_up(pack: Pack, belief: Belief, lead: str, named: tuple[str, ...] = ()) -> str | None:
    """The likeliest seen version beside the leader: of those not named, while there is one."""
    rest = [pack.version_codes[i] for i in seen_order(pack, belief) if pack.version_codes[i] != lead]
    return next((code for code in rest if code not in named), rest[0] if rest else None)


def short_list(pack: Pack, belief: Belief) -> tuple[tuple[str, float], ...]:
    """Seen versions, likeliest first, up to 95 % of what these hold together."""
    order = seen_order(pack, belief)
    chances = belief.posterior[order]
    before = np.cumsum(chances) - chances
    length = max(1, int((before < SURE * chances.sum()).sum()))
    return tuple((pack.version_codes[i], float(belief.posterior[i])) for i in order[:length])


def seen_twins(pack: Pack, lead: str) -> tuple[str, ...]:
    """Versions that nothing recorded separates from this one, of which a piece has been seen."""
    return tuple(code for code in pack.inseparable_from(lead) if pack.versions[pack.version_place[code]].piece_seen)


def chance_together(pack: Pack, belief: Belief, codes) -> float:
    return float(belief.posterior[[pack.version_place[code] for code in codes]].sum())


def by_chance(pack: Pack, belief: Belief, codes) -> tuple[str, ...]:
    """The codes, each once, likeliest first."""
    return tuple(sorted(dict.fromkeys(codes), key=lambda code: -belief.posterior[pack.version_place[code]]))


# ---- which version


def version_status(pack: Pack, answers: Answers, belief: Belief, lead: str, doubtful) -> tuple[str, tuple[str, ...]]:
    """The second question's answer and the versions named with it."""
    if belief.unrecorded + chance_of_unseen(pack, belief) >= NOT_IN_REFERENCE:
        return "not_in_reference", ()
    if twins_all_round(pack, lead):
        return "inseparable", by_chance(pack, belief, (lead, *seen_twins(pack, lead)))
    if not could_have_been_refuted(pack, answers, lead):
        return "open", ()
    twins = seen_twins(pack, lead)
    rivals = [pack.version_codes[place] for place in doubtful]
    together = chance_together(pack, belief, (lead, *twins))
    if together >= SURE:
        status = "narrowed" if rivals else "inseparable" if twins else "settled"
        return status, by_chance(pack, belief, (lead, *twins, *rivals))
    listed = [code for code, _ in short_list(pack, belief)]
    named = by_chance(pack, belief, (*listed, *twins, *rivals))
    seen = sum(version.piece_seen for version in pack.versions)
    narrow = len(named) < seen or together >= PROBABLE
    return ("narrowed", named) if len(named) <= MOST_NARROWED and narrow else ("open", ())


def twins_all_round(pack: Pack, lead: str) -> bool:
    """Whether there are several versions and nothing on record tells the leader from any: no check could refute it."""
    return len(pack.versions) > 1 and len(pack.inseparable_from(lead)) == len(pack.versions) - 1


def chance_of_unseen(pack: Pack, belief: Belief) -> float:
    return float(sum(belief.posterior[i] for i, version in enumerate(pack.versions) if not version.piece_seen))


def could_have_been_refuted(pack: Pack, answers: Answers, lead: str) -> bool:
    """Whether a definite answer counts that the leader's record could have contradicted.

    A feature that people often get wrong does not do, unless the record of the leader has no other.
    """
    refuting = refuting_features(pack, lead)
    return any(
        pack.place[one.feature] in refuting and definite(answers[one.feature]) for one in count(pack, answers)[0]
    )


def refuting_features(pack: Pack, lead: str) -> set[int]:
    """Features of which the leader's record rules a state out: the firm ones, or the weak where there are no firm."""
    row = pack.version_place[lead]
    could = [place for place, shares in enumerate(pack.recorded) if (shares[:, row] == 0).any()]
    firm = {place for place in could if pack.features[place].error < WEAK_ERROR}
    return firm or set(could)


def prior_mattered(pack: Pack, belief: Belief, lead: str) -> bool:
    """Whether with all versions equally common another would lead, or this one would no longer be sure."""
    even = np.divide(belief.posterior, pack.prior, out=np.zeros_like(belief.posterior), where=pack.prior > 0)
    even = even / max(even.sum(), 1e-300) * belief.posterior.sum()
    together = [pack.version_place[code] for code in (lead, *seen_twins(pack, lead))]
    changed = max(seen_order(pack, belief), key=lambda i: even[i]) not in together
    return bool(changed or belief.posterior[together].sum() >= SURE > even[together].sum())


# ---- what kind of piece


def kind_shares(pack: Pack, belief: Belief) -> dict[str, float]:
    """Chance of each kind of piece among the recorded versions, and of a version that is not recorded."""
    shares = dict.fromkeys(("issued", "altered", "copy"), 0.0)
    for version, chance in zip(pack.versions, belief.posterior, strict=True):
        shares[KIND_GROUPS[version.kind]] += float(chance)
    return shares | {"unrecorded": belief.unrecorded}


def look_alikes_of(pack: Pack, answers: Answers, candidates, lead: str, allowed) -> tuple[Unchecked, ...]:
    """Look-alikes of the candidates of the leader's own kind, each once; those of the leader come first."""
    group = group_of(pack, lead)
    found: dict[str, Unchecked] = {}
    for code in dict.fromkeys((lead, *candidates)):
        if group_of(pack, code) == group:
            for other in unchecked(pack, answers, code, allowed):
                found.setdefault(other.version, other)
    return tuple(found.values())


def kind_of_piece(pack: Pack, shares, lead: str, look_alikes, status: str, least: float = SURE) -> str | None:
    """The kind, where its chance is at least so much and every look-alike of another kind has been ruled out."""
    group = group_of(pack, lead)
    return (
        group
        if shares[group] >= least and not look_alikes and status != "not_in_reference"
        else (CANNOT_SAY if least == SURE else None)
    )


# ---- why


def others_against_leader(pack: Pack, answers: Answers, listed, lead: str) -> dict[str, tuple[Reason, ...]]:
    """For every other candidate, what each answer says for it against the leader."""
    codes = [code for code, _ in listed[:MOST_EXPLAINED] if code != lead]
    return {code: tuple(reasons(pack, answers, code, lead)) for code in codes}


def contradicting(pack: Pack, answers: Answers, lead: str) -> tuple[str, ...]:
    """Definite answers with a chance under a quarter on the leader, least likely first, at most three.

    Of a pair both answers must be so unlikely together.
    """
    row = pack.version_place[lead]
    found = []
    for code in (one.feature for one in count(pack, answers)[0] if definite(answers[one.feature])):
        chance = float(chances_of(pack, pack.place[code], answers[code])[0][row])
        if chance < (CONTRADICTS**2 if isinstance(answers[code], tuple) else CONTRADICTS):
            found.append((chance, pack.place[code], code))
    return tuple(code for _, _, code in sorted(found)[:MOST_READ_BACK])


def nearest(pack: Pack, answers: Answers, belief: Belief, most: int = 3):
    """The likeliest seen versions with exactly which answers their records do not expect."""
    codes = [pack.version_codes[i] for i in seen_order(pack, belief)[:most]]
    return tuple((code, disagreements(pack, answers, code)) for code in codes)


def disagreements(pack: Pack, answers: Answers, version: str) -> tuple[Disagreement, ...]:
    """Definite answers that name none of the states recorded for the version."""
    row = pack.version_place[version]
    found = []
    for code in (one.feature for one in count(pack, answers)[0] if definite(answers[one.feature])):
        place = pack.place[code]
        shares = pack.recorded[place][:, row]
        if not np.isnan(shares[0]) and not agrees(pack, place, answers[code], row):
            states = pack.features[place].states
            found.append(Disagreement(code, tuple(s for s, share in zip(states, shares, strict=True) if share > 0)))
    return tuple(found)


def agrees(pack: Pack, place: int, answer, row: int) -> bool:
    """Whether the answer names a recorded state; of a measure, whether it is not unlikely."""
    given = last(answer)
    if isinstance(given, States):
        occurs = pack.recorded[place][:, row] > 0
        states = pack.features[place].states
        return any(occurs[states.index(state)] for state in given.states if state in states)
    chances = chances_of(pack, place, given)
    return chances is None or float(chances[0][row]) >= CONTRADICTS


def fitting_unseen(pack: Pack, belief: Belief, lead: str | None) -> tuple[str, ...]:
    """Versions that fit about as well as the leader but of which nobody has seen a piece: only a note."""
    floor = belief.posterior[pack.version_place[lead]] / 10 if lead else 0.0
    return tuple(
        version.code
        for version, chance in zip(pack.versions, belief.posterior, strict=True)
        if not version.piece_seen and chance >= floor
    )


def worthwhile(pack: Pack, answers: Answers, belief: Belief, three, look_alikes, allowed, among):
    """Checks still worth making: what would unmask a look-alike, what separates the leader from the likeliest version
    not named and from the runner-up, what tells most. None that all of `among`, which come into question, answer alike:
    it could only show that the piece is none of them.

    Those that may be made, those that may not, and those that would decide but were answered with cannot tell.
    """
    lead, *others = three
    checks = [(other.would_show, other.not_allowed) for other in look_alikes]
    rivals = [other for other in dict.fromkeys(others) if other]
    checks += [checks_between(pack, answers, lead, other, allowed) for other in rivals]
    ranked = [question.feature for question in pack.rank_questions(belief, answers, allowed=allowed)]
    rows = [pack.version_place[code] for code in dict.fromkeys(among) if code]
    wanted_now = dict.fromkeys([*(code for pair in checks for code in pair[0]), *ranked])
    may = [code for code in wanted_now if any(tells_apart(pack, one, rows) for one in with_details(pack, code))]
    may_not = dict.fromkeys(code for pair in checks for code in pair[1])
    wanted = [*(other.version for other in look_alikes), *rivals]
    untold = dict.fromkeys(code for other in wanted for code in untold_between(pack, answers, lead, other))
    return tuple(may)[:MOST_CHECKS], tuple(may_not)[:MOST_CHECKS], tuple(untold)[:MOST_CHECKS]


def with_details(pack: Pack, code: str) -> list[str]:
    """The feature and all details below it, which are reached through it."""
    found = [code]
    for one in found:
        found += [feature.code for feature in pack.features if feature.parent == one and feature.code not in found]
    return found


def tells_apart(pack: Pack, code: str, rows: list[int]) -> bool:
    """Whether some answer is likely on one of these versions and far less likely on another."""
    chances = pack.found[pack.place[code]][:, rows]
    most, least = chances.max(axis=1), chances.min(axis=1)
    return bool(((most >= LIKELY_ENOUGH) & (most > FAR_LIKELIER * least)).any())
