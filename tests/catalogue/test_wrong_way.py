"""What only takes a form has no page, and says so with the way to the page that it belongs to; what is only read says
that nothing was kept."""

import pytest
from django.urls import resolve

from catalogue.site_pages.wrong_way import page_above
from tests.catalogue.review.proposing import make_society, sent
from tests.reading import words


@pytest.mark.parametrize(
    ("address", "back"),
    [
        ("/proposals/7/revoke/", "/proposals/7/"),
        ("/proposals/7/words/", "/proposals/7/"),
        ("/my/notices/by-mail/", "/my/notices/"),
        ("/my/pieces/3/remove/", "/my/pieces/3/"),
        ("/sets/G1/dissolve/", "/sets/G1/"),
        ("/examples/E1/names/requests/4/settle/", "/examples/E1/names/"),
        ("/health/error-rates/1/take/", "/health/"),
        ("/health/error-rates/taken/1/undo/", "/health/"),
        ("/scans/1/take-out/", "/scans/1/"),
        ("/pieces-that-wait/E1/keep/", "/pieces-that-wait/E1/"),
    ],
)
def test_the_way_back_is_the_nearest_page_above(address, back):
    assert resolve(address)
    assert page_above(address) == back


def test_an_address_that_only_takes_a_form_says_so_to_visitors_and_members(client, db):
    society = make_society()
    number = sent(society.ada, society.one, {"date": "1962"}).pk
    for person in (None, society.mo):
        if person:
            client.force_login(person)
        for what in ("revoke", "send", "withdraw", "settle", "words"):
            answer = client.get(f"/proposals/{number}/{what}/")
            page = answer.content.decode()
            assert answer.status_code == 405
            assert answer["Allow"] == "POST"
            assert "It takes only what a form of this site sends. Nothing was changed." in words(page)
            assert f'href="/proposals/{number}/"' in page
            assert "Strandfell" in page or "<nav" in page
    assert client.get(f"/proposals/{number}/").status_code == 200


def test_a_page_that_is_only_read_says_that_nothing_was_kept(client, db):
    make_society()
    answer = client.post("/issue-versions/SMK-61/history/")

    assert answer.status_code == 405
    assert "This page is only read. Nothing of what was sent was kept" in words(answer.content.decode())
    assert 'href="/issue-versions/SMK-61/history/"' in answer.content.decode()
