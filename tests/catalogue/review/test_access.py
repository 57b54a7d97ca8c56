"""Every address of the queue and of the notices, tried by everybody; and how often the queue asks the database."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from catalogue.review.examples_queue.looking import EXPIRES, look_at, standing
from catalogue.review.examples_queue.urls import urlpatterns
from catalogue.review.notices.urls import urlpatterns as urls_of_notices
from tests.catalogue.member_examples.pieces import draft, make_society, sent
from tests.making import make_member

SIGN_IN, OK, NO, NOT_THERE, METHOD, NEXT = 302, 200, 403, 404, 405, 302
WHO = ("visitor", "owner", "member", "author", "moderator", "secretary")
MODERATORS = (SIGN_IN, NO, NO, NO, OK, NO)
MEMBERS = (SIGN_IN, OK, OK, OK, OK, OK)
POSTED = (SIGN_IN,) + (METHOD,) * 5
TABLE = {
    "queue": ("/pieces-that-wait/", MODERATORS),
    "piece": ("/pieces-that-wait/{code}/", MODERATORS),
    "following": ("/pieces-that-wait/{code}/next/", (SIGN_IN, NO, NO, NO, NEXT, NO)),
    "reopen": ("/pieces-that-wait/{code}/open-again/", (METHOD,) * 6),
    # of a piece that still waits it leads back to the piece
    "attribute": ("/pieces-that-wait/{code}/attribute-anew/", (SIGN_IN, NO, NO, NO, NEXT, NO)),
    "keep": ("/pieces-that-wait/{code}/keep/", (METHOD,) * 6),
    "all": ("/my/notices/", MEMBERS),
    "read": ("/my/notices/read/", (METHOD,) * 6),
    "by_mail": ("/my/notices/by-mail/", (METHOD,) * 6),
    "thread": ("/my/notices/{code}/", (SIGN_IN, OK, NOT_THERE, NOT_THERE, OK, NOT_THERE)),
}


@pytest.fixture
def society(db):
    return make_society()


@pytest.fixture
def people(society):
    author, secretary = make_member("Ann", role="author"), make_member("Sue", role="secretary")
    return dict(zip(WHO, (None, society.ada, society.ben, author, society.mo, secretary), strict=True))


def as_each(client, people, address, **given) -> tuple[int, ...]:
    found = []
    for person in people.values():
        client.logout()
        if person:
            client.force_login(person)
        found.append((client.post if given else client.get)(address, given or None).status_code)
    return tuple(found)


def test_no_address_is_left_out_of_the_table():
    assert {pattern.name for pattern in urlpatterns + urls_of_notices} == set(TABLE)


@pytest.mark.parametrize("name", TABLE)
def test_everybody_gets_what_the_table_says(client, society, people, name):
    address, expected = TABLE[name]

    assert as_each(client, people, address.format(code=sent(society, closure="zip").code)) == expected


@pytest.mark.parametrize("act", ["", "open-again/"])
def test_only_moderators_decide_whatever_form_is_sent(client, society, people, act):
    piece = sent(society, closure="zip")
    forged = {"decision": "declined", "version": "", "reason": "x", "sending": 1}
    others = {name: person for name, person in people.items() if name != "moderator"}

    assert as_each(client, others, f"/pieces-that-wait/{piece.code}/{act}", **forged) == (SIGN_IN, NO, NO, NO, NO)
    piece.refresh_from_db()
    assert piece.state == "submitted"


def test_a_draft_is_not_there_for_moderators_and_neither_is_a_code_that_nobody_has(client, society):
    client.force_login(society.mo)
    for code in (draft(society).code, "E999", "%00", "1 or 1"):
        for act in ("", "next/"):
            assert client.get(f"/pieces-that-wait/{code}/{act}").status_code == 404, code
        assert client.post(f"/pieces-that-wait/{code}/", {"decision": "accepted"}).status_code == 404


@pytest.mark.parametrize("address", ["?state=nonsense&type=nope&page=x", "?state=declined&weighs=yes", "?page=99"])
def test_a_list_that_is_asked_for_oddly_answers(client, society, address):
    sent(society)
    client.force_login(society.mo)

    assert client.get(f"/pieces-that-wait/{address}").status_code == 200


def test_the_queue_and_a_piece_ask_the_database_as_often_for_one_piece_as_for_thirty(client, society):
    client.force_login(society.mo)
    counted = []
    pieces = []
    for many in (1, 3, 30):
        pieces += [sent(society, closure="zip", cuff="band") for _ in range(many - len(pieces))]
        client.get("/pieces-that-wait/")
        asked = []
        for address in ("/pieces-that-wait/", f"/pieces-that-wait/{pieces[0].code}/"):
            client.get(address)
            with CaptureQueriesContext(connection) as queries:
                assert client.get(address).status_code == 200
            asked.append(len(queries))
        counted.append(asked)

    queue, piece = zip(*counted, strict=True)
    assert queue[0] == queue[1] == queue[2] <= 15
    # Where its owner has no other piece, there are no alterations of others to be read.
    assert piece[0] + 1 == piece[1] == piece[2] <= 20


def test_another_moderator_sees_who_looks_and_the_look_expires(client, society):
    piece = sent(society, closure="zip")
    client.force_login(society.mia)
    client.get(f"/pieces-that-wait/{piece.code}/")
    client.force_login(society.mo)

    assert "being looked at by Mia" in client.get("/pieces-that-wait/").content.decode()
    assert "<strong>Mia</strong> has been looking" in client.get(f"/pieces-that-wait/{piece.code}/").content.decode()

    later = timezone.now() + EXPIRES + timedelta(seconds=1)
    assert standing(piece, now=later) is None
    assert look_at(example=piece, moderator=society.mo, now=later) is None
    assert standing(piece, now=later).moderator == society.mo


def test_nobody_holds_their_own_piece_back_by_looking_at_it(client, society):
    piece = sent(society, society.mo)
    client.force_login(society.mo)
    client.get(f"/pieces-that-wait/{piece.code}/")

    assert standing(piece, now=timezone.now()) is None
