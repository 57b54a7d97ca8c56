"""Change-overs of details, kept in a table until the dated examples of their type say something else.

They take most of the time of a page of an issuer's details, and every decision on any piece has the pages made anew. So
what was worked out is put away with a digest over all that it was worked out from: the dated pieces themselves, and the
code that works them out. A row whose digest is another is worked out again by whoever comes first.
"""

import json
from collections.abc import Mapping, Sequence
from functools import cache
from hashlib import sha256
from pathlib import Path

from django.db import OperationalError

from catalogue.member_examples.models import KeptHistories
from catalogue.reference.models import GarmentType
from identification.dating import change_over, exact_tests, fits
from identification.dating.change_over import DatedPiece, History, histories
from identification.dating.plain import as_plain, history_from

Pieces = Mapping[str, Sequence[DatedPiece]]


def kept_histories(types: Mapping[str, Pieces]) -> dict[str, dict[str, History]]:
    """By type the history of each of its features, in the order of the pieces given; only what changed is worked out.

    One query for all the types where they are kept, one more and one that writes where some are not.
    """
    states = {code: state_of(pieces) for code, pieces in types.items()}
    rows = KeptHistories.objects.filter(garment_type__code__in=types).values_list("garment_type__code", "state", "body")
    told = {
        code: {feature: history_from(one) for feature, one in json.loads(body).items()}
        for code, state, body in rows
        if state == states[code]
    }
    made = {code: histories(pieces) for code, pieces in types.items() if code not in told}
    put_away(made, states)
    return told | made


def put_away(made: Mapping[str, Mapping[str, History]], states: Mapping[str, str]) -> None:
    """A table that cannot be written just now costs the next visit the same work, and nobody an error."""
    if not made:
        return
    homes = GarmentType.objects.filter(code__in=made).values_list("pk", "code")
    try:
        KeptHistories.objects.bulk_create(
            [
                KeptHistories(
                    garment_type_id=pk,
                    state=states[code],
                    body=json.dumps({feature: as_plain(one) for feature, one in made[code].items()}),
                )
                for pk, code in homes
            ],
            update_conflicts=True,
            unique_fields=["garment_type"],
            update_fields=["state", "body"],
        )
    except OperationalError:
        return


def state_of(pieces: Pieces) -> str:
    """A digest over the dated pieces, feature by feature, and over how they are worked out."""
    told = sha256(method().encode())
    for feature, rows in pieces.items():
        told.update(repr((feature, [(p.year, p.state, p.maker, p.code) for p in rows])).encode())
    return told.hexdigest()


@cache
def method() -> str:
    """The code that works histories out: with another one nothing that was kept holds."""
    return "".join(Path(module.__file__).read_text(encoding="utf-8") for module in (change_over, exact_tests, fits))
