"""How many versions can be identified is one figure with one wording, on the health of the reference and in the
weighing of a proposal."""

import re

import pytest

from catalogue.reference.snapshots import forget_everything
from catalogue.review.importing.actions import propose_import
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import begin_change, save_draft, send_proposal
from tests.catalogue.review.proposing import cell, decide_both, make_society, sent
from tests.making import make_version
from tests.reading import text, words

SAID = re.compile(r"\d+ of \d+ versions? \(\d+ %\) can be identified(?:, in about [\d.]+ questions)?")


@pytest.fixture
def society(db):
    """Of three versions two cannot be told apart."""
    made = make_society()
    make_version(made.home, "SMK-80", {made.closure: "buttons", made.cuff: "plain"}, name="Smock 80")
    return made


def said_by_health(client) -> str:
    forget_everything()
    return SAID.search(words(text(client, "/health/SMK/")))[0]


def weighed(client, society, proposal) -> list[str]:
    """Then, and now."""
    forget_everything()
    client.force_login(society.mo)
    page = words(text(client, f"/proposals/{proposal.pk}/"))
    return SAID.findall(page.split("What it does to identification")[1])


def test_a_proposal_is_weighed_in_the_figure_that_the_health_gives_before_and_after_it(society, client):
    before = said_by_health(client)
    proposal = sent(society.ada, society.other, {"feature:closure": [cell("zip")]})
    told = weighed(client, society, proposal)
    decide_both(society, proposal)

    assert told == [said_by_health(client), before]
    assert before.startswith("1 of 3 versions (33 %)")
    assert told[0].startswith("3 of 3 versions (100 %)")


def test_a_retirement_by_proposal_or_by_import_says_what_it_does_to_identification(society, client, tmp_path):
    (tmp_path / "versions.csv").write_text(
        "version,type,name,kind,certainty,retired\nSMK-80,SMK,Smock 80,issue,documented,The same as Smock 76.\n",
        encoding="utf-8",
    )
    outcome = propose_import(folder=tmp_path, by=society.ada, because="Counted again.")
    assert len(outcome.written) == 1
    by_import = Proposal.objects.get()
    assert (by_import.kind, by_import.rows) == ("change", {"retired": "The same as Smock 76."})
    version = by_import.version
    by_hand = begin_change(by=society.ada, version=version, retire=True)
    by_hand = save_draft(
        proposal=by_hand, by=society.ada, revision=by_hand.revision, wanted=by_hand.base | by_import.rows,
        grounds="Counted.", sources=[],
    )  # fmt: skip
    send_proposal(proposal=by_hand, by=society.ada)

    told = weighed(client, society, by_import)

    assert told == weighed(client, society, by_hand)
    assert told[0].startswith("2 of 2 versions (100 %)")
    assert told[1].startswith("1 of 3 versions (33 %)")
    decide_both(society, by_import)
    assert said_by_health(client) == told[0]


def test_a_version_that_comes_back_into_force_is_weighed_as_one_more(society, client):
    version = society.other
    decide_both(society, sent(society.ada, version, {"retired": "A misreading."}))
    proposal = sent(society.ada, version, {"retired": ""})
    told = weighed(client, society, proposal)

    assert [one.split(" versions")[0] for one in told] == ["1 of 3", "2 of 2"]
