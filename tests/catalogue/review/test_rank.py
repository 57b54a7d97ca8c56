"""In which order pieces come, and in which words; the numbers are the society's choice (common practice, no source)."""

from datetime import UTC, datetime, timedelta

import pytest

from catalogue.review.examples_queue.effects import Change, Effects, span_words
from catalogue.review.examples_queue.rank import age_words, rank

NOW = datetime(2026, 5, 1, tzinfo=UTC)


def change(**more) -> Change:
    plain = {"feature": "cuff", "name": "Cuff", "label": "Tab", "before": 3, "of": 4, "recorded": True, "silent": False}
    return Change(**(plain | more))


AGREES = Effects(pieces=25, changes=(change(),))
SETTLES = Effects(pieces=25, changes=(change(silent=True, recorded=False, before=0, of=0),))
CONTRADICTS = Effects(pieces=25, changes=(change(recorded=False),))
EXTENDS = Effects(pieces=25, changes=(change(),), span="label years 1968 to 1970 become 1968 to 1973")
FEW = Effects(pieces=3, changes=(change(),))


def ranked(effects, *, days: int, code: str = "E1", disputed: int = 0):
    return rank(code=code, sent=NOW - timedelta(days=days), now=NOW, effects=effects, disputed=disputed)


@pytest.mark.parametrize("effects", [SETTLES, CONTRADICTS, EXTENDS, Effects(), None])
@pytest.mark.parametrize("days", [0, 400])
def test_what_would_change_something_comes_before_the_twentieth_that_agrees_however_long_that_waits(effects, days):
    assert ranked(effects, days=0).place < ranked(AGREES, days=days).place
    assert ranked(effects, days=0).weighs
    assert not ranked(AGREES, days=days).weighs


def test_of_equally_weighty_ones_the_oldest_comes_first_and_codes_decide_between_equals():
    assert ranked(SETTLES, days=5).place < ranked(CONTRADICTS, days=4).place
    assert ranked(AGREES, days=5).place < ranked(AGREES, days=4).place
    assert ranked(AGREES, days=5, code="E1").place < ranked(AGREES, days=5, code="E2").place


def test_few_pieces_come_before_many_and_a_long_wait_lifts_among_the_few():
    assert ranked(FEW, days=0).place < ranked(AGREES, days=60).place
    assert ranked(AGREES, days=61).place < ranked(FEW, days=0).place
    assert [ranked(Effects(pieces=n, changes=(change(),)), days=0).place[0] for n in (18, 19)] == [1, 2]


def test_the_reason_is_said_in_words():
    both = Effects(pieces=0, changes=(change(recorded=False), change(name="Hem", silent=True, recorded=False, of=0)))
    assert ranked(both, days=0, disputed=2).why == (
        "contradicts the record: cuff; the first piece of its version; would settle an empty cell: hem; "
        "seen differently by different people: 2 features"
    )
    assert ranked(None, days=0).why == "nobody says which version it is"
    assert ranked(FEW, days=0).why == "agrees; would be piece number 4 of its version"


def test_a_silent_record_is_neither_contradicted_nor_settled_twice():
    seen_before = change(silent=True, recorded=False, before=0, of=2)
    assert not seen_before.settles
    assert not seen_before.contradicts


@pytest.mark.parametrize(
    ("year", "years", "words"),
    [
        (None, (1968, 1970), ""),
        (1969, (1968, 1970), ""),
        (1968, (1968, 1970), ""),
        (1971, (1968, 1970), "label years 1968 to 1970 become 1968 to 1971"),
        (1960, (1968, 1968), "label years 1968 become 1960 to 1968"),
        (1960, None, "the first label year of this version: 1960"),
    ],
)
def test_a_span_grows_only_by_a_year_outside_it(year, years, words):
    assert span_words(year, years) == words


@pytest.mark.parametrize(
    ("days", "words"),
    [(0, "today"), (1, "1 day ago"), (60, "60 days ago"), (61, "2 months ago"), (730, "2 years ago")],
)
def test_the_age_is_said_in_words(days, words):
    assert age_words(NOW - timedelta(days=days), NOW) == words
