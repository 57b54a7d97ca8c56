"""The key of a garment type as a printed page: numbered couplets, each answer leading to the next or to a version."""

from collections.abc import Iterator
from itertools import combinations

from catalogue.figures.small_spots import small_spots
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import FeatureFacts, StateFacts, TypeFacts
from catalogue.reference.models import ReferenceState
from catalogue.reference.separation import WEAK_ERROR
from catalogue.reference.snapshots import keep_for_state
from identification import engine
from identification.walk_through import packs
from identification.walk_through.address import Walk
from identification.walk_through.steps import cautions_of, may_ask
from identification.walk_through.words import listed

NO_SUCH_PART = "There is no such part"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def key_context(facts: TypeFacts, *, number: int) -> dict:
    """Everything the template needs."""
    return keep_for_state(("key", facts.code), lambda: make_context(facts, number), number=number)


def make_context(facts: TypeFacts, number: int) -> dict:
    pack = packs.pack_for(facts, engine.Context(), number)
    key = engine.printed_key(pack, allowed=may_ask(facts, Walk()))
    tree = key.tree or engine.Leaf(())
    # Two couplets that are alike, met on two ways, are one.
    numbers = {fork: place for place, fork in enumerate(dict.fromkeys(forks(tree)), start=1)}
    came_from = ways_to(numbers)
    groups = {versions: group_name(place) for place, versions in enumerate(groups_of(tree))}
    flats = small_spots(facts, [feature_of(facts, pack, fork) for fork in numbers])
    couplets = [couplet(facts, pack, fork, numbers, groups, came_from[n]) for fork, n in numbers.items()]
    return {
        "facts": facts,
        "cautions": cautions_of(facts),
        "key": key,
        "questions": f"{key.questions:.1f}",
        "too_long": engine.MOST_COUPLETS if key.tree is None else 0,
        "couplets": [one | {"flat": flat} for one, flat in zip(couplets, flats, strict=True)],
        "groups": [group_row(facts, pack, versions, name) for versions, name in groups.items()],
        "versions": [version_row(facts, code) for code in seen_codes(pack)],
        "unseen": [version_row(facts, v.code) for v in pack.versions if not v.piece_seen],
        "number": number,
        "changed_at": ReferenceState.objects.filter(pk=1).values_list("changed_at", flat=True).first(),
    }


def forks(tree: engine.Fork | engine.Leaf) -> Iterator[engine.Fork]:
    """The couplets in reading order, each with all that follows its first answer before its second."""
    if isinstance(tree, engine.Fork):
        yield tree
        for _, branch in tree.branches:
            yield from forks(branch)


def ways_to(numbers: dict[engine.Fork, int]) -> dict[int, list[int]]:
    """For each couplet the numbers of those that lead to it."""
    found: dict[int, list[int]] = {number: [] for number in numbers.values()}
    for fork, number in numbers.items():
        for to in dict.fromkeys(numbers[branch] for _, branch in fork.branches if isinstance(branch, engine.Fork)):
            found[to].append(number)
    return found


def groups_of(tree: engine.Fork | engine.Leaf) -> list[tuple[int, ...]]:
    """Leaves with several versions, each once, in the order in which the key meets them."""
    found: dict[tuple[int, ...], None] = {}

    def visit(part: engine.Fork | engine.Leaf) -> None:
        if isinstance(part, engine.Leaf):
            if len(part.versions) > 1:
                found.setdefault(part.versions)
        else:
            for _, branch in part.branches:
                visit(branch)

    visit(tree)
    return list(found)


def group_name(place: int) -> str:
    return f"Group {LETTERS[place]}" if place < len(LETTERS) else f"Group {place + 1}"


def seen_codes(pack: engine.Pack) -> list[str]:
    return [version.code for version in pack.versions if version.piece_seen]


def version_row(facts: TypeFacts, code: str) -> dict:
    version = facts.versions[code]
    return {
        "code": code,
        "name": version.name,
        "kind": version.kind_words.lower(),
        "dates": version.date_words,
        "address": address_of("version", code),
    }


def group_row(facts: TypeFacts, pack: engine.Pack, versions: tuple[int, ...], name: str) -> dict:
    return {"name": name, "versions": [version_row(facts, pack.version_codes[place]) for place in versions]}


def couplet(facts: TypeFacts, pack: engine.Pack, fork: engine.Fork, numbers, groups, came_from) -> dict:
    """One numbered question with its answers; answers that lead to the same stand on one line."""
    feature = feature_of(facts, pack, fork)
    weak, replaced = feature.error >= WEAK_ERROR, pack.features[fork.feature].replaceable
    leads: dict[engine.Fork | engine.Leaf, list[StateFacts | None]] = {}
    for state, branch in sorted(fork.branches, key=lambda pair: (pair[0] == engine.NO_PART, pair[0])):
        leads.setdefault(branch, []).append(state_of(feature, pack, fork, state))
    return {
        "n": numbers[fork],
        "came_from": came_from,
        "feature": feature.code,
        "question": feature.question,
        "where": feature.place_words,
        "seen": feature.seen_words.lower(),
        "mind": feature.error_note if weak or replaced else "",
        "weak": weak,
        "replaced": replaced,
        "alone": [
            listed([version_row(facts, pack.version_codes[place])["name"] for place in pair])
            for pair in told_by_this_alone(pack, fork)
        ],
        "leads": [lead(facts, pack, answers, branch, numbers, groups) for branch, answers in leads.items()],
    }


def told_by_this_alone(pack: engine.Pack, fork: engine.Fork) -> list[tuple[int, int]]:
    """Pairs of versions which part at this couplet and which nothing on record tells apart but parts that get replaced,
    or features that people often get wrong: no couplet may decide between such alone."""
    ways = [engine.versions_in(branch) for _, branch in fork.branches]
    pairs = {
        (min(one, other), max(one, other))
        for here, there in combinations(ways, 2)
        for one in here - there
        for other in there - here
    }
    return [pair for pair in sorted(pairs) if not firmly_apart(pack, *pair)]


def firmly_apart(pack: engine.Pack, one: int, other: int) -> bool:
    """Whether a feature that is neither replaceable nor weak separates two versions."""
    apart = pack.separating(pack.version_codes[one], pack.version_codes[other])
    features = [pack.features[pack.place[code]] for code in apart]
    return any(not feature.replaceable and feature.error < WEAK_ERROR for feature in features)


def feature_of(facts: TypeFacts, pack: engine.Pack, fork: engine.Fork) -> FeatureFacts:
    return facts.features[pack.feature_codes[fork.feature]]


def state_of(feature: FeatureFacts, pack: engine.Pack, fork: engine.Fork, state: int) -> StateFacts | None:
    """The state that an answer names; None for `There is no such part`."""
    return None if state == engine.NO_PART else feature.state_by_code[pack.features[fork.feature].states[state]]


def lead(facts: TypeFacts, pack: engine.Pack, answers: list[StateFacts | None], branch, numbers, groups) -> dict:
    """Where an answer leads: to the number of a couplet, to a version, or to a group. `states`: those to be drawn."""
    is_fork = isinstance(branch, engine.Fork)
    single = not is_fork and len(branch.versions) == 1
    return {
        "words": listed([state.label if state else NO_SUCH_PART for state in answers], "or"),
        "states": [state for state in answers if state],
        "to": numbers[branch] if is_fork else 0,
        "version": version_row(facts, pack.version_codes[branch.versions[0]]) if single else None,
        "group": "" if is_fork or single else groups[branch.versions],
    }
