"""A label as one witness: number, year and maker together, and never stronger than the chance that it belongs."""

from math import log10

import pytest

from identification.engine.label_witness import (
    BELONGS,
    SEWN,
    CarriedNumber,
    LabelRecord,
    LabelSeen,
    belongs_when,
    hear_label,
    married,
    softened,
    year_chance,
)

RECORDS = (
    LabelRecord("A", (CarriedNumber("C1461", 1961, 1966),), 1957, 1966, ("DUN", "PEL")),
    LabelRecord("B", (CarriedNumber("C1461", 1964, 1966),), 1964, 1966, ("PEL",)),
    LabelRecord("C", (CarriedNumber("2711406", 1971, 1988),), 1971, 1988, ("DUN", "GAR")),
    LabelRecord("COPY", (), 1984, 2012, ("SKA",)),
)


def test_a_number_known_for_several_versions_counts_for_all_of_them_alike():
    heard = hear_label(RECORDS, LabelSeen(numbers=("C1461",)))

    assert heard.likelihood["A"] == heard.likelihood["B"] > heard.likelihood["COPY"] > heard.likelihood["C"]


def test_a_number_that_nobody_knows_says_nothing():
    heard = hear_label(RECORDS, LabelSeen(numbers=("999",)))

    assert set(heard.likelihood.values()) == {1.0}
    assert heard.decibans("A", "C") == 0.0


def test_no_label_says_nothing():
    assert set(hear_label(RECORDS, LabelSeen()).likelihood.values()) == {1.0}


def test_a_label_never_excludes_and_speaks_no_louder_than_the_chance_that_it_belongs():
    seen = LabelSeen(numbers=("2711406",), years=(1979, 1979), makers=("GAR",))
    heard = hear_label(RECORDS, seen)
    most = BELONGS * max(heard.alone.values()) / ((1 - BELONGS) * heard.stray)

    assert heard.likelihood["C"] > 10 * heard.likelihood["A"] > 0
    assert heard.decibans("C", "A") <= 10 * log10(1 + most)
    assert hear_label(RECORDS, seen, belongs=0.0).decibans("C", "A") == pytest.approx(0)


def test_a_year_within_the_number_s_own_years_counts_more_than_one_outside():
    inside = hear_label(RECORDS, LabelSeen(numbers=("C1461",), years=(1962, 1962)))
    outside = hear_label(RECORDS, LabelSeen(numbers=("C1461",), years=(1981, 1981)))

    assert inside.aspects["A"]["year"] > 1 > outside.aspects["A"]["year"] > 0
    assert inside.alone["A"] > inside.alone["B"]


def test_the_chances_of_all_years_make_one():
    assert sum(year_chance(year, (1960, 1969)) for year in range(1700, 2300)) == pytest.approx(1)


def test_what_is_not_recorded_is_neutral():
    heard = hear_label(RECORDS, LabelSeen(makers=("PEL",)))

    assert heard.aspects["C"]["maker"] < 1 < heard.aspects["A"]["maker"] < heard.aspects["B"]["maker"]
    assert hear_label(RECORDS[:1], LabelSeen(makers=("NOBODY",))).likelihood == {"A": 1.0}


def test_answers_about_the_label_share_its_doubt():
    seen = LabelSeen(numbers=("C1461",))
    alone, together = hear_label(RECORDS, seen), hear_label(RECORDS, seen, inside={"A": 0.9, "B": 0.1, "C": 0.1})

    assert together.decibans("A", "C") > alone.decibans("A", "C")
    assert together.decibans("A", "C") < alone.decibans("A", "C") + 10 * log10(9)


def test_a_body_of_one_version_with_a_label_of_another_is_named():
    """The odd piece of the demo: a copy with a genuine label."""
    heard = hear_label(RECORDS, LabelSeen(numbers=("2711406",), years=(1979, 1979), makers=("GAR",)))
    body = {"A": 0.999, "B": 0.0008, "C": 0.0001, "COPY": 0.0001}
    found = married(heard, body)

    assert (found.body, found.label) == ("A", "C")
    assert found.chance > 0.9
    assert heard.stray_given("A") > 0.9


def test_a_label_that_fits_its_body_is_no_marriage():
    heard = hear_label(RECORDS, LabelSeen(numbers=("2711406",), years=(1979, 1979)))

    assert married(heard, {"A": 0.05, "B": 0.05, "C": 0.85, "COPY": 0.05}) is None
    assert married(heard, {"A": 0.3, "B": 0.2, "C": 0.3, "COPY": 0.2}) is None
    assert married(hear_label(RECORDS, LabelSeen()), {"A": 1.0}) is None
    assert married(heard, {}) is None


def test_what_the_witness_says_can_be_worked_out_by_hand():
    """Two versions, one number each: P1 is .98 and .02, the mean .5; .95 of P1 and .05 of the mean."""
    pair = (LabelRecord("X", (CarriedNumber("1"),)), LabelRecord("Y", (CarriedNumber("2"),)))
    heard = hear_label(pair, LabelSeen(numbers=("1",)))

    assert heard.stray == pytest.approx(0.5)
    assert heard.likelihood["X"] / heard.likelihood["Y"] == pytest.approx(0.956 / 0.044)


def test_how_it_is_sewn_in_is_told_of_labels_that_belong_and_of_moved_ones_in_full():
    """Each of the two shares out the whole of its chance; the odds are the rule of Bayes, worked out by hand."""
    for column in (0, 1):
        assert sum(chances[column] for chances in SEWN.values()) == pytest.approx(1)
    assert belongs_when("empty_row") == pytest.approx(0.95 * 0.02 / (0.95 * 0.02 + 0.05 * 0.30))
    assert belongs_when("cannot-tell") == belongs_when("") == 0.95
    assert belongs_when("same") > 0.95 > belongs_when("other") > belongs_when("empty_row")


def test_the_year_of_a_contract_says_nothing_against_versions_made_for_some_years_after():
    signed = hear_label(RECORDS, LabelSeen(contract=1958))
    dated = hear_label(RECORDS, LabelSeen(years=(1958, 1958)))

    assert signed.decibans("A", "C") > 0
    assert abs(signed.decibans("A", "C")) < abs(dated.decibans("A", "C"))
    assert hear_label(RECORDS, LabelSeen(years=(1962, 1962), contract=1955)).likelihood == (
        hear_label(RECORDS, LabelSeen(years=(1962, 1962))).likelihood
    )


def test_a_serial_of_trials_narrows_to_them_and_excludes_nothing():
    trial = LabelRecord("TRIAL", (), 1959, 1960, serials=("trial_serial",))
    records = (*RECORDS, trial)
    heard = hear_label(records, LabelSeen(serials=("trial_serial",)))

    assert heard.likelihood["TRIAL"] > 5 * heard.likelihood["A"] > 0
    assert len({heard.likelihood[one.version] for one in RECORDS}) == 1
    assert heard.aspects["TRIAL"]["serial"] > 1 > heard.aspects["A"]["serial"]


def test_a_serial_that_no_version_carries_says_nothing():
    assert set(hear_label(RECORDS, LabelSeen(serials=("other",))).likelihood.values()) == {1.0}


def year_ratio(record: LabelRecord, inside: int, outside: int) -> float:
    """How much likelier the one year is than the other, of this version."""
    other = LabelRecord("OTHER", (), 1900, 1999)
    chances = [hear_label((record, other), LabelSeen(years=(year, year))).alone["V"] for year in (inside, outside)]
    return chances[0] / chances[1]


def test_a_year_beyond_an_estimated_end_costs_less_than_one_beyond_a_sure_end():
    sure = LabelRecord("V", (), 1961, 1966)
    estimated = LabelRecord("V", (), 1961, 1966, last_doubt=4)

    assert year_ratio(sure, 1964, 1969) > 5 * year_ratio(estimated, 1964, 1969) > 1
    # The other end is as sure as before.
    assert year_ratio(estimated, 1964, 1957) == pytest.approx(year_ratio(sure, 1964, 1957), rel=0.5)


def test_the_chances_of_all_years_make_one_however_doubtful_the_ends():
    for doubts in ((0, 0), (3, 0), (2, 6), (10, 10)):
        assert sum(softened(year, (1960, 1965), doubts) for year in range(1700, 2300)) == pytest.approx(1)
    assert softened(1963, (1960, 1965), (0, 0)) == year_chance(1963, (1960, 1965))


def test_years_on_record_of_the_number_itself_are_taken_as_they_stand():
    record = LabelRecord("V", (CarriedNumber("N1", 1961, 1966),), 1957, 1990, first_doubt=9, last_doubt=9)
    plain = LabelRecord("V", (CarriedNumber("N1", 1961, 1966),), 1957, 1990)
    seen = LabelSeen(numbers=("N1",), years=(1972, 1972))

    assert hear_label((record,), seen).alone == hear_label((plain,), seen).alone
