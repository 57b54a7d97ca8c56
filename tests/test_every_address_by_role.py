"""Every address of the site stands in a table that tries it as visitor, member, other member, author, moderator and
secretary: in one of its slice, or in the one here. What is open to all stands in `tests/demo_pages.py`."""

import pytest
from django.contrib.sessions.models import Session
from django.urls import get_resolver

from catalogue.member_examples.models import ExampleInSet, ExampleSet
from catalogue.member_examples.submitting import urls as submitting
from catalogue.review.deputies import urls as deputies
from tests.catalogue.accounts.test_every_address import TABLE as OF_ACCOUNTS
from tests.catalogue.member_examples.pieces import accepted, draft, make_society
from tests.catalogue.review.test_access import TABLE as OF_THE_QUEUE
from tests.catalogue.review.test_proposal_pages import TABLE as OF_PROPOSALS
from tests.demo_pages import PAGES
from tests.making import make_member
from tests.site_server import ROOT
from tests.test_query_counts import names_of

IN, OK, NO, NOT_THERE, METHOD, BAD, ON = "to the sign-in", 200, 403, 404, 405, 400, 302
WHO = ("visitor", "owner", "member", "author", "moderator", "secretary")
ALL, NOBODY = (OK,) * 6, (NOT_THERE,) * 6
MEMBERS, POSTED, READ = (IN, OK, OK, OK, OK, OK), (METHOD,) * 6, (METHOD,) * 6
OWNER_ALONE = (NOT_THERE, OK) + (NOT_THERE,) * 4
ABSENT = (IN,) + (NOT_THERE,) * 5
OWNERS, OWNERS_ON, OWNERS_BAD = ((IN, one) + (NOT_THERE,) * 4 for one in (OK, ON, BAD))
AUTHORS, AUTHORS_NONE = ((IN, NO, NO, one, one, one) for one in (OK, NOT_THERE))
MODERATORS_NONE = (IN, NO, NO, NO, NOT_THERE, NO)
MEMBERS_BAD = (IN,) + (BAD,) * 5
# Address, what each gets, and what each gets who sends an empty form there. Piece and set {draft} are the owner's,
# which nobody else sees; {piece} is accepted.
TABLE = {
    # Open to all, and no page of HTML
    "details:csv": ("/garment-types/SMK/details/closure/dated.csv", ALL, READ),
    "figures:type": ("/figures/SMK/outline.svg", ALL, ALL),
    "figures:version": ("/figures/SMK-61/front.svg", ALL, ALL),
    "site_pages:robots": ("/robots.txt", ALL, ALL),
    "telling_apart:claim_data": ("/which/claim.json?v=SMK-61", ALL, ALL),
    "walk_through:any_data": ("/which/any-garment.json", ALL, ALL),
    "walk_through:type_data": ("/which/SMK.json", ALL, ALL),
    # Pieces and sets
    "member_examples:example": ("/examples/{draft}/", OWNER_ALONE, READ),
    "member_examples:photograph": ("/examples/photographs/1-320.webp", NOBODY, READ),
    "member_examples:differently": ("/examples/{draft}/differently/", OWNERS, OWNERS),
    "member_examples:altered": ("/examples/{draft}/altered/", OWNERS_ON, OWNERS_ON),
    "member_examples:confirm_alteration": ("/examples/{draft}/altered/1/confirm/", POSTED, ABSENT),
    "member_examples:take_back_alteration": ("/examples/{draft}/altered/1/take-back/", POSTED, ABSENT),
    "member_examples:names": ("/examples/{draft}/names/", OWNERS, OWNERS_BAD),
    "member_examples:ask_for_removal": ("/examples/{draft}/names/ask/", OWNER_ALONE, (NOT_THERE, BAD, *NOBODY[2:])),
    "member_examples:settle_name": (
        "/examples/{draft}/names/requests/1/settle/",
        POSTED,
        (IN, NO, NO, NO, NOT_THERE, NO),
    ),
    "member_examples:blur_name": ("/examples/{draft}/names/photographs/1/", ABSENT, ABSENT),
    "member_examples:new_set": ("/sets/new/", MEMBERS, MEMBERS_BAD),
    "member_examples:set": ("/sets/G1/", OWNER_ALONE, READ),
    "member_examples:change_set": ("/sets/G1/change/", OWNERS, OWNERS_BAD),
    "member_examples:add_to_set": ("/sets/G1/add/", POSTED, OWNERS_BAD),
    "member_examples:take_out_of_set": ("/sets/G1/take-out/", POSTED, ABSENT),
    "member_examples:dissolve_set": ("/sets/G1/dissolve/", POSTED, OWNERS_ON),
    "member_examples:bring_back_set": ("/sets/G1/bring-back/", POSTED, OWNERS_ON),
    # Work on the reference
    "figures:choose_drawing": ("/figures/drawings/closure/?state=zip", AUTHORS, AUTHORS),
    "figures:drawing_board": ("/figures/board/SMK/", AUTHORS, (IN, NO, NO, ON, ON, ON)),
    "feature_records:begin": ("/proposals/feature/", ABSENT, ABSENT),
    "feature_records:new": ("/proposals/new-feature/", AUTHORS, AUTHORS),
    "feature_records:edit": ("/proposals/1/edit/feature/", ABSENT, ABSENT),
    "health:take": ("/health/error-rates/999999/take/", POSTED, (IN, NO, NO, NO, NOT_THERE, NO)),
    "health:undo": ("/health/error-rates/taken/1/undo/", POSTED, (IN, NO, NO, NO, NOT_THERE, NO)),
    "imports:list": ("/proposals/imports/", MEMBERS, READ),
    "imports:together": ("/proposals/imports/1/", ABSENT, ABSENT),
    "marked:add": ("/marked-photographs/add/", AUTHORS_NONE, AUTHORS_NONE),
    "marked:file": ("/marked-photographs/none-320.webp", NOBODY, READ),
    "marked:mark": ("/marked-photographs/1/mark/", AUTHORS_NONE, AUTHORS_NONE),
    "marked:of_feature": ("/marked-photographs/of/closure/", AUTHORS, READ),
    "marked:one": ("/marked-photographs/1/", NOBODY, READ),
    "backing:begin": ("/proposals/rests-on/maker/?code=M9", AUTHORS_NONE, AUTHORS_NONE),
    "backing:edit": ("/proposals/1/edit/rests-on/", AUTHORS_NONE, AUTHORS_NONE),
    "questions:add_view": ("/my/views-on-questions/add/", ABSENT, ABSENT),
    "questions:begin": ("/proposals/open-question/", ABSENT, ABSENT),
    "questions:change_view": ("/my/views-on-questions/1/", ABSENT, ABSENT),
    "questions:moderate_view": ("/views-on-questions/1/moderate/", MODERATORS_NONE, MODERATORS_NONE),
    "questions:edit": ("/proposals/1/edit/open-question/", ABSENT, ABSENT),
    "questions:whose_view": ("/views-on-questions/1/whose/", POSTED, ABSENT),
    "scans:begin": ("/proposals/scan/", ABSENT, ABSENT),
    "scans:blur": ("/scans/1/blur/", ABSENT, ABSENT),
    "scans:edit": ("/proposals/1/edit/scan/", ABSENT, ABSENT),
    "scans:file": ("/scans/none-320.webp", NOBODY, READ),
    "scans:one": ("/scans/1/", NOBODY, READ),
    "scans:take_out": ("/scans/1/take-out/", POSTED, ABSENT),
    "sources:add": ("/proposals/source/", MEMBERS, MEMBERS),
    "sources:added": ("/proposals/sources-added/", MEMBERS, READ),
    "sources:take_back": ("/proposals/sources-added/1/take-back/", ABSENT, ABSENT),
    "unreviewed:list": ("/not-reviewed/", AUTHORS, (IN, NO, NO, NO, OK, NO)),
}


def addresses_of_the_site() -> set[str]:
    return set(names_of(get_resolver()))


def in_tables() -> set[str]:
    found = set(PAGES) | set(OF_ACCOUNTS) | {f"proposals:{name}" for name in OF_PROPOSALS}
    found |= {f"submitting:{pattern.name}" for pattern in submitting.urlpatterns}  # submitting/test_access.py
    found |= {f"deputies:{pattern.name}" for pattern in deputies.urlpatterns}  # test_deputies.py
    both = {"all", "read", "by_mail"}
    return found | {f"notices:{name}" if name in both else f"examples_queue:{name}" for name in OF_THE_QUEUE}


def test_every_address_of_the_site_stands_in_a_table():
    assert addresses_of_the_site() - in_tables() - set(TABLE) == set()


def test_the_table_here_holds_no_address_that_is_gone():
    assert set(TABLE) - addresses_of_the_site() == set()


@pytest.fixture
def society(db):
    return make_society()


@pytest.fixture
def people(society):
    others = make_member("Avi", role="author"), society.mo, make_member("Sia", role="secretary")
    return dict(zip(WHO, (None, society.ada, society.ben, *others), strict=True))


@pytest.fixture
def subjects(society):
    pieces = [draft(society), draft(society)]
    found = ExampleSet.objects.create(code="G1", name="Two drafts", made_by=society.ada)
    for place, piece in enumerate(pieces):
        ExampleInSet.objects.create(example_set=found, example=piece, position=place)
    return {"draft": pieces[0].code, "piece": accepted(society, society.old).code}


@pytest.mark.parametrize("how", ["read", "sent"])
def test_everybody_gets_what_the_table_says(client, people, subjects, how):
    ask = client.get if how == "read" else client.post
    found: dict[str, list] = {name: [] for name in TABLE}
    for person in people.values():
        client.logout()
        if person:
            client.force_login(person)
        for name, (address, *_) in TABLE.items():
            answer = ask(address.format(**subjects))
            to_sign_in = answer.status_code == 302 and answer["Location"].startswith("/account/login/")
            found[name].append(IN if to_sign_in else answer.status_code)

    wanted = {name: list(read if how == "read" else sent) for name, (_, read, sent) in TABLE.items()}
    assert {name: got for name, got in found.items() if got != wanted[name]} == {}


@pytest.mark.once
def test_what_was_typed_is_kept_wherever_a_visitor_is_sent_to_the_sign_in(client, people, subjects):
    """The rule behind every table: who was signed in until a moment ago loses no words at any address."""
    lost, asked = [], 0
    for name, (address, _, sent) in TABLE.items():
        if sent[0] != IN:
            continue
        client.force_login(people["owner"])
        client.get("/my/")
        Session.objects.all().delete()
        answer = client.post(address.format(**subjects), {"text": "Two words"})
        asked += 1
        if answer.status_code != 302 or answer["Location"] != "/account/login/?next=%2Fmy%2Funsent%2F":
            lost.append((name, answer.status_code, answer.get("Location")))

    assert asked > 30
    assert lost == []


def test_no_view_of_ours_sends_a_visitor_to_the_sign_in_in_another_way():
    """Django's own decorator would lose what was typed."""
    using = [
        path for path in (ROOT / "catalogue").rglob("*.py") if "login_required" in path.read_text(encoding="utf-8")
    ]
    assert using == []
