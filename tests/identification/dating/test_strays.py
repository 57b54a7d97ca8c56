"""Who still made the earlier state after a change, and the odd pieces far from it."""

from identification.dating.change_over import DatedPiece, histories
from identification.dating.strays import StillMade, half_made_by, odd_ones, still_made
from identification.dating.words import half_made_sentence, still_made_sentence

PIECES = [DatedPiece(year, "sewn", "DUN", f"A{year}") for year in range(1971, 1986)] + [
    DatedPiece(year, "slotted", "DUN", f"B{year}") for year in range(1986, 1998)
]


def change_with(*more: DatedPiece):
    every = [*PIECES, *more]
    return histories({"buttons": every})["buttons"].changes[0], every


def test_a_clean_change_has_nobody_late_and_nothing_odd():
    change, every = change_with()

    assert still_made(change, every) == ()
    assert odd_ones(change, every) == ()
    assert still_made_sentence(()) == ""


def test_a_maker_that_made_the_earlier_state_on_within_the_years_of_the_change_is_named():
    late = [DatedPiece(1987, "sewn", "GAR", "C1"), DatedPiece(1988, "sewn", "GAR", "C2"),
            DatedPiece(1991, "slotted", "GAR", "C3"), DatedPiece(1986, "sewn", "DUN", "C4")]  # fmt: skip
    change, every = change_with(*late)
    found = still_made(change, every)

    assert change.makers_apart == ()
    assert change.first <= 1988 <= change.last
    assert found == (StillMade("GAR", 1987, 1988, 2),)  # not Dunsallow, that changed first and used up old stock
    said = still_made_sentence(found, {"GAR": "Garradine"})
    assert said == "Made the earlier way after others had changed: Garradine (1987–88, 2 labels)."


def test_pieces_far_from_the_change_on_the_wrong_side_are_the_odd_ones():
    change, every = change_with(DatedPiece(1994, "sewn", "DUN", "E1"), DatedPiece(1973, "slotted", "DUN", "E2"))

    assert [piece.code for piece in odd_ones(change, every)] == ["E2", "E1"]
    assert not {"E1", "E2"} & {piece.code for piece in odd_ones(change, PIECES) if piece not in change.odd}


def test_a_maker_that_went_its_own_way_is_named_as_such_and_not_once_more():
    late = [DatedPiece(year, "sewn", "GAR", f"G{year}") for year in range(1972, 1994)]
    change, every = change_with(*late)

    assert [one.maker for one in change.makers_apart] == ["GAR"]
    assert "GAR" not in {one.maker for one in still_made(change, every)}
    assert "GAR" not in {piece.maker for piece in odd_ones(change, every)}


def test_a_maker_of_half_of_the_pieces_is_named_since_the_year_may_be_its_own():
    def rows(maker: str, change: int) -> list[DatedPiece]:
        return [
            DatedPiece(year, "slotted" if year >= change else "sewn", maker, f"{maker}{year}")
            for year in range(1976, 1997)
        ]

    def told(*pieces: DatedPiece) -> str:
        history = histories({"b": pieces})["b"]
        return half_made_sentence(half_made_by(history.changes[0], pieces), {"DUN": "Dunsallow"})

    assert told(*rows("DUN", 1986), *rows("GAR", 1986)[::2], *rows("PEL", 1986)[::3]) == (
        "Dunsallow made 21 of these 39: if it changed in a year of its own, the year told here is its own."
    )
    assert told(*rows("DUN", 1986), *rows("GAR", 1986), *rows("PEL", 1986)) == ""
    assert told(*rows("DUN", 1986)) == ""
