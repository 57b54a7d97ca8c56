"""What the two shades of pieces say: of one piece on its page, and of a type on the page of its shade."""

from catalogue.member_examples.dated import IssuedExample, issued_examples, maker_names
from catalogue.member_examples.models import Example, ShadePair
from catalogue.member_examples.queries import keep_evidence
from catalogue.member_examples.words import ProtectedShade
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.words import Seen
from identification.dating.comparing_words import shade_sentences
from identification.dating.goes_with import Shade, shade_findings
from identification.dating.shades import (
    Protected,
    TwoPlaces,
    WithinPiece,
    compared_by_eye,
    compared_measured,
    two_places_sentence,
)
from identification.dating.words import counted


def is_shade(feature: FeatureFacts) -> bool:
    """A colour of the cloth itself, which asks for good light: what wear and lots shift."""
    return feature.is_of_cloth and feature.seen == Seen.DAYLIGHT


def shade_feature(facts: TypeFacts | None) -> FeatureFacts | None:
    """The first feature of the type that is a shade; None where it has none."""
    return next((feature for feature in facts.features.values() if is_shade(feature)), None) if facts else None


def compared(pair: ShadePair) -> TwoPlaces | None:
    """Figures before the eye; None where only the exposed place was looked at."""
    if pair.labs:
        return compared_measured(*pair.labs)
    return compared_by_eye(Protected(pair.protected)) if pair.protected else None


def pair_of(example: Example) -> ShadePair | None:
    return getattr(example, "shade_pair", None)


def shades_of_piece(example: Example) -> dict | None:
    """Both places in words, and what they say of the piece; None where nobody looked."""
    pair = pair_of(example)
    if pair is None:
        return None
    found = compared(pair)
    return {
        "exposed": place_words(pair, "exposed", pair.exposed.label if pair.exposed else ""),
        "protected": place_words(pair, "protected", ProtectedShade(pair.protected).label if pair.protected else ""),
        "says": two_places_sentence(found) if found else "Cannot tell: the protected place was not looked at.",
    }


def place_words(pair: ShadePair, place: str, seen: str) -> str:
    """`Moss green; measured L 43.9, a −5.8, b 13.7`."""
    figures = (
        [f"{axis.upper() if axis == 'l' else axis} {getattr(pair, f'{place}_{axis}'):.1f}" for axis in "lab"]
        if (pair.labs)
        else []
    )
    measured = f"measured {', '.join(figures)}".replace("-", "−") if figures else ""
    return "; ".join(part for part in (seen, measured) if part) or "not looked at"


def pairs_of_type(facts: TypeFacts, *, number: int) -> dict[str, ShadePair]:
    """The shades of the type's accepted pieces, by code. One query, once for each state."""
    return keep_evidence(("shades", facts.code), lambda: read_pairs(facts), number=number)


def read_pairs(facts: TypeFacts) -> dict[str, ShadePair]:
    accepted = Example.objects.accepted().filter(garment_type__code=facts.code)
    rows = ShadePair.objects.filter(example__in=accepted).select_related("example", "exposed").order_by("example__code")
    return {row.example.code: row for row in rows}


def not_faded(facts: TypeFacts, pieces: list[IssuedExample], *, number: int) -> list[IssuedExample]:
    """Without the pieces whose two places are not the same: what light or dirt did says nothing of a version."""
    pairs = pairs_of_type(facts, number=number)
    changed = {code for code, pair in pairs.items() if (found := compared(pair)) and found.says in CHANGED}
    return [one for one in pieces if one.code not in changed]


CHANGED = (WithinPiece.FADED, WithinPiece.DARKER_OUTSIDE, WithinPiece.OTHER_COLOUR)


def shades_of_type(facts: TypeFacts, *, number: int) -> list[str]:
    """First how many pieces differ within themselves, then what the measured protected shades go with."""
    issued = {one.code: one for one in issued_examples(facts, number=number)}
    pairs = {code: pair for code, pair in pairs_of_type(facts, number=number).items() if code in issued}
    found = {code: compared(pair) for code, pair in pairs.items()}
    by_eye = [one.says for one in found.values() if one and one.by is None]
    said = [eye_sentence(by_eye)] if by_eye else []
    measured = [
        Shade(*pair.labs, issued[code].year, issued[code].maker, None, issued[code].wear, code)
        for code, pair in pairs.items()
        if pair.labs
    ]
    if measured:
        said += shade_sentences(shade_findings(measured), maker_names(tuple(issued.values())))
    return said


def eye_sentence(says: list[WithinPiece]) -> str:
    parts = [f"{many} {one.value}" for one in WithinPiece if (many := says.count(one))]
    return f"Compared by eye within {counted(len(says), 'piece')}: {', '.join(parts)}."
