"""What pages and the engine read of members' pieces. What stands on accepted ones is kept until the reference's state
changes, which accepting, withdrawing or looking again at a piece does."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

from django.db.models import Exists, OuterRef, QuerySet

from catalogue.member_examples.evidence import Evidence, PieceSeen, Said, agreed_state
from catalogue.member_examples.models import Alteration, Example, Observation, Photograph
from catalogue.member_examples.models.particulars import COUNTING
from catalogue.reference.snapshots import KeptForState

keep_evidence = KeptForState(most=2_048)


def evidence_of(type_code: str, *, number: int | None = None) -> Evidence:
    """The accepted examples of a garment type with what is seen on them: three queries, once for each state."""
    return keep_evidence(("evidence", type_code), lambda: read_evidence(type_code), number=number)


def keep_evidence_of(type_codes: Iterable[str], *, number: int) -> None:
    """Read what is not kept yet of several types: three queries in all."""
    lacking = [code for code in type_codes if keep_evidence.lacks(("evidence", code), number=number)]
    if lacking:
        for code, evidence in read_evidence_of(lacking).items():
            keep_evidence.keep(("evidence", code), evidence, number=number)


def read_evidence(type_code: str) -> Evidence:
    return read_evidence_of([type_code])[type_code]


def read_evidence_of(type_codes: Collection[str]) -> dict[str, Evidence]:
    held = Example.objects.accepted().filter(garment_type__code__in=type_codes, held_as__isnull=False)
    pictured = Exists(Photograph.objects.filter(example=OuterRef("pk"), hidden=False))
    rows = list(held.order_by("code").values_list("garment_type__code", "pk", "code", "held_as__code", pictured))
    pieces: dict[str, list[PieceSeen]] = {code: [] for code in type_codes}
    looks = looks_at(held) if rows else {}
    altered = altered_features(held) if rows else {}
    for type_code, pk, code, version, has_photographs in rows:
        seen = piece_seen(code, version, looks.get(pk, {}), altered.get(pk, frozenset()))
        pieces[type_code].append(replace(seen, pictured=has_photographs))
    return {code: Evidence(tuple(seen)) for code, seen in pieces.items()}


def piece_seen(code: str, version: str, looks: Mapping[str, list[Said]], altered: frozenset[str]) -> PieceSeen:
    """What people agree on, but on altered features, which say nothing of the version."""
    agreed = {feature: agreed_state(said) for feature, said in looks.items() if feature not in altered}
    return PieceSeen(code, version, {feature: state for feature, state in agreed.items() if state}, altered)


def looks_at(examples: QuerySet) -> dict[int, dict[str, list[Said]]]:
    """Looks at these pieces by example and feature, in the order in which they were written down."""
    rows = (
        Observation.objects.filter(example__in=examples.order_by().values("pk"))
        .order_by("pk")
        .values_list("example_id", "observer_id", "feature__code", "answer", "state__code")
    )
    looks: dict[int, dict[str, list[Said]]] = defaultdict(lambda: defaultdict(list))
    for example, observer, feature, answer, state in rows:
        looks[example][feature].append(Said(observer, answer, state or ""))
    return looks


def altered_features(examples: QuerySet) -> dict[int, frozenset[str]]:
    """Features that an alteration took away or changed, by example; not what one member only sees so."""
    counting = Alteration.objects.filter(COUNTING, example__in=examples.order_by().values("pk"))
    rows = Alteration.features.through.objects.filter(alteration__in=counting).values_list(
        "alteration__example_id", "feature__code"
    )
    found: dict[int, set[str]] = defaultdict(set)
    for example, feature in rows:
        found[example].add(feature)
    return {example: frozenset(features) for example, features in found.items()}
