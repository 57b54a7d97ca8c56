"""The figures of each garment type, kept in a table until the type or its pieces change.

A decision raises the reference's number for everybody, so the number alone would have every type worked out again. The
`state` of a type is a digest over all that its figures rest on, cheap to read for all types at once: the versions as
they stand, each with the key of its record (which never changes), features and states, and of the pieces how many
there are, their revisions and the last look and opinion written down.
"""

import json
from collections import defaultdict
from collections.abc import Collection
from dataclasses import replace
from hashlib import sha256

from django.db import OperationalError
from django.db.models import Count, Max, Sum

from catalogue.member_examples.evidence import Evidence
from catalogue.member_examples.models import Attribution, Example, Observation
from catalogue.member_examples.queries import altered_features, looks_at, piece_seen
from catalogue.member_examples.words import AttributedBy
from catalogue.reference.facts import TypeFacts
from catalogue.reference.models import (
    Feature,
    FeatureState,
    GarmentType,
    IssueVersion,
    OpenQuestion,
    TypeFeature,
    VersionSuccessor,
)
from catalogue.reference.snapshots import KeptForState, all_types, type_facts
from catalogue.review.health.working_out import SHAPE, OnPiece, health_of_type
from catalogue.review.models import TypeHealth

keep_health = KeptForState(most=8)


def healths(*, number: int) -> dict[str, dict]:
    """The figures of every type by code, in the society's order; only what changed is worked out."""
    return keep_health(("healths",), lambda: read_healths(number), number=number)


def read_healths(number: int) -> dict[str, dict]:
    """From the table where they still hold; else worked out, and put there."""
    types = dict(GarmentType.objects.values_list("pk", "code"))
    rows = {row.garment_type_id: row for row in TypeHealth.objects.all()}
    if len(rows) == len(types) and all(row.number == number and is_read(row) for row in rows.values()):
        return {code: rows[pk].body for pk, code in types.items()}
    states = states_of_types(types)
    stale = [pk for pk in types if pk not in rows or rows[pk].state != states[pk] or not is_read(rows[pk])]
    made = worked_out([types[pk] for pk in stale], number)
    bodies = {pk: made[code] if pk in stale else rows[pk].body for pk, code in types.items()}
    put_away(bodies, states, number)
    return {code: bodies[pk] for pk, code in types.items()}


def is_read(row: TypeHealth) -> bool:
    """Whether it was written by a program that keeps the same figures."""
    return row.body.get("shape") == SHAPE


def put_away(bodies: dict[int, dict], states: dict[int, str], number: int) -> None:
    """A table that cannot be written just now costs the next visit the same work, and nobody an error."""
    rows = [TypeHealth(garment_type_id=pk, number=number, state=states[pk], body=body) for pk, body in bodies.items()]
    try:
        TypeHealth.objects.bulk_create(
            rows, update_conflicts=True, unique_fields=["garment_type"], update_fields=["number", "state", "body"],
            batch_size=100,
        )  # fmt: skip
    except OperationalError:
        return


def states_of_types(types: dict[int, str]) -> dict[int, str]:
    """The digest of each type by key: a fixed number of queries, none of which reads a profile."""
    told: dict[int, list] = {pk: [code] for pk, code in types.items()}

    def tell(rows) -> None:
        for home, *what in rows:
            if home in told:
                told[home].append(what)

    # Every column of a type, feature or version counts: an edit in the back office may touch any of them.
    for row in GarmentType.objects.order_by("pk").values():
        told[row["id"]].append(row)
    features = {row["id"]: [row] for row in Feature.objects.order_by("pk").values()}
    for feature, *state in FeatureState.objects.order_by("pk").values_list("feature_id", "pk", "code", "label"):
        features[feature].append(state)
    for feature, state in Feature.shown_when.through.objects.order_by("pk").values_list(
        "feature_id", "featurestate_id"
    ):
        features[feature].append(state)
    in_short = {pk: digest(what) for pk, what in features.items()}
    tell(
        (home, place, in_short[feature])
        for home, place, feature in TypeFeature.objects.order_by("garment_type", "position", "pk").values_list(
            "garment_type_id", "position", "feature_id"
        )
    )
    for row in IssueVersion.objects.order_by("pk").values():
        told[row["garment_type_id"]].append(row)
    tell(VersionSuccessor.objects.order_by("pk").values_list("version__garment_type_id", "version_id", "successor_id"))
    tell(
        OpenQuestion.versions.through.objects.order_by("pk").values_list(
            "issueversion__garment_type_id", "issueversion_id", "openquestion__code", "openquestion__settled"
        )
    )
    accepted = Example.objects.accepted().order_by("garment_type")
    tell(
        accepted.values_list("garment_type_id").annotate(
            Count("pk"), Sum("revision"), Max("changed_at"), Sum("held_as_id"), Sum("label_year")
        )
    )
    for table in (Observation, Attribution):
        rows = table.objects.filter(example__state="accepted").order_by("example__garment_type")
        tell(rows.values_list("example__garment_type_id").annotate(Count("pk"), Max("pk")))
    return {pk: digest(what) for pk, what in told.items()}


def digest(what: list) -> str:
    return sha256(json.dumps(what, default=str, sort_keys=True).encode()).hexdigest()


def worked_out(codes: Collection[str], number: int) -> dict[str, dict]:
    """Of one type its own facts are read; of several those of all, which are as few queries."""
    if not codes:
        return {}
    if len(codes) == 1:
        facts = {code: type_facts(code, number=number) for code in codes}
    else:
        facts = {one.code: one for one in all_types(number=number)}
    held = Example.objects.accepted().filter(garment_type__code__in=codes, held_as__isnull=False)
    looks, altered, opinions = looks_at(held), altered_features(held), other_opinions(held)
    by_type: dict[str, list] = defaultdict(list)
    for home, pk, *rest in held.order_by("code").values_list(
        "garment_type__code", "pk", "code", "held_as__code", "label_year"
    ):
        by_type[home].append((pk, OnPiece(*rest, held_otherwise=opinions.get(pk, ()))))
    made = {}
    for code in codes:
        pieces = [(pk, but_for_what_became_of_it(facts[code], piece)) for pk, piece in by_type[code]]
        seen = (piece_seen(p.code, p.version, looks.get(pk, {}), altered.get(pk, frozenset())) for pk, p in pieces)
        made[code] = health_of_type(
            facts[code], Evidence(tuple(seen)), [looks.get(pk, {}) for pk, _ in pieces], [p for _, p in pieces]
        )
    return made


def but_for_what_became_of_it(facts: TypeFacts, piece: OnPiece) -> OnPiece:
    """Who named a version that was since split or merged agrees with whatever of it the piece is held as now."""
    others = tuple(one for one in piece.held_otherwise if not facts.is_now(one[1], piece.version))
    return replace(piece, held_otherwise=others)


def other_opinions(examples) -> dict[int, tuple[tuple[str, str], ...]]:
    """By example: members whose last opinion is another than the society's, with the version that they name."""
    rows = (
        Attribution.objects.filter(example__in=examples.order_by().values("pk"), by=AttributedBy.MEMBER)
        .order_by("made_at", "pk")
        .values_list("example_id", "member__username", "version__code", "example__held_as__code")
    )
    last: dict[int, dict[str, tuple[str, str]]] = defaultdict(dict)
    for example, member, version, held in rows:
        last[example][member] = (version or "", held)
    return {
        example: tuple(sorted((who, version) for who, (version, held) in said.items() if version != held))
        for example, said in last.items()
        if any(version != held for version, held in said.values())
    }
