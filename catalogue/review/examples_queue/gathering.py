"""What the queue shows, in a number of queries that does not grow with it."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count, Max, Min, Q, QuerySet

from catalogue.member_examples.comparing import Beside, compared
from catalogue.member_examples.models import Attribution, Example
from catalogue.member_examples.queries import altered_features, evidence_of, looks_at, piece_seen
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import AttributedBy, ExampleState
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.snapshots import type_facts
from catalogue.review.examples_queue.doubts import DOUBTFUL, open_doubts
from catalogue.review.examples_queue.effects import Effects, effects_of
from catalogue.review.examples_queue.looking import lookers
from catalogue.review.examples_queue.rank import Rank, age_words, rank, waiting_words, waits_long


@dataclass(frozen=True)
class Claim:
    """Which version a piece is said to be, by whom; both empty where nobody says."""

    version: str = ""
    by: str = ""


@dataclass(frozen=True)
class Row:
    """One piece of the list."""

    example: Example
    title: str
    claim: Claim
    claimed: str
    rank: Rank
    age: str
    tally: str
    looked_at: object
    is_own: bool
    waits_long: bool = False
    doubt: str = ""


def sent_pieces(state: str) -> QuerySet:
    """Pieces in a state, or accepted ones that are doubtful, with the number of their pictures."""
    wanted = {"pk__in": open_doubts().values("example")} if state == DOUBTFUL else {"state": state}
    found = Example.objects.filter(**wanted).select_related("garment_type", "held_as", "owner", "sold_as_version")
    return found.annotate(pictures=Count("photographs", filter=Q(photographs__taken_out_at__isnull=True)))


def rows(person, *, state: str, type_code: str = "", number: int, now: datetime) -> list[Row]:
    """Pieces in a state, those that wait in the order of their rank, others the latest first."""
    found = sent_pieces(state).prefetch_related("alterations")
    if type_code:
        found = found.filter(garment_type__code=type_code)
    pieces = list(found)
    if not pieces:
        return []
    asked = Example.objects.filter(pk__in=[one.pk for one in pieces])
    looks, altered, claims = looks_at(asked), altered_features(asked), claims_of(asked)
    doubts = dict(open_doubts().values_list("example", "doubt")) if state == DOUBTFUL else {}
    years, busy = label_years(), lookers(now=now)
    made = []
    for one in pieces:
        facts, version, claim = known_of(one, claims, number)
        said = {code: told for code, told in looks.get(one.pk, {}).items() if facts and code in facts.features}
        gone = altered.get(one.pk, frozenset())
        tally = tally_of(said, version, gone)
        effects = None
        if version:
            agreed = piece_seen(one.code, version.code, said, gone).states
            effects = effects_of(
                facts, version, evidence_of(facts.code, number=number), agreed, one.label_year, years.get(version.code)
            )
        sent = one.submitted_at or one.made_at
        made.append(
            Row(
                example=one,
                title=title_of(one),
                claim=claim,
                claimed=version.name if version else "",
                rank=rank(code=one.code, sent=sent, now=now, effects=effects, disputed=tally[Beside.DISPUTED]),
                age=waiting_words(sent, now) if state == ExampleState.SUBMITTED else age_words(sent, now),
                waits_long=state == ExampleState.SUBMITTED and waits_long(sent, now),
                tally=tally_words(tally) if version else "",
                looked_at=busy.get(one.pk),
                is_own=one.owner_id == person.pk,
                doubt=doubts.get(one.pk, ""),
            )
        )
    if state == ExampleState.SUBMITTED:
        return sorted(made, key=lambda row: row.rank.place)
    return sorted(made, key=lambda row: (row.example.changed_at, row.example.pk), reverse=True)


def known_of(
    one: Example, claims: dict[int, Claim], number: int
) -> tuple[TypeFacts | None, VersionFacts | None, Claim]:
    facts = type_facts(one.garment_type.code, number=number) if one.garment_type else None
    claim = claims.get(one.pk, Claim())
    if not claim.version and one.sold_as_version:
        claim = Claim(one.sold_as_version.code, "its seller")
    stands = facts.in_force(claim.version) if facts and claim.version else ()
    return facts, stands[0] if len(stands) == 1 else None, claim


def claims_of(examples: QuerySet) -> dict[int, Claim]:
    """By example what its owner said last; where the owner names none, what the site's identification made of it."""
    rows = (
        Attribution.objects.filter(example__in=examples.order_by().values("pk"))
        .order_by("made_at", "pk")
        .values_list("example_id", "by", "member_id", "example__owner_id", "version__code")
    )
    owners: dict[int, str] = {}
    engines: dict[int, str] = {}
    for example, by, member, owner, version in rows:
        if by == AttributedBy.ENGINE:
            engines[example] = version or ""
        elif by == AttributedBy.MEMBER and member == owner:
            owners[example] = version or ""
    found = {
        example: Claim(version, "the site's own identification") for example, version in engines.items() if version
    }
    return found | {example: Claim(version, "its owner") for example, version in owners.items() if version}


def label_years() -> dict[str, tuple[int, int]]:
    """First and last label year of the accepted pieces of each version."""
    rows = (
        Example.objects.accepted()
        .filter(label_year__isnull=False, held_as__isnull=False)
        .order_by()
        .values("held_as__code")
        .annotate(first=Min("label_year"), last=Max("label_year"))
    )
    return {row["held_as__code"]: (row["first"], row["last"]) for row in rows}


def tally_of(looks: dict, version: VersionFacts | None, altered: frozenset[str]) -> dict[Beside, int]:
    tally: dict[Beside, int] = defaultdict(int)
    for code, said in looks.items():
        recorded = [cell.state for cell in version.cells.get(code, ())] if version else []
        tally[compared(said, recorded, altered=code in altered).beside] += 1
    return tally


def tally_words(tally: dict[Beside, int]) -> str:
    named = [(Beside.AGREES, "agree"), (Beside.DISAGREES, "disagree"), (Beside.NOT_RECORDED, "not recorded")]
    return ", ".join(f"{tally[beside]} {words}" for beside, words in named if tally.get(beside))


def effects_as(example: Example, facts: TypeFacts, version: VersionFacts, *, number: int) -> Effects:
    """What accepting this piece as that version would change."""
    asked = Example.objects.filter(pk=example.pk)
    seen = piece_seen(
        example.code, version.code, looks_at(asked).get(example.pk, {}),
        altered_features(asked).get(example.pk, frozenset()),
    )  # fmt: skip
    evidence = evidence_of(facts.code, number=number)
    return effects_of(facts, version, evidence, seen.states, example.label_year, label_years().get(version.code))
