"""What may be proposed and decided, on plain values; every answer is None or the words for the person who asked."""

from collections.abc import Iterable, Mapping, Sequence

from catalogue.review.proposals.words import (
    FEATURE,
    FIELD_WORDS,
    SECOND,
    STATE,
    DecisionOn,
    ProposalKind,
    ProposalState,
    Weight,
)

Rows = Mapping[str, object]
# A misprint in these, another name, or a length of a size table, changes neither what a version is told by nor when it
# was made.
SMALL_FIELDS = frozenset({"name", "other_names", "reason", "note", "sizes"})
# What of a cell may change without changing identification; a source may only come to the others.
SMALL_OF_CELL = ("note", "sources", "against")
# A caution is given by one person; to change it or to take it away takes two.
CAUTIONS = ("hazard_kind", "hazard")
# What may come to the others by one person; to take one away takes two.
MAY_BE_ADDED_TO = ("sources", "contradicting_sources", "restrictions")
CHANGEABLE = (ProposalState.DRAFT, ProposalState.RETURNED)
# Of a feature: what is told beside the question changes neither what is asked nor what an answer counts.
SMALL_OF_FEATURE = frozenset({"group", "error_note", "change_note", "basis"})
# A row of an open question: how it stands. Two people have to stand for it, and for the words that say it.
DECIDED = "decided"
SMALL_OF_QUESTION = frozenset({"would_settle"})
# Of a version, then of a feature.
EMPTY_FIELDS = {"other_names": [], "sources": [], "continues": [], "became": [], "made_from": [], "makers": [],
                "sizes": [], "stock_numbers": [], "passes_for": [], "contradicting_sources": [],
                "restrictions": [], "rarity": 3, "abundance": None, "piece_seen": True, "types": [], "places": [],
                "shown_when": []}  # fmt: skip


# Rows of several things that rest on sources of their own, with what tells one of them from another.
NAMED_BY = {"stock_numbers": "number"}
# What may be the difference between two versions; how sure or how rare they are, or what is told of them, is none.
TELLS_APART = frozenset({"date", "kind", "makers", "made_from", "cut", "colourway", "issuer"})


def empty_row(key: str):
    """What a row says of which nothing is recorded; of a state of a feature, that there is none."""
    key = key.removeprefix(SECOND)
    if key.startswith(STATE):
        return None
    return [] if key.startswith(FEATURE) else EMPTY_FIELDS.get(key, "")


def row_of(rows: Rows, key: str):
    return rows.get(key, empty_row(key))


def for_both(rows: Rows) -> dict[str, object]:
    """The rows of a version that is split as those of either of the two that it makes."""
    return {**rows, **as_second(rows)}


def as_second(rows: Rows) -> dict[str, object]:
    return {f"{SECOND}{key}": value for key, value in rows.items()}


def first_of(rows: Rows) -> dict[str, object]:
    """Of the rows of a split those of the first version that it makes."""
    return {key: value for key, value in rows.items() if not key.startswith(SECOND)}


def second_of(rows: Rows) -> dict[str, object]:
    return {key.removeprefix(SECOND): value for key, value in rows.items() if key.startswith(SECOND)}


def changed_rows(base: Rows, wanted: Rows) -> dict[str, object]:
    """The rows in which `wanted`, a whole state, differs from `base`."""
    keys = dict.fromkeys((*base, *wanted))
    return {key: row_of(wanted, key) for key in keys if row_of(wanted, key) != row_of(base, key)}


def clashes(base: Rows, rows: Rows, now: Rows) -> list[str]:
    """Rows of a proposal that others have changed meanwhile, to something else than it wants."""
    return [key for key in rows if row_of(now, key) not in (row_of(base, key), rows[key])]


def other_changed(base: Rows, now: Rows) -> bool:
    """Whether the version that a merge takes away is not any more what the proposal was written on."""
    return bool(changed_rows(base, now))


def left_to_change(rows: Rows, now: Rows) -> dict[str, object]:
    """What of a proposal does not stand already."""
    return {key: value for key, value in rows.items() if row_of(now, key) != value}


def weight_of(kind: str, base: Rows, rows: Rows) -> Weight:
    """Small where nothing that identifies or dates a version is touched: a misprint, a name, an added citation."""
    if kind == ProposalKind.SCAN:
        return Weight.SMALL
    if kind == ProposalKind.QUESTION:
        return Weight.SMALL if set(rows) <= SMALL_OF_QUESTION else Weight.WEIGHTY
    if kind == ProposalKind.FEATURE:
        return Weight.SMALL if base and all(key in SMALL_OF_FEATURE for key in rows) else Weight.WEIGHTY
    if kind == ProposalKind.BACKING:
        return Weight.WEIGHTY
    if kind != ProposalKind.CHANGE or not all(is_small(key, row_of(base, key), rows[key]) for key in rows):
        return Weight.WEIGHTY
    return Weight.SMALL


def is_small(key: str, before, after) -> bool:
    if key in SMALL_FIELDS:
        return True
    if key in MAY_BE_ADDED_TO:
        return set(before) <= set(after)
    if key in CAUTIONS:
        return not before
    return (
        key in NAMED_BY
        and only_cited(before, after, NAMED_BY[key])
        or (key.startswith(FEATURE) and only_cited(before, after, "state"))
    )


def against_of(codes: list[str]) -> dict[str, list[str]]:
    """The part of a cell that names sources against it; none where there are none, as in cells of before."""
    return {"against": codes} if codes else {}


def only_cited(before: Iterable[Mapping], after: Iterable[Mapping], name: str) -> bool:
    """Whether the states of a feature, or stock numbers, stay as they are, and only sources or a note come to them.
    `name`: what tells one of them from another."""
    old, new = ({cell[name]: cell for cell in cells} for cells in (before, after))
    return old.keys() == new.keys() and all(
        {name: value for name, value in new[state].items() if name not in SMALL_OF_CELL}
        == {name: value for name, value in cell.items() if name not in SMALL_OF_CELL}
        and all(set(cell.get(side, ())) <= set(new[state].get(side, ())) for side in ("sources", "against"))
        for state, cell in old.items()
    )


def reason_not_to_propose(*, weight: str, may_maintain: bool) -> str | None:
    if weight == Weight.WEIGHTY and not may_maintain:
        return (
            "What changes identification or dates is proposed by authors. You can propose names, notes and "
            "citations, and write in the thread what else you know."
        )
    return None


def reason_not_to_merge(
    *, stays: str, goes: str, one_type: bool, retired: Iterable[str], became: Mapping[str, Iterable[str]]
) -> str | None:
    """`stays`, `goes`: codes; `retired`: those of the two that are retired; `became`: what retired versions became."""
    if stays == goes:
        return "A version is not merged with itself: choose another."
    if not one_type:
        return "Only versions of one garment type are merged."
    for one, other in ((stays, goes), (goes, stays)):
        if other in line_of(one, became):
            return f"{one} itself became {other}: this would be a circle."
    if gone := next(iter(retired), None):
        return f"{gone} is retired already: only versions that are in force are merged."
    return None


def reason_not_to_split(
    *, code: str, both: Sequence[str], rows: Sequence[Rows], above: Mapping[str, Iterable[str]]
) -> str | None:
    """`code`: of the version that is split; `both`: of the two that it makes, with the whole `rows` of each; `above`:
    what every other version continues or was made from."""
    one, other = both
    if one.lower() == other.lower():
        return f"The two versions need a code each; both are called {one}."
    if row_of(rows[0], "name").casefold() == row_of(rows[1], "name").casefold():
        return "The two versions need a name each: people could not tell one from the other."
    own = {new: {*row_of(of, "continues"), *row_of(of, "made_from")} for new, of in zip(both, rows, strict=True)}
    for new in both:
        line = line_of(new, {**above, **own})
        if new in line or code in line:
            return (
                f"{new} would descend from {new if new in line else code}, by however many steps, and be a part of it: "
                "this would be a circle."
            )
    if not any(tells_apart(key, *rows) for key in changed_rows(*rows)):
        return (
            f"{one} and {other} do not differ: in none of their features, nor in dates, kind, makers or what they were "
            "made from, cut, colourway, issuer or stock numbers. Say what tells them apart."
        )
    return None


def tells_apart(key: str, one: Rows, other: Rows) -> bool:
    """Whether a row in which two versions differ is a difference between their pieces: not where only a note or a
    source is another."""
    of_several = key in NAMED_BY or key.startswith(FEATURE)
    return key in TELLS_APART or of_several and without_grounds(one, key) != without_grounds(other, key)


def without_grounds(rows: Rows, key: str) -> list[dict]:
    return [{name: value for name, value in cell.items() if name not in SMALL_OF_CELL} for cell in row_of(rows, key)]


def line_of(code: str, became: Mapping[str, Iterable[str]]) -> set[str]:
    """All that a version became, by however many steps."""
    found: set[str] = set()
    waiting = [code]
    while waiting:
        new = [one for one in became.get(waiting.pop(), ()) if one not in found]
        found.update(new)
        waiting += new
    return found


def reason_not_to_touch(*, name: str, kind: str, rows: Rows, now: Rows) -> str | None:
    """`now`: the version as it stands. Of a retired one only its retirement can be taken back; what may be merged,
    `reason_not_to_merge` says."""
    if kind != ProposalKind.MERGE and row_of(now, "retired") and "retired" not in rows:
        return f"{name} is retired: what it was stays as it is. Decline this, or let its author withdraw it."
    return None


def reason_not_to_send(*, state: str, rows: Rows, grounds: str, kind: str) -> str | None:
    if state not in CHANGEABLE:
        return "This proposal was sent already."
    if not grounds.strip():
        return "Write down the grounds: what the change rests on."
    if kind == ProposalKind.NEW and not rows.get("name"):
        return "A new version needs a name."
    if not rows and kind != ProposalKind.MERGE:
        return "Nothing would be changed yet."
    return None


def reason_not_to_decide(
    *, decision: str, state: str, decider: int, author: int, shared_mailbox: bool, reason: str, sending: int,
    times_sent: int, agreed: Iterable[int] = (), agreed_shared: bool = False, place: tuple[int, str] | None = None,
) -> str | None:  # fmt: skip
    """`agreed`: who agreed to this sending already, or had it done in their place; `agreed_shared`: one of them has the
    decider's mailbox; `place`: number and name of the moderator for whom the decider stands in."""
    undoing = decision in (DecisionOn.REVOKED, DecisionOn.UNDO_AGREED)
    if decider == author:
        return "A proposal is decided by somebody else than its author."
    if place and place[0] == author:
        return f"You stand in for {place[1]}, whose proposal this is: somebody else decides."
    if shared_mailbox:
        return "This account has the same e-mail address as the author's: somebody else decides."
    if state != (ProposalState.APPROVED if undoing else ProposalState.OPEN):
        words = "not approved, or was revoked already" if undoing else ProposalState(state).label.lower()
        return f"This proposal is {words}: there is nothing to decide on it. Look again."
    if sending != times_sent:
        return "The proposal was changed since you looked at it: look again before you decide."
    if not reason.strip():
        return "A decision needs a reason; its author will read it."
    if decision in (DecisionOn.APPROVED, DecisionOn.REVOKED) and decider in agreed:
        return "You have agreed already, or somebody in your place; it needs another person beside you."
    if decision in (DecisionOn.APPROVED, DecisionOn.REVOKED) and place and place[0] in agreed:
        return f"{place[1]} has agreed already, and you stand in for them: it needs another person."
    if decision in (DecisionOn.APPROVED, DecisionOn.REVOKED) and agreed_shared:
        return "Somebody with your e-mail address has agreed already; it needs another person."
    return None


def row_words(key: str, features: Mapping[str, str]) -> str:
    """What a row is called. `features`: their names by code."""
    if key.startswith(FEATURE):
        code = key.removeprefix(FEATURE)
        return features.get(code, code)
    return FIELD_WORDS.get(key, key)
