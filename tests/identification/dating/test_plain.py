"""Histories go through JSON and come back figure for figure."""

import json
from dataclasses import replace

import numpy as np
import pytest

from identification.dating.change_over import DatedPiece, Shown, histories
from identification.dating.plain import as_plain, history_from
from tests.identification.dating.histories import with_change, without_change


def with_everything() -> list[DatedPiece]:
    """A change with a late maker, pieces that do not fit, and the earlier state again long after."""
    rows = with_change(2, labels=90, late=10, wrong=0.03)
    return [*rows, *(DatedPiece(2030 + year, rows[0].state, "GAR", f"G{year}") for year in range(3))]


@pytest.mark.parametrize("seed", range(3))
def test_what_comes_back_is_what_was_said(seed):
    features = {"detail": with_everything(), "short": with_change(seed, labels=25), **without_change(seed, features=6)}
    for told in histories(features).values():
        back = history_from(json.loads(json.dumps(as_plain(told))))

        assert replace(back, changes=()) == replace(told, changes=())
        assert len(back.changes) == len(told.changes)
        for one, other in zip(back.changes, told.changes, strict=True):
            assert replace(one, curve=None) == replace(other, curve=None)
            assert one.curve.floor == other.curve.floor
            for name in ("middles", "weights", "years", "share"):
                assert np.array_equal(getattr(one.curve, name), getattr(other.curve, name))


def test_each_kind_of_thing_that_a_history_may_hold_was_among_them():
    told = histories({"detail": with_everything()})["detail"]

    assert told.shown is Shown.CHANGED
    assert any(change.odd or change.makers_apart for change in told.changes)
    assert any(change.again for change in told.changes)
