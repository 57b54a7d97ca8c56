"""Several labels of one piece: taken together where they add to one another, each on its own where they differ."""

from dataclasses import replace

from identification.engine.label_witness import LabelSeen
from identification.label_reading.said_of_states import Signs
from identification.labels_on_pages.evidence import Evidence, Question, evidence_of

NUMBERED = "confirm-number-"


def evidence_by_label(answer: dict, questions: list[Question], sewn: str) -> list[tuple[int, Evidence]]:
    """The number of each label with what may be used of it; 0 stands for all of them, or for the only one.

    They are kept apart where two of them name different numbers, makers or years: what one says must not speak for what
    the other does. A label that says nothing of a version, or only that somebody mended the piece, goes with the rest.
    """
    together = [(0, evidence_of(answer, questions, sewn))]
    apart = [
        (place, evidence_of(label, questions_on(answer, place, questions), sewn))
        for place, label in enumerate(answer.get("labels", ()), 1)
    ]
    saying = [(place, one) for place, one in apart if replace(one.seen, repairs=())]
    differ = any(contradict(one.seen, other.seen) for _, one in saying for _, other in saying)
    if not differ:
        return together
    every = together[0][1]
    repairs, spoken_for = every.seen.repairs, {place for place, _ in saying}
    # A label of its own for the size or the care goes with each of the others.
    silent = [one.signs for place, one in apart if place not in spoken_for]
    signs = every.signs if any(signs != Signs() for signs in silent) else None
    return [
        (place, replace(one, seen=replace(one.seen, repairs=repairs), signs=signs or one.signs))
        for place, one in saying
    ]


def contradict(one: LabelSeen, other: LabelSeen) -> bool:
    """Whether both name a number, a maker or a year, and not the same."""
    pairs = ((one.numbers, other.numbers), (one.makers, other.makers))
    if any(mine and theirs and set(mine).isdisjoint(theirs) for mine, theirs in pairs):
        return True
    return bool(one.years and other.years and (one.years[1] < other.years[0] or other.years[1] < one.years[0]))


def questions_on(answer: dict, place: int, questions: list[Question]) -> list[Question]:
    """The questions about one label, named as if it were alone: numbers are counted over all labels."""
    before = sum(len(label["numbers"]) for label in answer["labels"][: place - 1])
    own = range(before, before + len(answer["labels"][place - 1]["numbers"]))
    found = []
    for one in questions:
        if one.name.startswith(NUMBERED):
            number = int(one.name.removeprefix(NUMBERED))
            found += [replace(one, name=f"{NUMBERED}{number - before}")] if number in own else []
        elif answer.get(one.name.removeprefix("confirm-"), {}).get("label_no") == place:
            found.append(one)
    return found
