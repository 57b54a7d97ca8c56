"""Change-overs are kept in a table, and are always those of the dated examples as they are now."""

import json

import pytest
from django.db import IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples import kept_histories
from catalogue.member_examples.dated import details_of_type
from catalogue.member_examples.models import Example, KeptHistories
from catalogue.reference.models import IssueVersion, ReferenceState
from catalogue.reference.snapshots import forget_everything, type_facts
from catalogue.reference.words import VersionKind
from identification.dating.change_over import DatedPiece, histories
from identification.dating.plain import as_plain
from tests.identification.dating.histories import with_change
from tests.making import make_type

PIECES = {"cuff": with_change(1, labels=20)}


@pytest.fixture
def worked(monkeypatch):
    """The features of each working out."""
    found = []

    def noted(pieces):
        found.append(list(pieces))
        return histories(pieces)

    monkeypatch.setattr(kept_histories, "histories", noted)
    return found


def plain(told) -> dict:
    return {feature: as_plain(one) for feature, one in told.items()}


def test_what_was_worked_out_is_read_again_in_one_query_for_all_types(db, worked):
    for code in ("SMK", "HAT"):
        make_type(code)
    first = kept_histories.kept_histories({"SMK": PIECES, "HAT": {}})

    with CaptureQueriesContext(connection) as asked:
        again = kept_histories.kept_histories({"SMK": PIECES, "HAT": {}})

    assert len(asked) == 1
    assert worked == [["cuff"], []]
    assert plain(again["SMK"]) == plain(first["SMK"]) == plain(histories(PIECES))


@pytest.mark.parametrize("what", ["a year", "a maker", "one piece more", "a feature more", "the code"])
def test_whatever_it_rests_on_has_it_worked_out_again(db, worked, monkeypatch, what):
    make_type("SMK")
    kept_histories.kept_histories({"SMK": PIECES})
    first, *rest = PIECES["cuff"]
    changed = {
        "a year": {"cuff": [DatedPiece(first.year - 9, first.state, first.maker, first.code), *rest]},
        "a maker": {"cuff": [DatedPiece(first.year, first.state, "NEW", first.code), *rest]},
        "one piece more": {"cuff": [*PIECES["cuff"], first]},
        "a feature more": PIECES | {"hem": rest},
        "the code": PIECES,
    }[what]
    if what == "the code":
        monkeypatch.setattr(kept_histories, "method", lambda: "another way")

    told = kept_histories.kept_histories({"SMK": changed})["SMK"]

    assert worked == [["cuff"], list(changed)]
    assert plain(told) == plain(histories(changed)) == json.loads(KeptHistories.objects.get().body)


def test_after_a_change_only_its_type_is_worked_out_and_the_page_says_what_holds_now(client, demo_pieces, worked):
    page = "/issuers/SFS/details/button_fix/"
    forget_everything()  # another test may have looked at the same pages
    first = client.get(page).content.decode()
    assert len(worked) > 5
    dated = Example.objects.accepted().filter(garment_type__code="BLO", held_as__code="BLO-86", label_year__gt=0)
    changes = [
        lambda: Example.objects.filter(pk=dated.first().pk).update(label_year=1931),
        lambda: IssueVersion.objects.filter(code="BLO-86").update(kind=VersionKind.REPRODUCTION),
        lambda: None,
    ]
    for place, change in enumerate(changes):
        worked.clear()
        change()
        ReferenceState.mark_changed()
        forget_everything()

        text = client.get(page).content.decode()

        told = details_of_type(type_facts("BLO"), number=ReferenceState.current_number())
        assert len(worked) == (change is not changes[-1]), place
        assert plain(told.histories) == plain(histories(told.pieces))
        assert text != first
    assert "1931" not in text


def test_what_is_kept_has_a_digest(db):
    with pytest.raises(IntegrityError, match="histories_state_is_a_digest"), transaction.atomic():
        KeptHistories.objects.create(garment_type=make_type("SMK"), state="x", body="{}")
