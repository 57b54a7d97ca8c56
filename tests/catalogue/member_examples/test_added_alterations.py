"""Alterations that somebody sees on an accepted piece: added, confirmed, taken back, never overwritten."""

import pytest

from catalogue.member_examples.models import Alteration
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.models import ReferenceState
from catalogue.review.models import Notice
from tests.catalogue.member_examples.pieces import accepted, in_state, make_society
from tests.reading import text, words

FORM = {"part": "cuffs", "kind": "cut_off", "by": "not_known", "where": "", "traces": "thread ends", "features": "cuff"}


@pytest.fixture
def society(db):
    return make_society()


def counted() -> dict:
    return evidence_of("SMK", number=ReferenceState.current_number()).counts("SMK-61")


@pytest.mark.parametrize("who", ["ada", "mo"])
def test_what_the_owner_or_a_moderator_adds_counts_at_once(client, society, who):
    piece = accepted(society, society.old, closure="buttons", cuff="band")
    own = Alteration.objects.create(example=piece, kind="removed", part="label")
    assert counted() == {"closure": {"buttons": 1}, "cuff": {"band": 1}}
    client.force_login(getattr(society, who))
    for _ in range(2):  # a second tap adds nothing
        assert client.post(f"/examples/{piece.code}/altered/", FORM).status_code == 302

    assert counted() == {"closure": {"buttons": 1}}
    added = piece.alterations.exclude(pk=own.pk).get()
    assert added.added_by == getattr(society, who)
    page = words(text(client, f"/examples/{piece.code}/"))
    assert "label removed, cuffs cut off" in page
    assert f"added by {who.title()}" in page
    assert piece.alterations.filter(pk=own.pk, added_by=None, part="label").exists()

    client.post(f"/examples/{piece.code}/altered/{added.pk}/take-back/")
    assert counted() == {"closure": {"buttons": 1}, "cuff": {"band": 1}}
    assert Alteration.with_taken_back.filter(pk=added.pk, taken_back_by=added.added_by).exists()
    assert "cuffs cut off" not in text(client, f"/examples/{piece.code}/")


@pytest.mark.parametrize("who", ["ada", "mia"])
def test_what_another_member_adds_is_their_view_until_the_owner_or_a_moderator_confirms_it(client, society, who):
    piece = accepted(society, society.old, closure="buttons", cuff="band")
    client.force_login(society.ben)
    answer = client.post(f"/examples/{piece.code}/altered/", FORM, follow=True)
    assert "It counts once the owner or a moderator confirms it." in answer.content.decode()
    added = piece.alterations.get()
    confirm = f"/examples/{piece.code}/altered/{added.pk}/confirm/"

    assert counted() == {"closure": {"buttons": 1}, "cuff": {"band": 1}}
    page = words(text(client, f"/examples/{piece.code}/"))
    assert "Cuffs cut off" in page
    assert "as Ben sees it" in page
    assert "cuffs cut off" not in page  # not in the title
    assert "It is so" not in page
    client.post(confirm)  # nobody confirms their own view
    assert counted()["cuff"] == {"band": 1}

    told = Notice.objects.get(alteration=added)
    assert (told.member, told.read_at) == (society.ada, None)
    client.force_login(society.ada)
    page = words(text(client, "/my/notices/"))
    assert "Seen as altered: cuffs cut off; it counts once you or a moderator confirm it" in page
    assert f'/examples/{piece.code}/#altered"' in text(client, "/my/notices/")
    client.force_login(getattr(society, who))
    assert "It is so" in text(client, f"/examples/{piece.code}/")
    for _ in range(2):
        assert client.post(confirm).status_code == 302
    assert counted() == {"closure": {"buttons": 1}}
    assert Notice.objects.get(alteration=added).read_at is not None
    assert f"confirmed by {who.title()}" in words(text(client, f"/examples/{piece.code}/"))
    client.logout()
    assert "cuffs cut off" in text(client, f"/examples/{piece.code}/")

    client.force_login(getattr(society, who))
    client.post(confirm, {"so": "no"})
    assert counted() == {"closure": {"buttons": 1}, "cuff": {"band": 1}}
    assert piece.alterations.get().confirmed_by is None


def test_only_who_added_it_or_a_moderator_takes_it_back_and_never_the_owners_record(client, society):
    piece = accepted(society, society.old, cuff="band")
    own = Alteration.objects.create(example=piece, kind="removed", part="label")
    client.force_login(society.ben)
    client.post(f"/examples/{piece.code}/altered/", FORM)
    added = piece.alterations.exclude(pk=own.pk).get()
    for person, row, standing in (
        (society.ada, added, True),
        (society.mo, own, True),
        (society.ada, own, True),
        (society.mo, added, False),
    ):
        client.force_login(person)
        assert client.post(f"/examples/{piece.code}/altered/{row.pk}/take-back/").status_code == 302
        assert Alteration.objects.filter(pk=row.pk).exists() == standing
    assert client.post(f"/examples/{piece.code}/altered/999/take-back/").status_code == 404


def test_what_another_added_is_not_the_owners_to_change_when_the_piece_is_open_again(client, society):
    piece = accepted(society, society.old, cuff="band")
    client.force_login(society.ben)
    client.post(f"/examples/{piece.code}/altered/", FORM)
    added = piece.alterations.get()
    type(piece).objects.filter(pk=piece.pk).update(state="returned", held_as=None)
    client.force_login(society.ada)

    assert client.get(f"/my-pieces/{piece.code}/alterations/{added.pk}/").status_code == 404
    client.post(f"/my-pieces/{piece.code}/alterations/{added.pk}/drop/")
    assert Alteration.objects.filter(pk=added.pk).exists()


@pytest.mark.parametrize("state", ["draft", "submitted", "returned", "accepted", "declined", "withdrawn"])
def test_who_may_not_read_a_piece_finds_nothing_and_only_an_accepted_one_takes_additions(client, society, state):
    piece = in_state(society, state)
    address = f"/examples/{piece.code}/altered/"
    assert client.post(address, FORM).status_code == 302  # to the sign-in
    for person in (society.ben, society.ada, society.mo):
        client.force_login(person)
        readable = state == "accepted" or person == society.ada or (person == society.mo and state != "draft")
        assert client.post(address, FORM).status_code == (302 if readable else 404)

    assert piece.alterations.count() == (3 if state == "accepted" else 0)


def test_a_form_that_lacks_its_part_comes_back_with_what_was_typed(client, society):
    piece = accepted(society, society.old)
    client.force_login(society.ben)
    answer = client.post(f"/examples/{piece.code}/altered/", FORM | {"part": " "})

    assert answer.status_code == 400
    assert "Say which part it is" in answer.content.decode()
    assert "thread ends" in answer.content.decode()
    assert not piece.alterations.exists()
