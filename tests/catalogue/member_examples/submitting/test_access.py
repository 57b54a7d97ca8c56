"""Who may open what: every address of a submission, for everybody, in every state of the piece."""

import pytest
from django.urls import reverse

from catalogue.member_examples.models import Example, Photograph
from catalogue.member_examples.submitting.urls import urlpatterns
from tests.catalogue.member_examples.pieces import in_state
from tests.catalogue.member_examples.submitting.forms_sent import send_pictures, upload

STATES = ("draft", "submitted", "returned", "accepted", "declined", "withdrawn")
OF_A_PIECE = [pattern.name for pattern in urlpatterns if "code" in str(pattern.pattern)]
WITH_NUMBER = [pattern.name for pattern in urlpatterns if "number" in str(pattern.pattern)]


def address(name: str, code: str) -> str:
    more = {"feature": "closure"} if name == "question" else {"number": 1} if name in WITH_NUMBER else {}
    return reverse(f"submitting:{name}", kwargs={"code": code, **more})


@pytest.mark.parametrize("name", OF_A_PIECE)
def test_a_stranger_and_a_moderator_find_no_page_of_a_piece_that_is_not_theirs(client, society, name):
    example = in_state(society, "draft")
    before = Example.objects.values().get()
    for person in (society.ben, society.mo):
        client.force_login(person)
        for answer in (client.get(address(name, example.code)), client.post(address(name, example.code), {"act": "x"})):
            assert answer.status_code == 404, person
            assert client.get(address(name, "E999")).status_code == 404

    assert Example.objects.values().get() == before


@pytest.mark.parametrize("state", STATES)
def test_only_the_owner_opens_the_page_of_a_piece_in_each_state(client, society, state):
    example = in_state(society, state)
    seen = {}
    for person in (society.ada, society.ben, society.mo):
        client.force_login(person)
        seen[person.username] = client.get(f"/my-pieces/{example.code}/").status_code

    assert seen == {"Ada": 200, "Ben": 404, "Mo": 404}


@pytest.mark.parametrize(
    ("state", "garment", "seen", "review"),
    [
        ("draft", 200, 200, 200),
        ("returned", 200, 200, 200),
        ("submitted", 302, 200, 302),
        ("accepted", 302, 200, 302),
        ("declined", 302, 302, 302),
        ("withdrawn", 302, 302, 302),
    ],
)
def test_the_record_is_open_before_sending_and_looks_as_long_as_it_stands(ada, society, state, garment, seen, review):
    example = in_state(society, state)
    found = [ada.get(f"/my-pieces/{example.code}/{name}/").status_code for name in ("garment", "seen", "review")]

    assert found == [garment, seen, review]


@pytest.mark.parametrize("state", STATES)
def test_a_photograph_is_seen_by_whoever_may_see_its_piece(client, society, state):
    client.force_login(society.ada)
    example = in_state(society, "draft")
    send_pictures(client, example, upload())
    photograph = Photograph.objects.get()
    target = in_state(society, state)
    Photograph.objects.filter(pk=photograph.pk).update(example=target)
    where = f"/examples/photographs/{photograph.pk}-320.webp"
    found = {}
    for person in (society.ada, society.ben, society.mo, None):
        client.logout()
        if person:
            client.force_login(person)
        found[str(person)] = client.get(where).status_code

    by_moderator = 404 if state == "draft" else 200
    by_others = 200 if state == "accepted" else 404
    assert found == {"Ada": 200, "Ben": by_others, "Mo": by_moderator, "None": by_others}


def test_no_shared_cache_keeps_a_photograph_and_no_browser_guesses_its_kind(ada, society):
    example = in_state(society, "draft")
    send_pictures(ada, example, upload())
    where = f"/examples/photographs/{Photograph.objects.get().pk}-320.webp"
    answer = ada.get(where)

    assert answer["Content-Type"] == "image/webp"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert "private" in answer["Cache-Control"]
    assert ada.get(where, headers={"If-None-Match": answer["ETag"]}).status_code == 304
    assert ada.get(where.replace("320", "321")).status_code == 404


def test_a_member_cannot_reach_a_row_of_another_piece_through_their_own(ada, society, ben):
    theirs, mine = in_state(society, "draft", owner=society.ben), in_state(society, "draft")
    label = theirs.labels.get()
    send_pictures(ben, theirs, upload())
    photograph = Photograph.objects.get()

    for name, number in (("labels", label.pk), ("photographs", photograph.pk)):
        assert ada.get(f"/my-pieces/{mine.code}/{name}/{number}/").status_code == 404
    ada.post(f"/my-pieces/{mine.code}/labels/{label.pk}/drop/")
    assert ada.post(f"/my-pieces/{mine.code}/photographs/{photograph.pk}/change/", {"act": "out"}).status_code == 404
    assert theirs.labels.exists()
    assert theirs.photographs.exists()
