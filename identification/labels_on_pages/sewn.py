"""How a label is sewn in: what may be seen of it, in words, each with the drawing of that trace."""

from dataclasses import dataclass

from catalogue.reference.words import CANNOT_TELL
from identification.engine.label_witness import SEWN, belongs_when

QUESTION = "How is the label sewn in?"
WHERE = "Round the label; hold the cloth against the light."
MIND = "Of several take the first that is true. Thread fades: compare thickness and stitch length, not colour alone."
# Below this a page says that the label may well have come from another piece. Ours.
DOUBTFUL = 0.9


@dataclass(frozen=True)
class Trace:
    """One answer: its words on a button, its words in a sentence, and the drawn state that shows it."""

    code: str
    label: str
    said: str
    feature: str = ""
    state: str = ""
    hint: str = ""


TRACES = tuple(
    Trace(*row)
    for row in (
        ("other_label", "There are traces of another label", "there are traces of another label",
         "needle_holes", "other_label", "holes or a paler patch of another size or place"),
        ("empty_row", "A second row of needle holes, empty", "a second row of needle holes lies empty beside it",
         "needle_holes", "empty_row", "close round it, or under its edge"),
        ("other", "Another thread or stitch than the seams", "its thread or stitch is not that of the garment",
         "label_thread", "other", ""),
        ("glued", "Not sewn: glued or ironed on", "it is glued or ironed on", "label_thread", "glued", ""),
        ("on_cloth", "Printed or stamped on the cloth itself", "it is printed on the cloth itself", "", "",
         "it cannot be moved without the cloth"),
        ("same", "The same thread, no empty holes", "its thread is that of the garment, and no holes are empty",
         "label_thread", "same", ""),
    )
)  # fmt: skip
BY_CODE = {trace.code: trace for trace in TRACES}
assert tuple(BY_CODE) == tuple(SEWN)
NOT_TOLD = "how it is sewn in could not be told"


def sewn_words(sewn: str) -> str:
    """What was seen, to stand in a sentence; nothing where nobody was asked."""
    return BY_CODE[sewn].said if sewn in BY_CODE else NOT_TOLD if sewn == CANNOT_TELL else ""


def is_doubtful(sewn: str) -> bool:
    """Whether what was seen makes it likely enough that the label came from another piece to say so."""
    return belongs_when(sewn) < DOUBTFUL


def sewn_choices() -> list[tuple[str, str]]:
    """Codes and words for a field in which it is chosen."""
    return [*((trace.code, trace.label) for trace in TRACES), (CANNOT_TELL, "Cannot tell")]
