"""Pictures of other pieces that are the same, or nearly."""

from dataclasses import dataclass

from catalogue.member_examples.models import Example, Photograph
from catalogue.member_examples.photographs.hashing import NEAR, nearest
from catalogue.member_examples.pictures import Picture, picture_of
from catalogue.member_examples.words import ExampleState

MOST = 12


@dataclass(frozen=True)
class Duplicate:
    """A picture of another piece beside one of this piece; `bits`: how many of 64 differ, None for the same file."""

    code: str
    owner: str
    state: str
    same_owner: bool
    bits: int | None
    own: Picture | None
    other: Picture | None


def likely_duplicates(example: Example) -> list[Duplicate]:
    """The same files first, then the nearest. Drafts of others stay out, as moderators do not see them. A crop or a
    turned picture has another hash and is not found. At most three queries."""
    mine = list(example.photographs.all())
    if not mine:
        return []
    others = Photograph.objects.exclude(example=example).exclude(example__state=ExampleState.DRAFT)
    found: dict[tuple[int, int], int | None] = {}
    by_digest = {one.sha256: one for one in mine}
    for pk, digest in others.filter(sha256__in=by_digest).values_list("pk", "sha256"):
        found[by_digest[digest].pk, pk] = None
    hashed = [one for one in mine if one.perceptual_hash is not None]
    known = list(others.filter(perceptual_hash__isnull=False).values_list("pk", "perceptual_hash")) if hashed else []
    for one in hashed:
        for place, bits in nearest(one.perceptual_hash, [value for _, value in known], within=NEAR):
            found.setdefault((one.pk, known[place][0]), bits)
    ranked = sorted(found.items(), key=lambda pair: (-1 if pair[1] is None else pair[1], pair[0]))[:MOST]
    rows = Photograph.objects.select_related("example__owner").in_bulk([other for (_, other), _ in ranked])
    own = {one.pk: one for one in mine}
    return [
        Duplicate(
            code=rows[other].example.code,
            owner=rows[other].example.owner.username,
            state=rows[other].example.state_words,
            same_owner=rows[other].example.owner_id == example.owner_id,
            bits=bits,
            own=picture_of(own[pk]),
            other=picture_of(rows[other]),
        )
        for (pk, other), bits in ranked
        if other in rows
    ]
