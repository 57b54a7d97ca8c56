"""The pictures of the demo society's pieces: drawn from what is recorded of each, then taken in like anybody's.

One of each version comes first, so that a book that has just been set up shows a little of everything.
"""

from collections import Counter
from collections.abc import Iterator

from django.db import transaction
from django.db.models import Exists, OuterRef

from catalogue.member_examples.demo import PIECES, rows
from catalogue.member_examples.demo_photographs.making import draw_each, most_telling
from catalogue.member_examples.demo_photographs.piece import DemoPiece
from catalogue.member_examples.models import Example, Photograph
from catalogue.member_examples.photographs.intake import Refused, TakenIn, take_in_each
from catalogue.member_examples.photographs.keeping import kept
from catalogue.member_examples.submitting.pictures import files_of
from catalogue.member_examples.words import Answer
from catalogue.reference.snapshots import type_facts

SHOTS_OF_A_PIECE = 3
AT_ONCE = 8
CREDIT = "drawn, not photographed"


def draw_demo_pictures(most: int | None = None, *, workers: int | None = None) -> int:
    """Draw what the demo's pieces still lack, at most so many, and keep it. Returns how many were kept.

    What was drawn before is not drawn again, so it can be stopped at any time and go on later.
    """
    wanted = list(wanted_pictures())[:most] if most != 0 else []
    examples = {piece.code: example for example, piece, _ in wanted}
    number, batch = 0, []
    for piece, shot, picture in draw_each([(piece, shot) for _, piece, shot in wanted], workers=workers):
        batch.append((examples[piece.code], shot, picture))
        if len(batch) == AT_ONCE:
            number += keep_pictures(batch)
            batch = []
    return number + keep_pictures(batch)


def pictures_drawn() -> int:
    """How many drawings there are."""
    return Photograph.with_taken_out.filter(drawn=True).count()


def wanted_pictures() -> Iterator[tuple[Example, DemoPiece, str]]:
    """Pictures that are not there yet: fronts of the first piece of each version, other fronts, then further shots."""
    shots = {
        row["example"]: most_telling(row["shots"].split(), SHOTS_OF_A_PIECE) for row in rows(PIECES / "examples.csv")
    }
    there = set(Photograph.with_taken_out.filter(drawn=True).values_list("example__code", "view"))
    drawn_for = Photograph.with_taken_out.filter(example=OuterRef("pk"), drawn=False)
    found = (
        Example.objects.filter(code__in=shots, garment_type__isnull=False)
        .exclude(Exists(drawn_for))  # who has put in a photograph wants no drawing beside it
        .select_related("garment_type", "held_as", "owner")
        .prefetch_related("labels", "observations__feature", "observations__state")
        .order_by("code")
    )
    pieces = [(example, piece_of(example)) for example in found]
    of_version: Counter = Counter()
    ranked = []
    for example, piece in pieces:
        version = example.held_as_id or example.garment_type_id
        of_version[version] += 1
        for place, shot in enumerate(shots[example.code]):
            if (example.code, shot) not in there:
                ranked.append((place > 0, of_version[version], place, example.code, example, piece, shot))
    for *_, example, piece, shot in sorted(ranked, key=lambda row: row[:4]):
        yield example, piece, shot


def piece_of(example: Example) -> DemoPiece:
    """What is recorded of the piece, as the drawing takes it."""
    facts = type_facts(example.garment_type.code)
    seen = {
        look.feature.code: look.state.code
        for look in example.observations.all()
        if look.answer == Answer.SEEN and look.state_id
    }
    labels = " // ".join(label.text.replace("\n", " / ") for label in example.labels.all() if label.text)
    version = facts.versions.get(example.held_as.code) if example.held_as else None
    return DemoPiece(example.code, facts, seen, version, example.condition or "good", labels)


def keep_pictures(batch: list[tuple[Example, str, bytes]]) -> int:
    """Take the pictures in and write their rows; how many."""
    outcomes = take_in_each([picture for _, _, picture in batch]) if batch else []
    return sum(keep_one(*one[:2], outcome) for one, outcome in zip(batch, outcomes, strict=True))


def keep_one(example: Example, shot: str, outcome: TakenIn | Refused) -> bool:
    if isinstance(outcome, Refused):
        return False
    there = Photograph.with_taken_out.filter(example=example)
    if there.filter(sha256=outcome.sha256).exists():
        return False
    with kept(outcome.sizes) as key, transaction.atomic():
        Photograph.objects.create(
            example=example,
            view=shot,
            credit=CREDIT,
            position=SHOTS_OF_A_PIECE if shot == "other" else there.count(),
            files=files_of(key, outcome),
            width=outcome.width,
            height=outcome.height,
            sha256=outcome.sha256,
            perceptual_hash=outcome.perceptual_hash,
            drawn=True,
        )
    return True
