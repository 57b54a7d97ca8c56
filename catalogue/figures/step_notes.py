"""What a version changed, as few words on a chart of years: at the step from the version it continues or imitates."""

from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.figures.text_width import cut_to, text_width
from catalogue.reference.changes import Note, steps_to
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.separation import WEAK_ERROR
from catalogue.reference.words import VersionKind

# A version that continues one version has so many lines; one that continues several has one for each.
MOST_LINES = 2
# What is now otherwise in every piece comes before what is so in some, and before the details of a part that came.
PLAIN_CHANGES, DETAILS = ("instead", "added", "gone", "more", "less"), ("came", "went")


@dataclass(frozen=True)
class Step:
    """`opening` names the version before; `notes` are in words, those that are surest to be seen first."""

    opening: str
    notes: tuple[str, ...]


def steps_of(facts: TypeFacts, version: VersionFacts) -> tuple[Step, ...]:
    """The steps to this version, but those at which nothing on record changed."""
    copied = version.kind in (VersionKind.COMMERCIAL_COPY, VersionKind.REPRODUCTION)
    return tuple(
        Step(f"{'unlike' if copied else 'from'} {one['code']}: ", tuple(note.words for note in in_order(facts, one)))
        for one in steps_to(facts, version)
        if one["notes"]
    )


def in_order(facts: TypeFacts, step: dict) -> list[Note]:
    """What both records speak of surely, and what is seldom got wrong, before the rest."""

    def rank(note: Note) -> tuple:
        weak = facts.features[note.feature].error >= WEAK_ERROR
        return note.inferred, note.kind in DETAILS, weak, note.kind not in PLAIN_CHANGES

    return sorted(step["notes"], key=rank)


def lines_of(steps: Sequence[Step], room: float, size: float) -> tuple[str, ...]:
    """The steps in lines no wider than `room`."""
    each = MOST_LINES if len(steps) == 1 else 1
    return tuple(line for step in steps for line in packed(step.opening, step.notes, room, size, most=each))


def short_line(steps: Sequence[Step], room: float, size: float) -> tuple[str, ...]:
    """One line for all steps, without naming what came before: the first note that it holds whole, and how many more
    there are."""
    notes = [note for step in steps for note in step.notes]
    if not notes:
        return ()
    behind = f" +{len(notes) - 1}" if len(notes) > 1 else ""
    whole = [note for note in notes if text_width(note + behind, size) <= room]
    return ((whole[0] if whole else cut_to(notes[0], room - text_width(behind, size), size)) + behind,)


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
