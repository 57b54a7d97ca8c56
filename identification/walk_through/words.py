"""How likely and how strong, in words for people. The numbers stand behind a fold."""

# Ours; no source. The first two are the limits of the verdict.
LIKELY = (
    (0.95, "almost certainly"),
    (0.80, "probably"),
    (0.50, "more likely than not"),
    (0.10, "possible"),
    (0.02, "not likely"),
    (0.0, "very unlikely"),
)
KIND_WORDS = {
    "issued": "An issued piece",
    "altered": "Altered or converted",
    "copy": "A copy or reproduction",
    "cannot say": "Issued, altered or copied? That cannot be said yet",
}
PROBABLE_KIND_WORDS = {
    "issued": "Probably an issued piece",
    "altered": "Probably altered or converted",
    "copy": "Probably a copy or reproduction",
}
KIND_NOUN = {"issued": "an issued piece", "altered": "an altered or converted piece", "copy": "a copy or reproduction"}
RARITY_WORDS = {1: "common", 2: "often met", 3: "now and then met", 4: "scarce", 5: "rare"}


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
