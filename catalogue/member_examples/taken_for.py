"""What accepted pieces were taken for before the society said what they are: by their sellers, and by members."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from django.db.models import Count, Exists, F, OuterRef, Q

from catalogue.member_examples.models import Attribution, Example
from catalogue.member_examples.queries import keep_evidence
from catalogue.member_examples.words import AttributedBy

Pieces = Mapping[str, tuple[str, ...]]
NONE: Pieces = {}


@dataclass(frozen=True)
class Taken:
    """Numbers of accepted pieces by the version that the society holds them to be and the one they were taken for.

    `pieces`: of how many it is known what they were taken for at all, rightly or not.
    """

    pieces: Mapping[str, int] = field(default_factory=dict)
    wrongly: Mapping[str, Pieces] = field(default_factory=dict)

    def of(self, version: str) -> Pieces:
        """What pieces of this version were taken for."""
        return self.wrongly.get(version, NONE)

    def as_it(self, version: str) -> Pieces:
        """Which other versions' pieces were taken for this one."""
        return {held: others[version] for held, others in self.wrongly.items() if version in others}


def offered_as(*, number: int) -> Taken:
    """What sellers named, where they named a version: two queries, once for each state of the reference."""
    return keep_evidence(("offered as",), read_offered, number=number)


def attributed_anew(*, number: int) -> Taken:
    """What members held pieces to be before these were attributed to the version they are kept as now: two queries,
    once for each state. Neither the site's own identification is asked, nor who came to another view later; nor the
    society, which also moves pieces along with their version, there and back."""
    return keep_evidence(("attributed anew",), read_anew, number=number)


def read_offered() -> Taken:
    claimed = Example.objects.accepted().filter(held_as__isnull=False, sold_as_version__isnull=False).order_by()
    numbers = claimed.values_list("held_as__code").annotate(Count("pk"))
    wrong = claimed.exclude(sold_as_version=F("held_as"))
    return Taken(dict(numbers), by_versions(wrong.values_list("held_as__code", "sold_as_version__code", "code")))


def read_anew() -> Taken:
    held = Example.objects.accepted().filter(held_as__isnull=False).order_by()
    numbers = held.values_list("held_as__code").annotate(Count("pk"))
    then = Attribution.objects.filter(
        Q(made_at__gt=OuterRef("made_at")) | Q(made_at=OuterRef("made_at"), pk__gt=OuterRef("pk")),
        example=OuterRef("example"),
        version=OuterRef("example__held_as"),
    )
    before = (
        Attribution.objects.filter(example__in=held.values("pk"), by=AttributedBy.MEMBER, version__isnull=False)
        .exclude(version=F("example__held_as"))
        .filter(Exists(then))
        .order_by()
    )
    return Taken(
        dict(numbers), by_versions(before.values_list("example__held_as__code", "version__code", "example__code"))
    )


def by_versions(rows: Iterable[tuple[str, str, str]]) -> dict[str, Pieces]:
    """Each piece once under what it was taken for, however often that was said."""
    found: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
    for held, taken, code in rows:
        found[held][taken].add(code)
    return {held: {taken: tuple(sorted(codes)) for taken, codes in others.items()} for held, others in found.items()}
