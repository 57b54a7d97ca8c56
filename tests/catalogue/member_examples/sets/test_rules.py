"""Matched, possible, married or cannot tell. The thresholds are the society's own, no source."""

import pytest

from catalogue.member_examples.sets.rules import Fixing, Joint, Says, SetPiece, Verdict, judge_pair, judge_set

COAT = SetPiece("E1", version="COA-83S", kind="issue", year=1986, first=1983, last=2001, cut="Home",
                colourway="Shingle print", maker="Thornaquay", size="174/96")  # fmt: skip
LINER = SetPiece("E2", version="LIN-83", kind="issue", year=1986, first=1983, last=2001, cut="Home",
                 colourway="Plain", maker="Dunsallow", size="174/96")  # fmt: skip


def with_(piece: SetPiece, **changes) -> SetPiece:
    return SetPiece(**{**piece.__dict__, **changes})


def says(one: SetPiece, other: SetPiece, about: str, **given) -> Says | None:
    return next((r.says for r in judge_pair(one, other, **given).reasons if r.about == about), None)


def test_pieces_whose_years_and_sizes_agree_are_matched():
    assert judge_pair(COAT, LINER).verdict == Verdict.MATCHED
    assert judge_pair(COAT, LINER, fasten="yes").verdict == Verdict.MATCHED


def test_pieces_that_do_not_fasten_to_each_other_are_married_whatever_else_agrees():
    assert judge_pair(COAT, LINER, fasten="no").verdict == Verdict.MARRIED


@pytest.mark.parametrize(
    ("changes", "verdict"),
    [
        ({"cut": "Cold"}, Verdict.MARRIED),
        ({"colourway": "Ling print"}, Verdict.MARRIED),
        ({"kind": "commercial_copy"}, Verdict.MARRIED),
        ({"year": 1999}, Verdict.POSSIBLE),
        ({"year": 1999, "size": "150/80"}, Verdict.MARRIED),
        ({"size": "6"}, Verdict.POSSIBLE),
        ({"year": None, "size": "", "maker": ""}, Verdict.CANNOT_TELL),
    ],
)
def test_what_speaks_against(changes, verdict):
    assert judge_pair(COAT, with_(LINER, **changes)).verdict == verdict


def test_nothing_recorded_is_cannot_tell():
    assert judge_pair(SetPiece("E1"), SetPiece("E2")).verdict == Verdict.CANNOT_TELL
    assert judge_pair(SetPiece("E1"), SetPiece("E2")).reasons == ()


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        (1986, 1989, Says.FOR),
        (1986, 1990, Says.NOTHING),
        (1986, 1994, Says.NOTHING),
        (1986, 1995, Says.AGAINST),
    ],
)
def test_label_years(one, other, expected):
    assert says(with_(COAT, year=one), with_(LINER, year=other), "Dates") == expected
    assert says(with_(COAT, year=other), with_(LINER, year=one), "Dates") == expected


def test_without_label_years_only_versions_made_at_different_times_say_something():
    early = with_(COAT, year=None, first=1952, last=1958)
    late = with_(LINER, year=None, first=1976, last=None)
    assert says(early, late, "Dates") == says(late, early, "Dates") == Says.AGAINST
    assert says(with_(COAT, year=None), with_(LINER, year=None), "Dates") == Says.NOTHING
    assert says(with_(COAT, year=None, first=None), late, "Dates") is None


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ("174/96", "174/96", Says.FOR),
        ("174/96", "168 / 92", Says.FOR),
        ("174/96", "164/88", Says.NOTHING),
        ("174/96", "160/88", Says.AGAINST),
        ("4", "4", Says.FOR),
        ("4", "5", Says.NOTHING),
        ("4", "6", Says.AGAINST),
        ("XL", "XL", Says.FOR),
        ("XL", "174/96", Says.NOTHING),
        ("4", "174/96", Says.NOTHING),
        ("", "4", None),
    ],
)
def test_size_marks_are_compared_within_one_system(one, other, expected):
    assert says(with_(COAT, size=one), with_(LINER, size=other), "Size") == expected


def test_of_several_pieces_the_worst_pair_decides():
    third = with_(COAT, code="E3")
    verdict, pairs = judge_set([COAT, LINER, third])
    assert (verdict, len(pairs)) == (Verdict.MATCHED, 3)

    assert judge_set([COAT, LINER, with_(third, cut="Cold")])[0] == Verdict.MARRIED
    assert judge_set([COAT, LINER, SetPiece("E4")])[0] == Verdict.CANNOT_TELL
    assert judge_set([COAT])[0] == Verdict.CANNOT_TELL


FITS = {"COA-83S": ("S17",)}
JOINTS = {("COA", "LIN"): (Joint("fixing", "Fixing", frozenset({("studs", "studs"), ("buttons", "loops")})),)}


def fixing(state: str, *, seen: bool = True) -> dict:
    return {"fixing": Fixing((state,), state, seen)}


def pair(liner: dict, coat: dict, **given):
    one = with_(SetPiece("E1", version="COA-83S", garment_type="COA"), **coat)
    other = with_(SetPiece("E2", version="LIN-83", garment_type="LIN"), **liner)
    return judge_pair(one, other, joints=JOINTS, **given)


def test_versions_on_record_as_fitting_speak_for_it_and_others_of_the_type_against_it():
    judged = pair({"fits": FITS, "fits_types": frozenset({"COA"})}, {})
    assert [(r.says, r.words, r.sources) for r in judged.reasons] == [
        (Says.FOR, "On record LIN-83 and COA-83S fit each other.", ("S17",))
    ]
    assert judged.verdict == Verdict.POSSIBLE

    against = pair({"fits": FITS, "fits_types": frozenset({"COA"})}, {"version": "COA-67"})
    assert [r.words for r in against.reasons] == ["On record LIN-83 fits COA-83S, not COA-67."]
    assert against.reasons[0].says == Says.AGAINST
    assert pair({"fits": FITS}, {"version": "COA-67"}).reasons == ()


def test_that_they_can_be_joined_is_counted_once_however_it_is_said():
    judged = pair({"fits": FITS, "fixings": fixing("studs")}, {"fixings": fixing("studs")}, fasten="yes")
    assert [(r.about, r.says) for r in judged.reasons] == [
        ("Fastening", Says.FOR),
        ("Fit", Says.NOTHING),
        ("Fixings", Says.NOTHING),
    ]
    assert judged.verdict == Verdict.POSSIBLE


@pytest.mark.parametrize(
    ("coat", "liner", "seen", "says", "verdict"),
    [
        ("buttons", "loops", (True, True), Says.FOR, Verdict.POSSIBLE),
        ("studs", "loops", (True, True), Says.STRONGLY_AGAINST, Verdict.MARRIED),
        ("studs", "loops", (True, False), Says.AGAINST, Verdict.CANNOT_TELL),
        ("studs", "loops", (False, False), None, Verdict.CANNOT_TELL),
    ],
)
def test_fixings_that_were_seen_are_compared_with_what_joins_on_record(coat, liner, seen, says, verdict):
    judged = pair({"fixings": fixing(liner, seen=seen[1])}, {"fixings": fixing(coat, seen=seen[0])})
    assert [reason.says for reason in judged.reasons] == ([says] if says else [])
    assert judged.verdict == verdict


def test_worn_with_counts_alike_in_every_set_and_a_common_print_adds_nothing_to_it():
    worn = pair({}, {"worn_with": {"LIN-83": ()}})
    assert [(r.about, r.says) for r in worn.reasons] == [("Worn with", Says.FOR)]

    printed = {"colourway": "Ling print"}
    both = pair(printed, printed | {"worn_with": {"LIN-83": ("S15",)}})
    assert [(r.about, r.says, r.again, r.sources) for r in both.reasons] == [
        ("Colourway", Says.NOTHING, "Worn with", None),
        ("Worn with", Says.FOR, "", ("S15",)),
    ]
    assert worn.verdict == both.verdict == Verdict.POSSIBLE
