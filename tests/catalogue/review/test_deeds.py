"""A record says what it did: it retired its version, made it stand again, took a change back, or was revoked; and so do
the pages of the codes that were merged, split or withdrawn."""

import pytest

from catalogue.reference.snapshots import forget_everything
from catalogue.review.proposals.actions import begin_change, begin_new_version, save_draft, send_proposal
from tests.catalogue.review.proposing import (
    decide,
    decide_both,
    make_society,
    make_society_to_split,
    merge_sent,
    piece_of,
    revoke,
    sent,
    split_sent,
)
from tests.reading import text, words

SPLIT = ("SMK-76A", "SMK-76B")


@pytest.fixture
def society(db):
    return make_society_to_split()


def read(client, address: str) -> str:
    forget_everything()
    return words(text(client, address))


def heads(client, code: str) -> list[str]:
    """The headings of a history, newest first, with what stands beside the number."""
    page = read(client, f"/issue-versions/{code}/history/")
    return [part.split(" Written by")[0].split(" Brought in")[0] for part in page.split(" Record ")[1:]]


def approved(society, proposal):
    decide_both(society, proposal)
    return proposal


def taken_back(society, proposal):
    for one in (society.mo, society.mia):
        revoke(proposal, one)
    return proposal


def retired(society):
    made = begin_change(by=society.ada, version=society.one, retire=True)
    wanted = made.base | {"retired": "A misreading."}
    made = save_draft(
        proposal=made, by=society.ada, revision=made.revision, wanted=wanted, grounds="A slip.", sources=[]
    )
    return approved(society, send_proposal(proposal=made, by=society.ada))


# ---- records


def test_a_record_that_retires_a_version_says_so_in_the_list_on_its_page_and_beside_another(society, client):
    proposal = retired(society)

    assert "the last retired Retired: held to be no version any more." in heads(client, "SMK-61")[0]
    page = read(client, "/issue-versions/SMK-61/history/2/")
    assert "Record 2 is the last of this version" in page
    assert "What became of it" in page
    assert page.index("Retired: held to be no version any more.") < page.index("Profile as recorded then")
    assert (
        "retired"
        in read(client, "/issue-versions/SMK-61/history/1/?with=2").split("What it did")[1].split("Seal")[0].lower()
    )
    assert "Retired" not in read(client, "/issue-versions/SMK-61/history/1/").split("Otherwise today")[0]

    taken_back(society, proposal)
    newest, before, _ = heads(client, "SMK-61")
    assert f"in force again In force again: its retirement was revoked (proposal {proposal.pk})." in newest
    assert "revoked since" in before
    cited = read(client, "/issue-versions/SMK-61/history/2/")
    assert "Revoked on" in cited
    assert "record 2 (approved, revoked since), as of" in cited


def test_a_record_that_takes_a_change_back_and_the_one_that_was_revoked_say_so_beside_each_other(society, client):
    proposal = sent(society.ben, society.one, {"note": "Of drill."})
    decide(proposal, society.mo)
    revoke(proposal, society.mo)

    newest, before, _ = heads(client, "SMK-61")
    assert newest.startswith("3, ")
    assert "stands takes a change back" in newest
    assert f"It takes back what proposal {proposal.pk} had changed." in newest
    assert "revoked since" in before
    compared = read(client, "/issue-versions/SMK-61/history/2/?with=3").split("What it did")[1]
    assert "It was a slip." in compared.split("It takes back what")[0]


def test_every_record_of_a_split_says_what_it_did_and_so_once_that_is_revoked(society, client):
    proposal = approved(society, split_sent(society))

    assert "the last retired Retired: split into SMK-76A and SMK-76B." in heads(client, "SMK-76")[0]
    for code in SPLIT:
        assert "Made by the split of SMK-76." in heads(client, code)[0]
    taken_back(society, proposal)
    assert "In force again: the split into SMK-76A and SMK-76B was revoked" in heads(client, "SMK-76")[0]
    for code in SPLIT:
        withdrawn, made = heads(client, code)
        assert "withdrawn Withdrawn: the split that made it was revoked, and SMK-76 stands again." in withdrawn
        assert "revoked since" in made


def test_both_records_of_a_merge_say_what_it_did(client, db):
    society = make_society()
    proposal = approved(society, merge_sent(society))

    assert "Retired: merged into SMK-61." in heads(client, "SMK-76")[0]
    assert "takes another up It takes up SMK-76, which was merged into it." in heads(client, "SMK-61")[0]
    taken_back(society, proposal)
    assert "the merge of SMK-76 into SMK-61 was revoked" in heads(client, "SMK-76")[0]
    assert "takes a change back" in heads(client, "SMK-61")[0]


# ---- addresses


def test_the_codes_of_a_revoked_split_say_that_they_are_withdrawn_and_what_stands_again(society, client):
    proposal = approved(society, split_sent(society))
    for code in SPLIT:
        assert "Also recorded as Smock 76 SMK-76" in read(client, f"/issue-versions/{code}/")
    taken_back(society, proposal)

    for code in SPLIT:
        page = text(client, f"/issue-versions/{code}/")
        assert "Withdrawn: the split that made it was revoked, and Smock 76 SMK-76 stands again." in words(page)
        assert "erged into" not in page
        assert f'href="/proposals/{proposal.pk}/"' in page
        assert 'href="/issue-versions/SMK-76/"' in page
    page = text(client, "/issue-versions/SMK-76/")
    assert "Also recorded as" not in page
    assert "For a time it was split into SMK-76A and SMK-76B; that was revoked on" in words(page)
    assert f'href="/proposals/{proposal.pk}/"' in page


def test_both_versions_of_a_revoked_merge_say_that_it_was(client, db):
    society = make_society()
    proposal = approved(society, merge_sent(society))
    assert "Also recorded as Smock 76 SMK-76" in read(client, "/issue-versions/SMK-61/")
    taken_back(society, proposal)

    for code in ("SMK-61", "SMK-76"):
        page = read(client, f"/issue-versions/{code}/")
        assert "Stands again For a time SMK-76 was merged into SMK-61; that was revoked on" in page
        assert "Also recorded as" not in page


def test_a_new_version_whose_approval_was_revoked_is_called_withdrawn(society, client):
    made = begin_new_version(by=society.ada, garment_type=society.home, code="SMK-90", name="Smock 90")
    made = save_draft(
        proposal=made, by=society.ada, revision=made.revision, wanted={**made.rows, "date": "1990"}, grounds="Seen.",
        sources=[],
    )  # fmt: skip
    proposal = approved(society, send_proposal(proposal=made, by=society.ada))
    taken_back(society, proposal)

    assert "Withdrawn: the approval of this version was revoked. It was a slip." in read(
        client, "/issue-versions/SMK-90/"
    )


# ---- pieces


def test_pieces_of_a_version_that_was_split_are_led_on_to_those_of_both(society, client):
    tabbed, plain = (piece_of(society, society.other, cuff=seen).code for seen in ("tab", "plain"))
    proposal = approved(society, split_sent(society))

    page = text(client, "/examples/?version=SMK-76&looked=one")
    said = words(page)
    assert (
        "Smock 76 SMK-76 is no version any more. In its place stand Smock 76 tabbed SMK-76A and Smock 76 plain" in said
    )
    assert "pieces of them are shown" in said
    assert f"/examples/{tabbed}/" in page
    assert f"/examples/{plain}/" in page
    assert "Nothing is shown until this is put right" not in page

    taken_back(society, proposal)
    forget_everything()
    page = text(client, "/examples/?version=SMK-76B")
    assert "SMK-76B is no version any more. In its place stands Smock 76 SMK-76: pieces of it are shown." in words(page)
    assert f"/examples/{tabbed}/" in page


def test_a_version_in_whose_place_nothing_stands_has_no_pieces_and_says_so(society, client):
    piece = piece_of(society, society.other, cuff="tab").code
    retired(society)
    forget_everything()

    page = text(client, "/examples/?version=SMK-61")
    assert "Nothing stands in its place, and no piece is kept as it." in words(page)
    assert f"/examples/{piece}/" not in page
    assert f"/examples/{piece}/" in text(client, "/examples/?version=SMK-61&version=SMK-76")
