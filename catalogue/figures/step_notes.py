"""What a version changed, as few words on a chart of years: at the step from the version it continues or imitates."""

from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.figures.text_width import cut_to, text_width, wrapped
from catalogue.reference.changes import Note, steps_to
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.separation import EASE, LABEL, WEAK_ERROR, states_of
from catalogue.reference.words import VersionKind

# A version that continues one version has so many lines; one that continues several has one for each.
MOST_LINES = 2
# The details of a part that came or went say less than the part.
DETAILS = ("came", "went")


@dataclass(frozen=True)
class Step:
    """`opening` names the version before; `notes` are in words, those that tell most first."""

    opening: str
    notes: tuple[str, ...]


def steps_of(facts: TypeFacts, version: VersionFacts) -> tuple[Step, ...]:
    """The steps to this version, but those at which nothing on record changed."""
    copied = version.kind in (VersionKind.COMMERCIAL_COPY, VersionKind.REPRODUCTION)
    word = "unlike" if copied else "from"
    return tuple(
        Step(f"{word} {one['code']}: ", tuple(note.words for note in in_order(facts, version, one)))
        for one in steps_to(facts, version)
        if one["notes"]
    )


def in_order(facts: TypeFacts, version: VersionFacts, step: dict) -> list[Note]:
    """What matters most for telling versions apart comes first.

    That is: what both records speak of surely; no mere detail of a part that came; neither on the label, which gets
    lost and swapped, nor often got wrong; otherwise in every piece; shared with the fewest other versions of the type;
    easy to see.
    """

    def rank(note: Note) -> tuple:
        feature = facts.features[note.feature]
        hard = feature.group == LABEL or feature.error >= WEAK_ERROR
        in_some_only = bool(note.before & note.after)
        told = -told_from(facts, version, note.feature)
        return note.inferred, note.kind in DETAILS, hard, in_some_only, told, EASE[feature.seen]

    return sorted(step["notes"], key=rank)


def told_from(facts: TypeFacts, version: VersionFacts, feature: str) -> int:
    """From how many versions of the type this one is told by a feature, in every piece."""
    own = states_of(version, feature)
    others = (states_of(other, feature) for other in facts.versions.values())
    return sum(bool(own and theirs and not own & theirs) for theirs in others)


def lines_of(steps: Sequence[Step], room: float, size: float) -> tuple[str, ...]:
    """The steps in lines no wider than `room`."""
    each = MOST_LINES if len(steps) == 1 else 1
    return tuple(line for step in steps for line in packed(step.opening, step.notes, room, size, most=each))


def short_note(steps: Sequence[Step], room: float, size: float) -> tuple[str, ...]:
    """For all steps together the one change that tells most, without naming what came before, in two lines at most,
    and how many more there are."""
    notes = [note for step in steps for note in step.notes]
    if not notes:
        return ()
    behind = f" +{len(notes) - 1}" if len(notes) > 1 else ""
    *lines, last = wrapped(notes[0], room - text_width(behind, size), size, most=MOST_LINES)
    return (*lines, last + behind)


def packed(opening: str, notes: Sequence[str], room: float, size: float, *, most: int) -> list[str]:
    """As many whole notes as so many lines hold, the first cut where it must be, and how many more there are."""
    lines, line, left = [], opening, list(notes)
    while left:
        last = len(lines) + 1 == most
        behind = rest_words(len(left) - 1) if last else ""
        joined = line + left[0] if line == opening else f"{line}; {left[0]}"
        if text_width(joined + behind, size) <= room:
            line = joined
            left.pop(0)
        elif not last and line != opening:
            lines.append(f"{line};")
            line = opening = ""
        elif line == opening:
            line = cut_to(joined, room - text_width(behind, size), size)
            left.pop(0)
        else:
            break
    return [*lines, line + rest_words(len(left))]


def rest_words(number: int) -> str:
    return f" and {number} more" if number else ""
