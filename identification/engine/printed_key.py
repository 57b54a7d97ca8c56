"""The key of a garment type for paper: numbered couplets that need no machine, and forgive no wrong answer."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from identification.engine.keys import MOST_SEARCHED, Fork, KeyTable, Leaf, bits
from identification.engine.pack import Allowed, Pack

# The answer to a detail of a part that a version never has.
NO_PART = -2
LEAST_WEIGHT = 1e-12
# So many couplets are some seventy sheets; a longer key is no help on paper. Counted on the greedy key. Ours.
MOST_COUPLETS = 1_000


@dataclass(frozen=True)
class PrintedKey:
    """`tree`: features and versions numbered as in the pack, states too, or `NO_PART`; None where it would be too long
    for paper, as where each gap of the record sends a version down every branch.

    `shortest`: no other key takes less effort on average, each version counted on every branch where it stands.
    `questions` and `effort`: on average over the pieces, a version on several branches going down each as often.
    """

    tree: Fork | Leaf | None
    shortest: bool
    questions: float
    effort: float
    most_questions: int


def printed_key(pack: Pack, *, allowed: Allowed | None = None) -> PrintedKey:
    """The key over the versions of which a piece has been seen, of the features that may be looked at.

    What a question costs is the effort until a look at it is right, since nothing mends a wrong answer later.
    """
    seen = [place for place, version in enumerate(pack.versions) if version.piece_seen]
    usable = [place for place, feature in enumerate(pack.features) if allowed is None or allowed(feature)]
    if not seen or not usable:
        return PrintedKey(Leaf(tuple(seen)), True, 0.0, 0.0, 0)
    weights = np.maximum(pack.prior[seen], LEAST_WEIGHT)
    efforts = [pack.features[place].sure_effort for place in usable]
    table = KeyTable([branches_in(pack, place, seen) for place in usable], len(seen), weights, efforts)
    exact = len(seen) <= MOST_SEARCHED
    if not exact and table.couplets(MOST_COUPLETS) > MOST_COUPLETS:
        return PrintedKey(None, False, 0.0, 0.0, 0)
    tree = renumbered(table.tree("exact" if exact else "rollout"), usable, seen)
    pieces = dict(zip(seen, (weights / weights.sum()).tolist(), strict=True))
    return PrintedKey(
        tree=tree,
        shortest=exact,
        questions=mean_over(tree, pieces, np.ones(len(pack.features))),
        effort=mean_over(tree, pieces, pack.efforts),
        most_questions=depth(tree),
    )


def branches_in(pack: Pack, place: int, seen: Sequence[int]) -> list[tuple[int, int]]:
    """For each state that the record names, and for the part not being there, the versions that may show it.

    A version of which nothing is recorded may show any of them, but not the want of a part that it always has.
    """
    shows = {version: may_show(pack, place, version) for version in seen}
    named = sorted(set().union(*shows.values()))
    for version in seen:
        if not pack.is_recorded[place, version] and shows[version] != {NO_PART}:
            has_part = all(pack.is_recorded[above, version] for above, _ in parts_above(pack, place))
            shows[version] = {state for state in named if state != NO_PART or not has_part}
    return [(state, bits([state in shows[version] for version in seen])) for state in named]


def may_show(pack: Pack, place: int, version: int) -> set[int]:
    """The states recorded, and `NO_PART` where the record names a part above as wanting."""
    states = set(recorded_states(pack, place, version))
    for above, shown_when in parts_above(pack, place):
        of_part = recorded_states(pack, above, version)
        has = [pack.features[above].states[state] in shown_when for state in of_part]
        if of_part and not any(has):
            return {NO_PART}
        if not all(has):
            states.add(NO_PART)
    return states


def recorded_states(pack: Pack, place: int, version: int) -> list[int]:
    return np.flatnonzero(pack.recorded[place][:, version] > 0).tolist()


def parts_above(pack: Pack, place: int) -> list[tuple[int, tuple[str, ...]]]:
    """The parts that a detail belongs to, nearest first, each with the states under which the one below exists."""
    found = []
    while (feature := pack.features[place]).parent in pack.place:
        place = pack.place[feature.parent]
        found.append((place, feature.shown_when))
    return found


def renumbered(tree: Fork | Leaf, features: Sequence[int], versions: Sequence[int]) -> Fork | Leaf:
    if isinstance(tree, Leaf):
        return Leaf(tuple(versions[place] for place in tree.versions))
    branches = tuple((state, renumbered(branch, features, versions)) for state, branch in tree.branches)
    return Fork(features[tree.feature], branches)


def versions_in(tree: Fork | Leaf) -> set[int]:
    """Every version that the key may end with from here on."""
    if isinstance(tree, Leaf):
        return set(tree.versions)
    return set().union(*(versions_in(branch) for _, branch in tree.branches))


def mean_over(tree: Fork | Leaf, pieces: dict[int, float], costs) -> float:
    """Mean cost of the questions, for these shares of pieces; those with several ways on take each as often."""
    if isinstance(tree, Leaf):
        return 0.0
    below = [versions_in(branch) for _, branch in tree.branches]
    ways = {version: sum(version in reached for reached in below) for version in pieces}
    total = float(costs[tree.feature]) * sum(pieces.values())
    for (_, branch), reached in zip(tree.branches, below, strict=True):
        total += mean_over(branch, {v: share / ways[v] for v, share in pieces.items() if v in reached}, costs)
    return total


def depth(tree: Fork | Leaf) -> int:
    """The most questions that lie between the first couplet and a version."""
    return 0 if isinstance(tree, Leaf) else 1 + max(depth(branch) for _, branch in tree.branches)
