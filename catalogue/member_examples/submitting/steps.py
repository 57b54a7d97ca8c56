"""The steps of a submission, in their order, and how far a draft has come. None of them is a duty."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Count, Q
from django.urls import reverse
from django.utils import timezone
from django.utils.timezone import localtime

from catalogue.member_examples.models import Example
from catalogue.member_examples.words import AttributedBy, Held, NameOnLabel
from catalogue.reference.plurals import counted


@dataclass(frozen=True)
class Step:
    """One page of the form. `name` is the end of its address."""

    name: str
    title: str


STEPS = (
    Step("garment", "The garment"),
    Step("photographs", "Photographs"),
    Step("seen", "What you see"),
    Step("labels", "Labels and marks"),
    Step("size", "Size and lengths"),
    Step("condition", "Condition and history"),
    Step("alterations", "Alterations"),
    Step("held", "What it is"),
    Step("names", "Names of persons"),
    Step("review", "Look over and send"),
)
NAMES = tuple(step.name for step in STEPS)


@dataclass(frozen=True)
class Progress:
    """A step in the list of steps: `words` says what is there; empty for nothing yet."""

    step: Step
    address: str
    words: str
    now: bool


def address(name: str, code: str) -> str:
    return reverse(f"submitting:{name}", args=[code])


def neighbours(name: str) -> tuple[str, str]:
    """Names of the step before and the step after; empty at the ends."""
    place = NAMES.index(name)
    return (NAMES[place - 1] if place else "", NAMES[place + 1] if place + 1 < len(NAMES) else "")


def progress(example: Example, now: str) -> list[Progress]:
    """Every step with what it holds, counted in one query."""
    mine = Q(attributions__by=AttributedBy.MEMBER, attributions__member=example.owner_id)
    counts = Example.objects.filter(pk=example.pk).aggregate(
        photographs=Count("photographs", filter=Q(photographs__taken_out_at__isnull=True), distinct=True),
        seen=Count("observations__feature", distinct=True),
        labels=Count("labels", distinct=True),
        lengths=Count("measurements", distinct=True),
        alterations=Count("alterations", distinct=True),
        held=Count("attributions", filter=mine, distinct=True),
    )
    words = {
        "garment": example.garment_type.name if example.garment_type else "not sure",
        "photographs": how_many(counts["photographs"], "photograph"),
        "seen": how_many(counts["seen"], "answer"),
        "labels": how_many(counts["labels"], "label"),
        "size": ", ".join(
            part
            for part in (
                f"size {example.size_mark}" if example.size_mark else "",
                how_many(counts["lengths"], "length"),
            )
            if part
        ),
        "condition": example.condition_words.lower() or ("written down" if example.provenance else ""),
        "alterations": how_many(counts["alterations"], "alteration"),
        "held": "said" if counts["held"] else "",
        "names": "" if example.name_on_label == NameOnLabel.NOT_LOOKED else example.get_name_on_label_display().lower(),
        "review": "",
    }
    return [Progress(step, address(step.name, example.code), words[step.name], step.name == now) for step in STEPS]


def how_many(number: int, word: str) -> str:
    """`2 labels`; nothing for none."""
    return counted(number, word) if number else ""


def own_attribution(example: Example):
    """What the owner holds the piece to be, last word."""
    rows = example.attributions.filter(by=AttributedBy.MEMBER, member=example.owner_id)
    return rows.select_related("version").last()


def held_words(attribution) -> str:
    if attribution is None:
        return ""
    return attribution.version.name if attribution.version else Held(attribution.held).label


def missing(found: Sequence[Progress]) -> list[Progress]:
    """Steps that hold nothing, to be shown before sending as an offer."""
    return [one for one in found if not one.words and one.step.name not in ("review", "alterations")]


def saved_words(example: Example) -> str:
    """`Saved 19:32`, with the day where it was another."""
    at = localtime(example.changed_at)
    today = localtime(timezone.now()).date() == at.date()
    return f"Saved {at:%H:%M}" if today else f"Saved {at.day} {at:%B %Y}, {at:%H:%M}"
