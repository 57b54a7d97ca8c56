"""When the piece in hand was probably made, within each version that a verdict names."""

from catalogue.member_examples.piece_pages import dated_within
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.models import Maker
from catalogue.reference.words import VersionKind
from identification.dating.piece_year import KnownOfPiece
from identification.labels_on_pages.sewn import is_doubtful
from identification.walk_through.address import Walk
from identification.walk_through.any_garment import ANY_GARMENT

MOST_VERSIONS = 3


def piece_years(facts: TypeFacts, walk: Walk, named: list[VersionFacts], number: int) -> list[dict]:
    """Each issued version named with what is said; nothing where more are named than a year could help with."""
    issued = [version for version in named if version.kind == VersionKind.ISSUE]
    if facts.code == ANY_GARMENT or len(named) > MOST_VERSIONS or not issued:
        return []
    known = known_of(facts, walk)
    found = [(version, dated_within(known, facts, version, number=number, of_label=True)) for version in issued]
    return [{"version": version, "sentences": said} for version, said in found if said]


def known_of(facts: TypeFacts, walk: Walk) -> KnownOfPiece:
    """What the walk knows that dates: label, contract, maker with the years of its work, each detail that was seen. A
    label that may well come from another piece dates nothing."""
    moved = is_doubtful(walk.label_sewn)
    # Of two makers on its labels neither is taken: which of them made the piece is not told.
    of_label = walk.label_makers[0] if len(walk.label_makers) == 1 else ""
    code = walk.maker if moved or walk.label_maker and not of_label else of_label or walk.maker
    maker = Maker.objects.filter(code=code).values_list("first_year", "last_year").first() if code else None
    details = {
        feature: answers[-1]
        for feature, answers in walk.answers.items()
        if feature in facts.features and answers[-1] in facts.features[feature].state_by_code
    }
    first, last = maker or (None, None)
    return KnownOfPiece(
        label_year=walk.year if moved else walk.label_year or walk.year,
        contract_year=None if moved else walk.label_contract,
        maker=code,
        maker_from=first,
        maker_to=last,
        details=details,
    )
