"""What a piece is called: its version, then what was done to it."""

from catalogue.member_examples.models import Example
from catalogue.member_examples.words import AlterationKind, ExampleState
from catalogue.reference.facts import Place

DONE = {
    AlterationKind.CUT_OFF: "cut off",
    AlterationKind.REMOVED: "removed",
    AlterationKind.OPENED: "opened",
    AlterationKind.CLOSED: "closed",
    AlterationKind.SHORTENED: "shortened",
    AlterationKind.TAKEN_IN: "taken in",
    AlterationKind.LET_OUT: "let out",
    AlterationKind.REPLACED: "replaced",
    AlterationKind.ADDED: "added",
    AlterationKind.RE_LABELLED: "re-labelled",
    AlterationKind.DYED: "dyed",
}


def altered_words(alterations) -> str:
    """`sleeves removed, label cut off`; empty for a piece as it was issued."""
    return ", ".join(f"{one.part} {DONE[AlterationKind(one.kind)]}" for one in alterations)


def altered_at(example: Example, alteration) -> str:
    """`Front: Left cuff`, where the alteration is; empty where that was not said."""
    if not alteration.region or example.garment_type is None:
        return ""
    return Place(alteration.view, alteration.region, example.garment_type.garment_class).words


def title_of(example: Example) -> str:
    """`Blouse, working, Pattern 86, sleeves removed`, without what one member alone sees. Related rows should have been
    read with the example."""
    if example.held_as:
        name = example.held_as.name
    elif example.garment_type and example.state == ExampleState.ACCEPTED:
        name = f"{example.garment_type.name}, of no version in the reference"
    elif example.garment_type:
        name = f"{example.garment_type.name}, version not decided"
    else:
        name = "A garment of a type not yet known"
    altered = altered_words(one for one in example.alterations.all() if one.counts)
    return f"{name}, {altered}" if altered else name
