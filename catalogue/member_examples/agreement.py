"""How far people who looked at the same pieces agree, beyond what chance would give. Pure."""

from collections import Counter
from collections.abc import Hashable, Sequence


def cohens_kappa(pairs: Sequence[tuple[Hashable, Hashable]]) -> float | None:
    """Agreement of two raters over the same cases: (observed - chance) / (1 - chance), from 1 down; 0 is chance.

    Cohen 1960, Educational and Psychological Measurement 20:37 (from memory). None where there is no case, or where
    both gave one and the same answer throughout, so that chance alone would agree always.
    """
    if not pairs:
        return None
    first, second = (Counter(side) for side in zip(*pairs, strict=True))
    cases = len(pairs)
    observed = sum(a == b for a, b in pairs) / cases
    chance = sum(first[answer] * second[answer] for answer in first) / cases**2
    return None if chance == 1 else (observed - chance) / (1 - chance)


def fleiss_kappa(counts: Sequence[Sequence[int]]) -> float | None:
    """Agreement of any raters; `counts`: one row a case, how many of its raters gave each answer.

    Fleiss 1971, Psychological Bulletin 76:378 (from memory), every case rated equally often. Raises ValueError for
    cases rated unequally often. None where there is nothing to compare.
    """
    raters = {sum(row) for row in counts}
    if len(raters) > 1:
        raise ValueError("every case needs as many raters as the others")
    number = raters.pop() if raters else 0
    if number < 2:
        return None
    cases = len(counts)
    observed = sum((sum(n * n for n in row) - number) / (number * (number - 1)) for row in counts) / cases
    shares = [sum(column) / (cases * number) for column in zip(*counts, strict=True)]
    chance = sum(share * share for share in shares)
    return None if chance == 1 else (observed - chance) / (1 - chance)


def agreement_of_looks(cases: Sequence[Sequence[Hashable]]) -> float | None:
    """Fleiss' kappa over the cases that were looked at by as many people as most of those seen by two or more.

    `cases`: one row a piece and feature, the answers of its observers. Answers of different features never meet, so
    the caller gives one feature, or answers that name theirs.
    """
    several = [row for row in cases if len(row) > 1]
    if not several:
        return None
    often = Counter(len(row) for row in several).most_common(1)[0][0]
    chosen = [row for row in several if len(row) == often]
    answers = sorted({answer for row in chosen for answer in row}, key=repr)
    return fleiss_kappa([[Counter(row)[answer] for answer in answers] for row in chosen])
