"""A label that was read on its own page, carried into a new piece: shown first, kept only when the draft begins.

Names of persons stand masked in it unless the member ticked that they be kept, and so does whatever else the member
strikes out.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.member_examples.submitting.forms import LabelForm, PaperForm, SizeForm
from catalogue.member_examples.submitting.names import MASK, pattern_of, spans_of, without, without_names
from catalogue.member_examples.words import LabelKind

# What the page of the label sends along: `named_text` is the text with its names, of which those stay that are ticked.
FIELDS = ("text", "maker", "label_year", "contract", "size_mark", "attachment", "remark", "named_text", "keep_name")
WORDS = {
    "text": "What it says",
    "maker": "Maker",
    "label_year": "Year on a label",
    "contract": "Contract number",
    "size_mark": "Size mark",
}
KEPT = ("maker", "label_year", "contract", "size_mark")
PREFIX = "label-"
# With a number behind: words that are perhaps a name, and that the member knows to be none.
NO_NAME = PREFIX + "no_name-"
# Words that the reader took for no name and the member strikes out, between commas.
STRIKE = PREFIX + "strike"
LONGEST_STRUCK = 400
BETWEEN_STRUCK = re.compile(r"[,;\n]")
PARTED = re.compile(r"^-{3,}[ \t]*$", re.MULTILINE)


@dataclass(frozen=True)
class CarriedLabel:
    """`fields` of the piece, `labels` with theirs, `rows` to show, `hidden` to send on; `masked`: without a name.
    `not_struck`: what the member wanted struck out and does not stand in the text."""

    fields: Mapping[str, object]
    labels: tuple[Mapping[str, object], ...]
    rows: tuple[tuple[str, str], ...]
    hidden: tuple[tuple[str, str], ...]
    masked: bool
    not_struck: tuple[str, ...] = ()

    @property
    def fault(self) -> str:
        """Why not all could be struck out, in words; empty where all was."""
        if not self.not_struck:
            return ""
        words = ", ".join(f"“{words}”" for words in self.not_struck)
        does = "does" if len(self.not_struck) == 1 else "do"
        return (
            f"{words} {does} not stand on the label, so nothing was struck out for it. Type whole words as they stand "
            "there, with a comma between two names."
        )


def carried_label(given: Mapping[str, str]) -> CarriedLabel | None:
    """The label in a form that was sent, or None. What a field of the piece cannot take is left behind."""
    sent = {name: given.get(PREFIX + name, "") for name in FIELDS}
    no_names = {name: value for name, value in given.items() if name.startswith(NO_NAME)}
    text = (sent["named_text"] or sent["text"]).replace("\r\n", "\n")
    # Whichever page it comes from, and by whatever address: a name goes no farther unless the member says so.
    struck, not_struck = struck_from(given.get(STRIKE, ""), text)
    text = without_names(text, keep_names=bool(sent["keep_name"]), keep=set(no_names.values()), struck=struck)
    sent |= {name: without(pattern_of(struck), sent[name])[0] for name in ("contract", "size_mark", "remark")}
    parts = [part.strip("\n") for part in PARTED.split(text) if part.strip()]
    labels = []
    for part in parts:
        kind = LabelKind.OTHER if labels else LabelKind.MAIN
        form = LabelForm({"kind": kind, "text": part, "attachment": sent["attachment"], "origin": "not_known",
                          "remark": "" if labels else sent["remark"]})  # fmt: skip
        if form.is_valid():
            labels.append(form.cleaned_data)
    if not labels:
        return None
    fields = fields_of(sent)
    shown = {"text": "\n---\n".join(label["text"] for label in labels), **fields}
    kept = {**sent, "text": text, "named_text": ""}
    return CarriedLabel(
        fields=fields,
        labels=tuple(labels),
        rows=tuple((words, str(shown[name])) for name, words in WORDS.items() if shown.get(name)),
        hidden=(*((PREFIX + name, value) for name, value in kept.items() if value), *no_names.items()),
        masked=MASK in text,
        not_struck=not_struck,
    )


def struck_from(typed: str, text: str) -> tuple[list[str], tuple[str, ...]]:
    """The names that are to be struck out of the text and stand in it, and those that do not. More than the field takes
    is no person's typing: what is behind counts as not struck, so that nothing is kept in silence."""
    wanted = [" ".join(one.split()) for one in BETWEEN_STRUCK.split(typed[:LONGEST_STRUCK])]
    found = [words for words in wanted if words and spans_of([words], text)]
    lost = [words for words in wanted if words and words not in found]
    return found, (*lost, *([typed[LONGEST_STRUCK:][:LONGEST_STRUCK]] if typed[LONGEST_STRUCK:].strip() else []))


def fields_of(sent: Mapping[str, str]) -> dict[str, object]:
    """The fields of a piece that a label fills. One that cannot be taken is left out and takes no other along."""
    forms = (PaperForm(sent), SizeForm({"size_mark": sent["size_mark"]}, lengths=()))
    fields: dict[str, object] = {}
    for form in forms:
        form.is_valid()
        fields |= {name: form.cleaned_data[name] for name in KEPT if form.cleaned_data.get(name)}
    return fields
