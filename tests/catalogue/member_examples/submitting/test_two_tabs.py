"""One step open in two places: what each of them changed is kept, and what both changed is asked about."""

import pytest

from catalogue.reference.models import FeaturePlace
from tests.catalogue.member_examples.submitting.forms_sent import begun
from tests.forms import Sent

QUIETLY = {"X-Saves-Quietly": "yes"}


@pytest.fixture
def piece(ada):
    return begun(ada, "SMK")


def tab(client, piece, name: str) -> dict:
    """Everything that the step's form sends when nothing in it is touched."""
    return form_in(client.get(f"/my-pieces/{piece.code}/{name}/").content.decode())


def form_in(page: str) -> dict:
    """A browser reads no line end that begins a text."""
    sent = Sent(page, ticked=True).sent.items()
    return {name: value.removeprefix("\n") if isinstance(value, str) else value for name, value in sent}


def save(client, piece, name: str, form: dict, **quietly):
    answer = client.post(f"/my-pieces/{piece.code}/{name}/", form, **quietly)
    piece.refresh_from_db()
    return answer


def test_fields_that_a_tab_did_not_touch_take_what_the_other_saved(ada, piece):
    first, second = (tab(ada, piece, "condition") for _ in range(2))
    save(ada, piece, "condition", first | {"repairs": "patched elbow", "complete": "yes"})

    answer = save(ada, piece, "condition", second | {"note": "smells of hay"})

    assert answer.status_code == 302
    assert (piece.repairs, piece.complete, piece.note) == ("patched elbow", True, "smells of hay")


def test_a_field_that_both_changed_shows_both_and_is_kept_when_saved_again(ada, piece):
    first, second = (tab(ada, piece, "condition") for _ in range(2))
    save(ada, piece, "condition", first | {"repairs": "patched elbow", "provenance": "a market"})

    answer = save(ada, piece, "condition", second | {"repairs": "darned", "note": "smells of hay"})
    page = answer.content.decode()
    assert "Saved elsewhere meanwhile: “patched elbow”" in page
    assert ">\ndarned</textarea>" in page
    assert ">\na market</textarea>" in page
    assert (piece.repairs, piece.provenance, piece.note) == ("patched elbow", "a market", "smells of hay")

    again = form_in(page)
    assert save(ada, piece, "condition", again).status_code == 302
    assert (piece.repairs, piece.provenance, piece.note) == ("darned", "a market", "smells of hay")


def test_what_both_typed_alike_is_no_question(ada, piece):
    first, second = (tab(ada, piece, "garment") for _ in range(2))
    save(ada, piece, "garment", first | {"sold_as": "a smock", "venue": "market"})

    assert save(ada, piece, "garment", second | {"sold_as": "a smock"}).status_code == 302
    assert (piece.sold_as, piece.venue) == ("a smock", "market")


def test_a_tab_that_saves_itself_goes_on_without_undoing_the_other(ada, piece):
    first, second = (tab(ada, piece, "condition") for _ in range(2))
    save(ada, piece, "condition", first | {"repairs": "patched elbow"})
    for note in ("smells", "smells of", "smells of hay"):
        second["note"] = note
        said = save(ada, piece, "condition", second, headers=QUIETLY)
        assert said.status_code == 200
        second |= {name: said.json()[name] for name in ("revision", "shown")}

    assert (piece.repairs, piece.note) == ("patched elbow", "smells of hay")


def test_a_tab_that_saves_itself_is_told_what_stands_there_and_the_next_saving_is_its_word(ada, piece):
    first, second = (tab(ada, piece, "condition") for _ in range(2))
    save(ada, piece, "condition", first | {"repairs": "patched elbow"})
    second["repairs"] = "darned"

    said = save(ada, piece, "condition", second, headers=QUIETLY)
    assert said.status_code == 400
    assert "“patched elbow”" in said.json()["fault"]
    assert piece.repairs == "patched elbow"

    second |= {name: said.json()[name] for name in ("revision", "shown")} | {"repairs": "darned twice"}
    assert save(ada, piece, "condition", second, headers=QUIETLY).status_code == 200
    assert piece.repairs == "darned twice"


def test_lengths_of_two_tabs_are_both_kept_and_none_is_read_in_the_others_unit(ada, piece):
    first, second, third = (tab(ada, piece, "size") for _ in range(3))
    save(ada, piece, "size", first | {"pit_to_pit": "55"})
    save(ada, piece, "size", second | {"back_length": "70"})
    assert lengths(piece) == {"pit_to_pit": 550, "back_length": 700}

    answer = save(ada, piece, "size", third | {"unit": "in", "pit_to_pit": "22"})
    assert "Saved elsewhere meanwhile: “55”" in answer.content.decode()
    assert lengths(piece) == {"pit_to_pit": 550, "back_length": 700}


def test_a_slip_in_one_length_of_another_unit_is_mended_without_a_question(ada, piece):
    typed = {"unit": "in", "pit_to_pit": "21 1/2", "sleeve": "a hand"}
    answer = save(ada, piece, "size", tab(ada, piece, "size") | typed)
    assert answer.status_code == 400

    assert save(ada, piece, "size", form_in(answer.content.decode()) | {"sleeve": "25"}).status_code == 302
    assert lengths(piece) == {"pit_to_pit": 546, "sleeve": 635}


def lengths(piece) -> dict[str, int]:
    return {row.what: row.mm for row in piece.measurements.all()}


def written_down(client, piece, page: str, given: dict):
    """A label or an alteration that stands in the draft, and the address of its page."""
    save(client, piece, f"{page}/new", given)
    row = getattr(piece, page).get()
    return row, f"{page}/{row.pk}"


LABEL = {"kind": "main", "place": "neck", "text": "SMOCK", "attachment": "sewn", "origin": "original", "remark": ""}
SLEEVES = {"part": "sleeves", "kind": "cut_off", "where": "", "traces": "", "by": "not_known"}


def test_two_tabs_of_one_label_keep_what_each_changed(ada, piece):
    row, page = written_down(ada, piece, "labels", LABEL)
    first, second = (tab(ada, piece, page) for _ in range(2))
    save(ada, piece, page, first | {"place": "left pocket", "remark": "lower half cut off"})

    assert save(ada, piece, page, second | {"text": "SMOCK\r\n1976"}).status_code == 302
    row.refresh_from_db()
    assert (row.place, row.text, row.remark) == ("left pocket", "SMOCK\n1976", "lower half cut off")


def test_a_label_that_both_changed_shows_both_and_waits_for_the_second_saving(ada, piece):
    row, page = written_down(ada, piece, "labels", LABEL)
    first, second = (tab(ada, piece, page) for _ in range(2))
    save(ada, piece, page, first | {"text": "SMOCK, FELL", "place": "left pocket"})

    answer = save(ada, piece, page, second | {"text": "SMOCK, DALE", "remark": "stained"})
    row.refresh_from_db()
    assert (row.text, row.place, row.remark) == ("SMOCK, FELL", "left pocket", "")
    shown = answer.content.decode()
    assert "Saved elsewhere meanwhile: “SMOCK, FELL”" in shown

    assert save(ada, piece, page, form_in(shown)).status_code == 302
    row.refresh_from_db()
    assert (row.text, row.place, row.remark) == ("SMOCK, DALE", "left pocket", "stained")


def test_a_label_that_saves_itself_is_told_of_the_other_and_loses_nothing_that_was_typed(ada, piece):
    row, page = written_down(ada, piece, "labels", LABEL)
    first, second = (tab(ada, piece, page) for _ in range(2))
    save(ada, piece, page, first | {"text": "SMOCK, FELL"})
    second |= {"text": "SMOCK, DALE", "remark": "stained"}

    said = save(ada, piece, page, second, headers=QUIETLY)
    assert said.status_code == 400
    assert "“SMOCK, FELL”" in said.json()["fault"]

    assert save(ada, piece, page, second | {"shown": said.json()["shown"]}, headers=QUIETLY).status_code == 200
    row.refresh_from_db()
    assert (row.text, row.remark) == ("SMOCK, DALE", "stained")


@pytest.mark.parametrize(
    ("page", "given", "changed"),
    [("labels", LABEL, {"text": "SMOCK, DALE"}), ("alterations", SLEEVES, {"part": "cuffs"})],
)
def test_what_was_taken_out_elsewhere_is_said_and_can_be_written_down_anew(ada, piece, page, given, changed):
    row, its_page = written_down(ada, piece, page, given)
    open_here = tab(ada, piece, its_page)
    ada.post(f"/my-pieces/{piece.code}/{page}/{row.pk}/drop/")

    answer = save(ada, piece, its_page, open_here | changed)
    shown = answer.content.decode()
    assert answer.status_code == 400
    assert "It was taken out elsewhere meanwhile. Keep it, and it is written down anew." in shown
    assert f'action="/my-pieces/{piece.code}/{page}/new/"' in shown

    assert save(ada, piece, f"{page}/new", form_in(shown)).status_code == 302
    [(name, value)] = changed.items()
    assert getattr(getattr(piece, page).get(), name) == value


def test_two_tabs_of_one_alteration_keep_what_each_changed(ada, piece):
    row, page = written_down(ada, piece, "alterations", SLEEVES)
    first, second = (tab(ada, piece, page) for _ in range(2))
    save(ada, piece, page, first | {"features": ["cuff"], "traces": "needle holes"})

    assert save(ada, piece, page, second | {"by": "wearer"}).status_code == 302
    row.refresh_from_db()
    assert (row.traces, row.by) == ("needle holes", "wearer")
    assert [feature.code for feature in row.features.all()] == ["cuff"]


def test_what_the_place_of_an_alteration_takes_in_stays_when_the_page_saved_itself_first(ada, society):
    """The page still shows nothing ticked, since it was not loaded anew."""
    FeaturePlace.objects.create(feature=society.cuff, view="sleeve_left", region="cuff")
    piece = begun(ada, "SMK")
    row, page = written_down(ada, piece, "alterations", SLEEVES)
    form = tab(ada, piece, page) | {"where": "sleeve_left:cuff"}
    said = save(ada, piece, page, form, headers=QUIETLY)
    taken_in = {feature.code for feature in row.features.all()}
    assert taken_in == {"cuff"}

    assert save(ada, piece, page, form | {"shown": said.json()["shown"]}).status_code == 302
    assert {feature.code for feature in row.features.all()} == taken_in
