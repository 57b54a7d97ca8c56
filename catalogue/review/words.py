"""How much is written at once in a review. Imports nothing of ours."""

# Characters of a reason, of grounds, of a word in a thread.
LONGEST = 4_000


def share_words(share: float) -> str:
    """`12.3 in 100`: as exact as people read a share or a chance, and never nothing where there is something."""
    if 0 < share < 0.001:
        return "fewer than 0.1 in 100"
    return f"{f'{share * 100:.1f}'.removesuffix('.0')} in 100"
