"""Whoever decides on a proposal sees which accepted pieces the engine would name otherwise."""

import re

from catalogue.accounts.models import Member
from catalogue.reference.models import IssueVersion
from catalogue.reference.snapshots import forget_everything
from catalogue.review.proposals import weighing
from catalogue.review.proposals.actions import begin_change, save_draft, send_proposal
from catalogue.review.proposals.standing import rows_of_version
from tests.reading import text

TOLD = re.compile(r'<li><a href="/examples/(\w+)/">\1</a>: ([^<]*), now ([^<]*)</li>')


def proposed(rows) -> int:
    """The number of a proposal that BLO-86 has other rows."""
    plover = Member.objects.get(username="Plover")
    made = begin_change(by=plover, version=IssueVersion.objects.get(code="BLO-86"))
    made = save_draft(
        proposal=made, by=plover, revision=made.revision, wanted=made.base | rows, grounds="So it is.", sources=[]
    )
    return send_proposal(proposal=made, by=plover).pk


def test_pieces_that_would_come_out_otherwise_stand_on_the_page_with_what_they_are_now(
    client, demo_pieces, monkeypatch
):
    other = rows_of_version(IssueVersion.objects.get(code="BLO-71"))
    number = proposed({key: value for key, value in other.items() if key.startswith("feature:") and value})
    client.force_login(Member.objects.get(username="Dunlin"))

    page = text(client, f"/proposals/{number}/")

    told = {code: (after, now) for code, after, now in TOLD.findall(page)}
    assert told["E135"] == ("BLO-71 or BLO-86", "BLO-71")  # the two could not be told apart any more
    assert all(after != now for after, now in told.values())
    assert "looked through" not in page

    monkeypatch.setattr(weighing, "MOST_PIECES", 3)
    forget_everything()
    assert "3 of " in text(client, f"/proposals/{number}/")


def test_a_change_that_moves_no_piece_says_so(client, demo_pieces):
    client.force_login(Member.objects.get(username="Dunlin"))

    page = text(client, f"/proposals/{proposed({'date': '1986/1999'})}/")

    assert re.search(r"None of \d+ accepted pieces would come out otherwise", page)
