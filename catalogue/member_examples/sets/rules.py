"""Whether pieces found together can have belonged together. Pure; thresholds are the society's own, no source.

Never a proof: pieces that match may have met later, and a wearer may have been given a new coat with old trousers.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from itertools import combinations

YEARS_ALIKE, YEARS_APART = 3, 8
# Sizes of one wearer: marks of height and girth in centimetres, and running size numbers.
HEIGHT_ALIKE, HEIGHT_APART = 6, 12
NUMBER_APART = 2
PAIR = re.compile(r"(\d{3})\s*/\s*(\d{2,3})")
RUNNING = re.compile(r"[1-9]")
PLAIN = "plain"
# Reasons that rest on one fact, the one that counts first: that the pieces can be joined, best seen on themselves; that
# they go together, best known from papers, and told by their print as well.
JOINED, TOGETHER = ("Fastening", "Fit", "Fixings"), ("Worn with", "Colourway")
COPIES = ("commercial_copy", "reproduction")


class Says(StrEnum):
    FOR = "for"
    AGAINST = "against"
    STRONGLY_AGAINST = "strongly against"
    NOTHING = "nothing"


class Verdict(StrEnum):
    MATCHED = "matched"
    POSSIBLE = "possible"
    MARRIED = "married"
    CANNOT_TELL = "cannot tell"


VERDICT_WORDS = {
    Verdict.MATCHED: "Matched: what can be compared agrees.",
    Verdict.POSSIBLE: "Possible: nothing rules it out, and not enough speaks for it.",
    Verdict.MARRIED: "Married: put together later.",
    Verdict.CANNOT_TELL: "Cannot tell: too little is recorded to compare.",
}


@dataclass(frozen=True)
class Fixing:
    """How a piece is joined to another: the states that it may have, in words too. `seen` on the piece itself, or
    only what the record of its version says."""

    states: tuple[str, ...]
    words: str
    seen: bool


@dataclass(frozen=True)
class Joint:
    """A feature by which pieces of two garment types are joined, and the pairs of states that do join, as versions on
    record that fit each other show them."""

    feature: str
    name: str
    pairs: frozenset[tuple[str, str]]


@dataclass(frozen=True)
class SetPiece:
    """What is compared of one piece. `first`, `last`: years of its version; `year`: of its label. `fits`, `worn_with`:
    versions that its own goes with, each with the codes of the sources for it; `fits_types`: garment types of the
    first."""

    code: str
    garment_type: str = ""
    version: str = ""
    kind: str = ""
    year: int | None = None
    first: int | None = None
    last: int | None = None
    cut: str = ""
    colourway: str = ""
    maker: str = ""
    size: str = ""
    fits: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    fits_types: frozenset[str] = frozenset()
    worn_with: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    fixings: Mapping[str, Fixing] = field(default_factory=dict)


Joints = Mapping[tuple[str, str], Sequence[Joint]]


@dataclass(frozen=True)
class Reason:
    """What one comparison says, in words. `sources`: codes of those for a relation on record, None where there is no
    question of any; `again`: the reason that said the same already, so that this one counts no more."""

    about: str
    says: Says
    words: str
    sources: tuple[str, ...] | None = None
    again: str = ""


@dataclass(frozen=True)
class PairJudged:
    first: str
    second: str
    verdict: Verdict
    reasons: tuple[Reason, ...]


def judge_set(
    pieces: Sequence[SetPiece], *, fasten: str = "unknown", joints: Joints | None = None
) -> tuple[Verdict, list[PairJudged]]:
    """The verdict on the whole, and on every two of its pieces.

    `fasten`: yes, no or unknown, whether pieces made to be fastened to each other do. `joints`: by two garment types
    what joins their pieces.
    """
    pairs = [judge_pair(one, other, fasten=fasten, joints=joints) for one, other in combinations(pieces, 2)]
    found = {pair.verdict for pair in pairs}
    for verdict in (Verdict.MARRIED, Verdict.CANNOT_TELL, Verdict.POSSIBLE):
        if verdict in found:
            return verdict, pairs
    return (Verdict.MATCHED if found else Verdict.CANNOT_TELL), pairs


def judge_pair(one: SetPiece, other: SetPiece, *, fasten: str = "unknown", joints: Joints | None = None) -> PairJudged:
    found = [
        reason
        for reason in (
            of_fastening(fasten),
            of_fitting(one, other),
            *of_fixings(one, other, (joints or {}).get((one.garment_type, other.garment_type), ())),
            of_kinds(one, other),
            of_dates(one, other),
            of_cuts(one, other),
            of_colourways(one, other),
            of_makers(one, other),
            of_sizes(one.size, other.size),
            of_wearing(one, other),
        )
        if reason is not None
    ]
    reasons = tuple(counted_once(counted_once(found, JOINED), TOGETHER))
    return PairJudged(one.code, other.code, verdict_of(reasons), reasons)


def verdict_of(reasons: Iterable[Reason]) -> Verdict:
    """One strong reason against, or two weak ones, make it married; two for and none against make it matched."""
    said = [reason.says for reason in reasons]
    against = said.count(Says.AGAINST)
    if Says.STRONGLY_AGAINST in said or against > 1:
        return Verdict.MARRIED
    pro = said.count(Says.FOR)
    if pro > 1 and not against:
        return Verdict.MATCHED
    return Verdict.POSSIBLE if pro else Verdict.CANNOT_TELL


def counted_once(reasons: Iterable[Reason], kin: tuple[str, ...]) -> list[Reason]:
    """Of reasons that say the same in other words only the first of `kin` counts for it; the others are told."""
    told = list(reasons)
    speaking = sorted((r for r in told if r.about in kin and r.says == Says.FOR), key=lambda r: kin.index(r.about))
    if not speaking:
        return told
    counts = speaking[0]
    return [
        replace(reason, says=Says.NOTHING, again=counts.about) if reason in speaking[1:] else reason for reason in told
    ]


def of_fitting(one: SetPiece, other: SetPiece) -> Reason | None:
    """What the record says of their versions. That a pair is not on record speaks against it only where others of the
    same garment type are."""
    for this, that in ((one, other), (other, one)):
        if that.version and that.version in this.fits:
            words = f"On record {this.version} and {that.version} fit each other."
            return Reason("Fit", Says.FOR, words, this.fits[that.version])
    for this, that in ((one, other), (other, one)):
        if that.version and that.garment_type in this.fits_types:
            words = f"On record {this.version} fits {listed(this.fits)}, not {that.version}."
            return Reason(
                "Fit", Says.AGAINST, words, tuple(sorted({one for given in this.fits.values() for one in given}))
            )
    return None


def of_fixings(one: SetPiece, other: SetPiece, joints: Sequence[Joint]) -> list[Reason]:
    """What was seen on the pieces that should join them; where neither was looked at, the record says it already."""
    reasons = []
    for joint in joints:
        ours, theirs = one.fixings.get(joint.feature), other.fixings.get(joint.feature)
        if not (ours and theirs and (ours.seen or theirs.seen)):
            continue
        joins = any((this, that) in joint.pairs for this in ours.states for that in theirs.states)
        both = ours.seen and theirs.seen
        against = Says.STRONGLY_AGAINST if both else Says.AGAINST
        words = f"{joint.name}: {ours.words} and {theirs.words}"
        ending = "join each other." if joins else "do not join, as far as is recorded."
        reasons.append(Reason("Fixings", Says.FOR if joins else against, f"{words}; these {ending}"))
    return reasons


def of_wearing(one: SetPiece, other: SetPiece) -> Reason | None:
    """What the record says of their versions; said alike whether or not their prints or makers say so too."""
    for this, that in ((one, other), (other, one)):
        if that.version and that.version in this.worn_with:
            words = f"On record {this.version} was worn with {that.version}."
            return Reason("Worn with", Says.FOR, words, this.worn_with[that.version])
    return None


def listed(codes: Iterable[str]) -> str:
    return ", ".join(sorted(codes))


def of_fastening(fasten: str) -> Reason | None:
    if fasten == "no":
        return Reason("Fastening", Says.STRONGLY_AGAINST, "They do not fasten to each other, though made to.")
    if fasten == "yes":
        return Reason("Fastening", Says.FOR, "They fasten to each other.")
    return None


def of_kinds(one: SetPiece, other: SetPiece) -> Reason | None:
    copies = [piece for piece in (one, other) if piece.kind in COPIES]
    if len(copies) == 1:
        return Reason("Kind", Says.STRONGLY_AGAINST, f"{copies[0].code} is a copy, the other is not.")
    return None


def of_dates(one: SetPiece, other: SetPiece) -> Reason | None:
    """Label years where both have one, else the years of their versions."""
    if one.year and other.year:
        apart = abs(one.year - other.year)
        words = f"Label years {one.year} and {other.year}"
        if apart <= YEARS_ALIKE:
            return Reason("Dates", Says.FOR, f"{words}.")
        if apart <= YEARS_APART:
            return Reason("Dates", Says.NOTHING, f"{words}: both could be worn at one time.")
        return Reason("Dates", Says.AGAINST, f"{words}, {apart} years apart.")
    if not (one.first and other.first):
        return None
    if (one.last and other.first > one.last + YEARS_ALIKE) or (other.last and one.first > other.last + YEARS_ALIKE):
        return Reason("Dates", Says.AGAINST, "Their versions were made at different times.")
    return Reason("Dates", Says.NOTHING, "Their versions were made at the same time, which many were.")


def of_cuts(one: SetPiece, other: SetPiece) -> Reason | None:
    """Pieces for two climates were not worn together; most pieces are of one cut, so the same says nothing."""
    if not (one.cut and other.cut):
        return None
    if one.cut == other.cut:
        return Reason("Cut", Says.NOTHING, f"Cut of both: {one.cut.lower()}.")
    return Reason("Cut", Says.STRONGLY_AGAINST, f"Cut: {one.cut.lower()} and {other.cut.lower()}.")


def of_colourways(one: SetPiece, other: SetPiece) -> Reason | None:
    """Two prints do not go together; plain cloth goes with any of them, as liners do."""
    colours = [piece.colourway.lower() for piece in (one, other) if piece.colourway]
    if len(colours) < 2:
        return None
    plain = any(colour.startswith(PLAIN) for colour in colours)
    words = f"Colourway of both: {colours[0]}." if len(set(colours)) == 1 else f"Colourway: {' and '.join(colours)}."
    if plain:
        return Reason("Colourway", Says.NOTHING, words)
    return Reason("Colourway", Says.FOR if len(set(colours)) == 1 else Says.STRONGLY_AGAINST, words)


def of_makers(one: SetPiece, other: SetPiece) -> Reason | None:
    """One maker speaks for it; two say nothing, since a service bought jackets here and trousers there."""
    if not (one.maker and other.maker):
        return None
    if one.maker == other.maker:
        return Reason("Maker", Says.FOR, f"Both made by {one.maker}.")
    return Reason("Maker", Says.NOTHING, f"Makers {one.maker} and {other.maker}: each made what it had a contract for.")


def of_sizes(one: str, other: str) -> Reason | None:
    """Marks of one system only: heights of a height and girth mark, or running numbers, or the same mark."""
    if not (one and other):
        return None
    words = f"Size marks {one} and {other}"
    pairs = PAIR.fullmatch(one.strip()), PAIR.fullmatch(other.strip())
    if all(pairs):
        apart = abs(int(pairs[0][1]) - int(pairs[1][1]))
        return sized(words, apart <= HEIGHT_ALIKE, apart > HEIGHT_APART)
    if RUNNING.fullmatch(one.strip()) and RUNNING.fullmatch(other.strip()):
        apart = abs(int(one) - int(other))
        return sized(words, apart == 0, apart >= NUMBER_APART)
    if one.strip() == other.strip():
        return Reason("Size", Says.FOR, f"{words}.")
    return Reason("Size", Says.NOTHING, f"{words}: not of one system, so not compared.")


def sized(words: str, alike: bool, apart: bool) -> Reason:
    if alike:
        return Reason("Size", Says.FOR, f"{words}: they fit one wearer.")
    if apart:
        return Reason("Size", Says.AGAINST, f"{words}: they hardly fit one wearer.")
    return Reason("Size", Says.NOTHING, f"{words}: near, not the same.")
