"""How likely and how strong, in words for people. The numbers stand behind a fold."""

from collections.abc import Iterable

from catalogue.reference.words import VersionKind

# Ours; no source. The first two are the limits of the verdict.
LIKELY = (
    (0.95, "almost certainly"),
    (0.80, "probably"),
    (0.50, "more likely than not"),
    (0.10, "possible"),
    (0.02, "not likely"),
    (0.0, "very unlikely"),
)
CANNOT_SAY_WORDS = "Issued, altered or copied? That cannot be said yet"
# The engine's three groups of kinds. A trial was never issued, though it is no copy: whoever names a version names its
# own kind instead.
GROUP_NOUN = {
    "issued": "the service's own, issued, trial, transitional or unplaced",
    "altered": "altered or converted",
    "copy": "a copy or reproduction",
}
KIND_NOUN = {
    VersionKind.ISSUE: "an issued piece",
    VersionKind.TRIAL: "a trial piece",
    VersionKind.TRANSITIONAL: "a transitional piece",
    VersionKind.UNPLACED: "a piece not placed yet",
    VersionKind.DEPOT_MODIFICATION: "a piece modified by the depot",
    VersionKind.CONVERSION: "a conversion",
    VersionKind.COMMERCIAL_COPY: "a commercial copy",
    VersionKind.REPRODUCTION: "a reproduction",
}
RARITY_WORDS = {1: "common", 2: "often met", 3: "now and then met", 4: "scarce", 5: "rare"}


def kind_words(group: str, kinds: Iterable[str], *, probably: bool = False) -> str:
    """The kind of piece as a headline: those kinds of version that belong together in the engine's group."""
    nouns = [KIND_NOUN[kind] for kind in VersionKind if kind in set(kinds)]
    words = listed(nouns, "or") if nouns else GROUP_NOUN[group]
    return f"Probably {words}" if probably else words[:1].upper() + words[1:]


def likely(chance: float) -> str:
    """A probability in words."""
    return next(word for least, word in LIKELY if chance >= least)


def percent(chance: float) -> str:
    """Whole percent, never a false 0 or 100."""
    if chance > 0.995:
        return "over 99 %"
    if chance < 0.005:
        return "under 1 %"
    return f"{chance * 100:.0f} %"


def listed(names: list[str], joiner: str = "and") -> str:
    """`A, B and C`."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {joiner} {names[-1]}"


def about(number: float) -> str:
    """A mean number of questions in words."""
    whole = round(number)
    if whole <= 0:
        return "no more questions are likely"
    return "about one more question" if whole == 1 else f"about {whole} more questions"
