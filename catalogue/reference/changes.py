"""What changed from one version to another, in words made from the difference of their two records.

Nothing is said to have changed where one of the two records is silent.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.reference.addresses import address_of
from catalogue.reference.facts import CellFacts, FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.plurals import counted
from catalogue.reference.separation import states_of
from catalogue.reference.words import Certainty, FeatureKind, VersionKind

# Kinds of change, each with what it becomes when the two versions change places.
OPPOSITE = {
    "instead": "instead",
    "added": "gone",
    "gone": "added",
    "more": "less",
    "less": "more",
    "joined": "left",
    "left": "joined",
    "mixed": "mixed",
    "came": "went",
    "went": "came",
}
# How the words of a state begin that says there is nothing.
NOTHING_THERE = ("no ", "not ", "none", "nothing", "un")
SIZE_WORDS = {
    (FeatureKind.COUNT, "more"): "more",
    (FeatureKind.COUNT, "less"): "fewer",
    (FeatureKind.MEASUREMENT, "more"): "larger",
    (FeatureKind.MEASUREMENT, "less"): "smaller",
}


@dataclass(frozen=True)
class Note:
    """One changed feature; `before` and `after` are the codes of its states. `inferred`: a side was concluded only."""

    feature: str
    kind: str
    before: frozenset[str]
    after: frozenset[str]
    words: str
    inferred: bool


@dataclass(frozen=True)
class Changes:
    """The notes in the reading order of the features, and names of what only one of the records speaks of."""

    notes: tuple[Note, ...]
    not_recorded_before: tuple[str, ...]
    not_recorded_after: tuple[str, ...]


def changes(
    home: TypeFacts, before: VersionFacts, after: VersionFacts, *, home_after: TypeFacts | None = None
) -> Changes:
    """What is different in `after`. Of versions of two types only the features that both types have are compared."""
    home_after = home_after or home
    notes, silent_before, silent_after = [], [], []
    for feature in home.features.values():
        if feature.code not in home_after.features:
            continue
        old, new = states_of(before, feature.code), states_of(after, feature.code)
        had_place, has_place = home.applies(before, feature), home_after.applies(after, feature)
        if old and new and old != new:
            notes.append(changed(feature, before, after))
        elif new and not old and not had_place:
            notes.append(with_its_part(feature, "came", before, after))
        elif old and not new and not has_place:
            notes.append(with_its_part(feature, "went", before, after))
        elif new and not old:
            silent_before.append(feature.name)
        elif old and not new:
            silent_after.append(feature.name)
    return Changes(tuple(notes), tuple(silent_before), tuple(silent_after))


def steps_to(home: TypeFacts, version: VersionFacts) -> list[dict]:
    """For each version of the type that this one continues or imitates, what changed from it, ready for a page."""
    above = dict.fromkeys(a.version for a in version.ancestors if a.version in home.versions)
    copied = version.kind in (VersionKind.COMMERCIAL_COPY, VersionKind.REPRODUCTION)
    found = []
    for code in above:
        made = changes(home, home.versions[code], version)
        number = len(made.notes)
        found.append(
            {
                "code": code,
                "address": address_of("version", code),
                "heading": "Differs from" if copied else "Changed from",
                "number": counted(number, "feature") if number else "nothing on record",
                "notes": made.notes,
                "not_recorded_before": listed_names(made.not_recorded_before),
                "not_recorded_after": listed_names(made.not_recorded_after),
            }
        )
    return found


def listed_names(names: Sequence[str]) -> str:
    return ", ".join(map(in_a_sentence, names))


def changed(feature: FeatureFacts, before: VersionFacts, after: VersionFacts) -> Note:
    """A feature that both records speak of, with different states."""
    old, new = states_of(before, feature.code), states_of(after, feature.code)
    kind = kind_of(feature, old, new)
    name = in_a_sentence(feature.name)
    was = listed(feature, before.cells[feature.code])
    now = listed(feature, after.cells[feature.code])
    joined = listed(feature, [cell for cell in after.cells[feature.code] if cell.state not in old])
    left = listed(feature, [cell for cell in before.cells[feature.code] if cell.state not in new])
    size = SIZE_WORDS.get((feature.kind, kind))
    words = {
        "instead": f"{name}: {now} instead of {was}",
        "added": f"{name} added: {now}",
        "gone": f"{name} gone (before: {was})",
        "more": f"{name}: {size}, {now} instead of {was}",
        "less": f"{name}: {size}, {now} instead of {was}",
        "joined": f"{name}: not always there" if is_nothing(feature, new - old) else f"{name}: also {joined}",
        "left": f"{name}: {left_words(feature, old, new, left, now)}",
        "mixed": f"{name}: also {joined}, no longer {left}",
    }
    return note(feature, kind, before, after, words[kind])


def left_words(feature: FeatureFacts, old: frozenset[str], new: frozenset[str], left: str, now: str) -> str:
    """Of several states some are gone."""
    if is_nothing(feature, old - new):
        return f"always there, {now}"
    return f"no longer {left}" + ("" if is_nothing(feature, new) else f", only {now}")


def with_its_part(feature: FeatureFacts, kind: str, before: VersionFacts, after: VersionFacts) -> Note:
    """A detail of a part that one of the two versions does not have at all."""
    name = in_a_sentence(feature.name)
    if kind == "came":
        return note(feature, kind, before, after, f"with it {name}: {listed(feature, after.cells[feature.code])}")
    was = listed(feature, before.cells[feature.code])
    return note(feature, kind, before, after, f"{name} gone with its part (before: {was})")


def note(feature: FeatureFacts, kind: str, before: VersionFacts, after: VersionFacts, words: str) -> Note:
    cells = [*before.cells.get(feature.code, ()), *after.cells.get(feature.code, ())]
    inferred = any(cell.certainty == Certainty.INFERRED for cell in cells)
    return Note(feature.code, kind, states_of(before, feature.code), states_of(after, feature.code), words, inferred)


def kind_of(feature: FeatureFacts, old: frozenset[str], new: frozenset[str]) -> str:
    """How the later states stand to the earlier ones."""
    if old & new:
        return "joined" if old < new else "left" if new < old else "mixed"
    if is_nothing(feature, old) or is_nothing(feature, new):
        return "added" if is_nothing(feature, old) else "gone"
    if feature.kind in (FeatureKind.COUNT, FeatureKind.MEASUREMENT):
        return size_change(feature, old, new)
    return "instead"


def size_change(feature: FeatureFacts, old: frozenset[str], new: frozenset[str]) -> str:
    """Up or down where every band of one side lies above every band of the other."""
    bands = {state.code: state.low or 0.0 for state in feature.states}
    was, now = [bands.get(code, 0.0) for code in old], [bands.get(code, 0.0) for code in new]
    if min(now) > max(was):
        return "more"
    return "less" if max(now) < min(was) else "instead"


def is_nothing(feature: FeatureFacts, states: frozenset[str]) -> bool:
    """Whether these states say that there is nothing, and are worded so: "sleeves taken off" says more than that."""
    return states == {feature.absent} and feature.label_of(feature.absent).lower().startswith(NOTHING_THERE)


def listed(feature: FeatureFacts, cells: Sequence[CellFacts]) -> str:
    """The states with `or` between, each with its limits."""
    return " or ".join(
        short_label(feature, cell.state) + (f" (only {cell.limits})" if cell.limits else "") for cell in cells
    )


def short_label(feature: FeatureFacts, state: str) -> str:
    """A state's words without what explains them, unless another state would then read the same."""
    short = bare(feature.label_of(state))
    alike = [other.code for other in feature.states if bare(other.label) == short]
    return in_a_sentence(short if alike == [state] else feature.label_of(state))


def bare(label: str) -> str:
    """`Vegetable ivory (corozo): fine grain` as `Vegetable ivory`."""
    head = label.split(":")[0]
    while "(" in head and ")" in head.partition("(")[2]:
        start, _, rest = head.partition("(")
        head = start.rstrip() + rest.partition(")")[2]
    return head.strip() or label


def in_a_sentence(words: str) -> str:
    """With a small letter first, unless an abbreviation or a single letter begins."""
    return words[0].lower() + words[1:] if words[1:2].islower() else words
