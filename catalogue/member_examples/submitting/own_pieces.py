"""A member's own pieces as lists: for the section of their page, their export, and the day they leave."""

from collections.abc import Iterator
from contextlib import suppress
from datetime import timedelta

from django.core.files.storage import default_storage
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.accounts.names import without_name
from catalogue.accounts.refusals import CannotDo
from catalogue.long_lists import page_of
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.models import Example, HiddenName, Photograph, ShadePair
from catalogue.member_examples.photographs.originals import read_original
from catalogue.member_examples.submitting.answers import words_of
from catalogue.member_examples.submitting.drafting import throw_away
from catalogue.member_examples.submitting.pictures import drop_originals, largest
from catalogue.member_examples.submitting.steps import address
from catalogue.member_examples.words import ExampleState

# Those that wait for something from their owner come first.
ORDER = (ExampleState.RETURNED, ExampleState.DRAFT, ExampleState.SUBMITTED)
OLD_DRAFT = timedelta(days=120)
A_PAGE, IN_SECTION = 50, 6
FIELDS = (
    "code", "state", "sold_as", "label_year", "contract", "size_mark", "condition", "complete", "label_legible",
    "mould", "name_on_label", "provenance", "repairs", "note", "seen_on", "venue", "made_at", "submitted_at",
    "begun_held", "begun_grounds",
)  # fmt: skip


def own_pieces(member: Member) -> list[Example]:
    found = (
        Example.objects.filter(owner=member).select_related("garment_type", "held_as").order_by("-changed_at", "-pk")
    )
    return sorted(found, key=lambda one: ORDER.index(one.state) if one.state in ORDER else len(ORDER))


def own_page(member: Member, wanted: str | None) -> dict:
    """A page of the list with its rows, and what was asked for where there is no such page."""
    page, odd_page = page_of(wanted, own_pieces(member), A_PAGE)
    return {"page": page, "odd_page": odd_page, "rows": rows_of(page)}


def rows_of(pieces) -> list[dict]:
    old = timezone.now() - OLD_DRAFT
    return [
        {
            "example": one,
            "address": address("piece", one.code),
            "title": piece_title(one),
            "is_old": one.state == ExampleState.DRAFT and one.changed_at < old,
        }
        for one in pieces
    ]


def piece_title(example: Example) -> str:
    if example.held_as:
        return example.held_as.name
    return example.garment_type.name if example.garment_type else "A garment of a type not yet known"


def latest(member: Member) -> dict:
    """The section of a member's own page: a few, and how many there are."""
    pieces = own_pieces(member)
    return {"rows": rows_of(pieces[:IN_SECTION]), "more": max(0, len(pieces) - IN_SECTION)}


def exported(member: Member) -> list[dict]:
    """Everything that stands of a member's own pieces, in plain values."""
    found = Example.objects.filter(owner=member).select_related("garment_type", "held_as", "maker").prefetch_related(
        "labels", "measurements", "alterations", "photographs", "observations__feature", "observations__state",
        "attributions__version", "decisions", "shade_pair__exposed",
    )  # fmt: skip
    return [exported_piece(one, member) for one in found]


def exported_piece(example: Example, member: Member) -> dict:
    mine = [row for row in example.observations.all() if row.observer_id == member.pk]
    return {name: getattr(example, name) for name in FIELDS} | {
        "garment type": example.garment_type.code if example.garment_type else None,
        "maker": example.maker.code if example.maker else None,
        "held as": example.held_as.code if example.held_as else None,
        "labels": [
            {"kind": one.kind, "place": one.place, "text": one.text, "remark": one.remark, "origin": one.origin}
            for one in example.labels.all()
        ],
        "lengths in mm": {one.what: one.mm for one in example.measurements.all()},
        "shades": shades_exported(getattr(example, "shade_pair", None)),
        "alterations": [
            {"part": one.part, "kind": one.kind, "traces": one.traces, "by": one.by}
            for one in example.alterations.all()
        ],
        "photographs": [
            {"view": one.view, "caption": one.caption, "credit": one.credit, "licence": one.licence}
            for one in example.photographs.all()
        ],
        "I saw": [{"feature": row.feature.code, "said": words_of(row), "on": row.made_at} for row in mine],
        "I hold it to be": [
            {"version": row.version.code if row.version else row.held, "grounds": row.grounds, "on": row.made_at}
            for row in example.attributions.all()
            if row.member_id == member.pk
        ],
        "decisions": [
            {"decision": row.decision, "reason": row.reason, "on": row.made_at} for row in example.decisions.all()
        ],
    }


def shades_exported(pair: ShadePair | None) -> dict | None:
    if pair is None:
        return None
    seen = {"where light falls": pair.exposed.code if pair.exposed else "", "beside it, protected": pair.protected}
    return seen | ({"CIELAB of both": pair.labs} if pair.labs else {})


def own_photographs(member: Member) -> list[tuple[str, Photograph]]:
    """Each photograph of a member's pieces with a file name for the export, without its ending."""
    return [
        (f"{example.code}/{place:02d}-{photograph.view}", photograph)
        for example in Example.objects.filter(owner=member).prefetch_related("photographs")
        for place, photograph in enumerate(example.photographs.all(), start=1)
    ]


def exported_files(member: Member) -> Iterator[tuple[str, bytes]]:
    """The largest stored size of every photograph, and the picture as it was sent in where the society keeps that; a
    file that is lost keeps no other back."""
    for name, photograph in own_photographs(member):
        with suppress(OSError):
            if photograph.files:
                yield f"{name}.webp", stored(largest(photograph))
        with suppress(OSError):
            if photograph.original:
                ending, data = read_original(photograph.original)
                yield f"{name}-as-sent.{ending}", data


def stored(name: str) -> bytes:
    with default_storage.open(name) as file:
        return file.read()


def forget_drafts(member: Member) -> None:
    """When a member leaves: what nobody has seen goes, and no plain name stays with what was sent."""
    for draft in Example.objects.filter(owner=member, state=ExampleState.DRAFT, times_sent=0):
        throw_away(example=draft, member=member)
    for piece in Example.objects.filter(owner=member, photographs__original__gt="").distinct():
        try:
            drop_originals(piece)  # they say where and with what they were taken
        except NotDone as refusal:
            raise CannotDo(str(refusal)) from refusal
    for picture in Photograph.with_taken_out.filter(example__owner=member).exclude(credit=""):
        picture.credit = without_name(picture.credit, member.username)
        picture.save(update_fields=["credit"])
    Example.objects.filter(owner=member).update(begun_held="", begun_grounds="")
    HiddenName.objects.filter(example__owner=member).exclude(name="").update(name="")
