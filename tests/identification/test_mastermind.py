"""Mastermind as an identification table: codes are versions, guesses are features, the marks are states.

Four places, six colours: 1,296 versions by 1,296 features of 14 states. Guessing for most information, ties to a code
that is still possible, then to the lowest, takes 5,722 guesses over all codes: Neuwirth 1982, as in the published table
of totals beside Kooi 2005 (read as a table; the paper itself was not).
"""

import itertools

import numpy as np
import pytest

from identification.engine import Feature
from tests.identification.exact_pack import known_exactly

COLOURS, PLACES = 6, 4
CODES = np.array(list(itertools.product(range(COLOURS), repeat=PLACES)))
MARKS = [
    (black, white) for black in range(PLACES + 1) for white in range(PLACES + 1 - black) if (black, white) != (3, 1)
]
SOLVED = MARKS.index((PLACES, 0))


def marks_of_every_guess() -> np.ndarray:
    """Guesses × codes: the number of the answer."""
    black = (CODES[:, None, :] == CODES[None, :, :]).sum(axis=2)
    counts = np.array([[np.sum(code == colour) for colour in range(COLOURS)] for code in CODES])
    both = np.minimum(counts[:, None, :], counts[None, :, :]).sum(axis=2)
    number = {mark: place for place, mark in enumerate(MARKS)}
    return np.vectorize(lambda b, w: number[b, w])(black, both - black)


def best_guess(answers: np.ndarray, possible: np.ndarray, guesses: np.ndarray) -> int:
    """The first of the engine's ranking; among questions of equal score a possible code, then the lowest."""
    names = tuple(map(str, range(len(MARKS))))
    features = [Feature(str(guess), names) for guess in guesses]
    table = tuple((answers[guess, possible] == np.arange(len(MARKS))[:, None]).astype(float) for guess in guesses)
    pack = known_exactly(features, table, np.ones(len(possible)))
    ranked = pack.rank_questions(pack.weigh({}), {})
    still = set(possible.tolist())
    # The largest tables are ranked in half precision, so that scores agree to a little less than the engine's digits.
    equal = [int(one.feature) for one in ranked if one.score > ranked[0].score - 5e-6]
    return min(equal, key=lambda guess: (guess not in still, guess))


def guesses_for(answers: np.ndarray, possible: np.ndarray, guesses: np.ndarray) -> int:
    """Guesses over all possible codes, the right one among them."""
    if len(possible) < 3:
        return 2 * len(possible) - 1
    guess = best_guess(answers, possible, guesses)
    after = answers[guess, possible]
    rest = [possible[after == mark] for mark in np.unique(after) if mark != SOLVED]
    return len(possible) + sum(guesses_for(answers, part, np.arange(len(CODES))) for part in rest)


@pytest.mark.fuzz
def test_guessing_for_most_information_takes_as_many_guesses_as_published():
    answers = marks_of_every_guess()
    # Colours and places can be exchanged at the start, so that these five stand for all first guesses.
    openings = np.array(
        [
            (opening == CODES).all(axis=1).argmax()
            for opening in ((0,) * 4, (0, 0, 0, 1), (0, 0, 1, 1), (0, 0, 1, 2), (0, 1, 2, 3))
        ]
    )

    assert len(MARKS) == 14
    assert guesses_for(answers, np.arange(len(CODES)), openings) == 5722
