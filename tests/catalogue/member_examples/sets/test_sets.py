"""Sets made by members: whose they are, whom they show what, and what becomes of them."""

from uuid import uuid4

import pytest

from catalogue.member_examples.models import Example, ExampleSet
from catalogue.member_examples.sets import own_sets
from catalogue.reference.models import ReferenceState
from catalogue.review.models import Notice
from tests.catalogue.member_examples.pieces import accepted, draft, in_state, make_society, sent
from tests.making import make_member, make_version
from tests.reading import text, words

pytestmark = pytest.mark.django_db
SAID = {"name": "Smock and trousers", "together": "unknown", "fasten": "unknown", "grounds": ""}


@pytest.fixture
def society(db):
    return make_society()


def make(client, member, *pieces, **changes):
    client.force_login(member)
    given = SAID | {"codes": " ".join(piece.code for piece in pieces), "token": str(uuid4())}
    answer = client.post("/sets/new/", given | changes)
    assert answer.status_code == 302, answer.content.decode()
    return ExampleSet.objects.get(code=answer["Location"].split("/")[2])


def codes_in(found) -> list[str]:
    return [place.example.code for place in found.places.all()]


def test_a_member_makes_a_set_of_own_and_others_accepted_pieces_and_two_taps_make_one(client, society):
    own, theirs = accepted(society, society.old), accepted(society, society.new, society.ben)
    token = str(uuid4())
    for _ in range(2):
        found = make(client, society.ada, own, theirs, token=token, together="yes", grounds="bought in one bag")

    assert ExampleSet.objects.count() == 1
    assert (found.code, found.made_by, codes_in(found)) == ("G1", society.ada, [own.code, theirs.code])
    client.logout()
    page = text(client, "/sets/G1/")
    assert "Originally together, as recorded by Ada: yes. bought in one bag" in words(page)
    assert own.code in page
    assert theirs.code in page
    assert "Change this set" not in page
    assert "/sets/G1/" in text(client, f"/examples/{theirs.code}/")


def test_ticked_pieces_and_written_codes_are_one_list(client, society):
    one, two, other = accepted(society, society.old), draft(society), accepted(society, society.new, society.ben)
    found = make(client, society.ada, one, other, own=[two.code, one.code], codes=f"{other.code.lower()}, {one.code}")

    assert codes_in(found) == [two.code, one.code, other.code]


@pytest.mark.parametrize("state", ["draft", "submitted", "returned", "declined", "withdrawn", "nothing"])
def test_another_members_piece_that_is_not_accepted_is_as_if_it_were_not_there(client, society, state):
    theirs = in_state(society, state, society.ben).code if state != "nothing" else "E999"
    own = accepted(society, society.old)
    for person in (society.ada, society.mo):
        client.force_login(person)
        answer = client.post("/sets/new/", SAID | {"codes": f"{own.code} {theirs}", "token": str(uuid4())})
        assert answer.status_code == 400
        assert f"No piece that you can add has the code {theirs}." in answer.content.decode()
        assert "Smock and trousers" in answer.content.decode()
    assert not ExampleSet.objects.exists()


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"name": ""}, "Give it a name."),
        ({"name": "x" * 201}, "At most 200 signs fit here"),
        ({"together": "yes"}, "Say on what grounds you say yes or no"),
        ({"together": "perhaps"}, "Choose one of these."),
        ({"codes": ""}, "A set has two pieces at least"),
        ({"codes": "E001"}, "A set has two pieces at least"),
        ({"codes": " ".join(f"E{n:03d}" for n in range(60))}, "No piece that you can add has the code"),
        ({"codes": "\x00E001"}, ""),
    ],
)
def test_what_is_missing_is_said_and_what_was_typed_stays(client, society, changes, words):
    accepted(society, society.old), accepted(society, society.new)
    client.force_login(society.ada)
    answer = client.post("/sets/new/", SAID | {"codes": "E001 E002", "grounds": "", "token": "no token"} | changes)

    assert answer.status_code == 400
    assert words in answer.content.decode()
    assert not ExampleSet.objects.exists()


def test_a_draft_in_a_set_is_seen_by_its_owner_alone_and_counted_for_nobody(client, society):
    own, theirs, hidden = accepted(society, society.old), accepted(society, society.new, society.ben), draft(society)
    make(client, society.ada, own, theirs, hidden)
    assert hidden.code in text(client, "/sets/G1/")
    for person in (None, society.ben, society.mo, make_member("Sia", role="secretary")):
        client.logout()
        if person:
            client.force_login(person)
        page = " ".join(text(client, "/sets/G1/").split())
        assert hidden.code not in page
        assert "3 pieces" not in text(client, "/sets/")
        assert "2 pieces" in text(client, "/sets/")


def test_a_set_of_which_others_may_read_one_piece_is_not_there_for_them_nor_named_on_that_pieces_page(client, society):
    shown, hidden = accepted(society, society.old), draft(society)
    make(client, society.ada, shown, hidden, name="Secret name")
    assert "Secret name" in text(client, "/sets/G1/")
    assert client.get("/sets/G1/change/").status_code == 200
    for person in (None, society.ben, society.mo):
        client.logout()
        if person:
            client.force_login(person)
        assert client.get("/sets/G1/").status_code == 404
        for address in ("/sets/", f"/examples/{shown.code}/"):
            assert "Secret name" not in text(client, address)


def test_the_owner_of_a_piece_that_another_put_into_a_set_is_told_and_takes_it_out_for_good(client, society):
    own, theirs = accepted(society, society.old), accepted(society, society.new, society.ben)
    make(client, society.ada, own, theirs)
    notice = Notice.objects.get(set_place__isnull=False)
    assert notice.member == society.ben
    client.force_login(society.ben)
    told = text(client, "/my/notices/")
    assert "Put into the set “Smock and trousers”" in told
    assert "Take it out" in text(client, f"/examples/{theirs.code}/")

    assert client.post("/sets/G1/take-out/", {"piece": theirs.code}).status_code == 302
    found = ExampleSet.objects.get()
    assert codes_in(found) == [own.code]
    assert "Put into the set" not in text(client, "/my/notices/")

    client.force_login(society.ada)
    answer = client.post("/sets/G1/add/", {"codes": theirs.code})
    assert answer.status_code == 400
    assert "took it out of this set" in answer.content.decode()
    assert codes_in(found) == [own.code]


def test_who_made_it_takes_pieces_out_and_puts_them_back(client, society):
    own, theirs = accepted(society, society.old), accepted(society, society.new, society.ben)
    found = make(client, society.ada, own, theirs)
    for _ in range(2):
        client.post("/sets/G1/take-out/", {"piece": theirs.code})
    assert codes_in(found) == [own.code]
    assert client.get("/sets/G1/").status_code == 200
    for _ in range(2):
        assert client.post("/sets/G1/add/", {"codes": theirs.code}).status_code == 302

    assert codes_in(found) == [own.code, theirs.code]


def test_taking_out_what_is_not_in_the_set_tells_nothing_of_a_draft_and_claims_nothing(client, society):
    make(client, society.ada, accepted(society, society.old), accepted(society, society.new))
    hidden, other = draft(society, society.ben), accepted(society, society.new, society.ben)

    asked = [client.post("/sets/G1/take-out/", {"piece": code}).status_code for code in (hidden.code, "E999")]
    assert asked == [404, 404]
    assert client.post("/sets/G1/take-out/", {"piece": other.code}).status_code == 302
    assert "is taken out" not in text(client, "/sets/G1/change/")


def test_a_faulty_code_among_several_adds_none(client, society):
    found = make(client, society.ada, accepted(society, society.old), accepted(society, society.new))
    third = accepted(society, society.new)
    answer = client.post("/sets/G1/add/", {"codes": f"{third.code} E999"})

    assert answer.status_code == 400
    assert f"{third.code} E999" in answer.content.decode()
    assert third.code not in codes_in(found)
    assert client.post("/sets/G1/take-out/", {"piece": "E999"}).status_code == 404


def test_of_two_changes_at_once_the_second_overwrites_nothing_and_keeps_what_was_typed(client, society):
    make(client, society.ada, accepted(society, society.old), accepted(society, society.new))
    first = client.post("/sets/G1/change/", SAID | {"name": "Renamed", "revision": "0"})
    second = client.post("/sets/G1/change/", SAID | {"name": "Otherwise", "revision": "0"})

    assert (first.status_code, second.status_code) == (302, 400)
    assert "changed elsewhere since you opened it" in second.content.decode()
    assert "Otherwise" in second.content.decode()
    assert ExampleSet.objects.get().name == "Renamed"


def test_a_dissolved_set_is_gone_for_everybody_until_it_is_brought_back(client, society):
    one = accepted(society, society.old)
    make(client, society.ada, one, accepted(society, society.new))
    for _ in range(2):
        assert client.post("/sets/G1/dissolve/").status_code == 302
    for address in ("/sets/", f"/examples/{one.code}/"):
        client.logout()
        assert "Smock and trousers" not in text(client, address)
    assert client.get("/sets/G1/").status_code == 404
    client.force_login(society.ada)
    assert "Dissolved, seen by you only" in text(client, "/sets/")
    assert client.post("/sets/G1/add/", {"codes": one.code}).status_code == 400
    client.post("/sets/G1/bring-back/")
    client.logout()
    assert "Smock and trousers" in text(client, "/sets/G1/")


def test_only_who_made_it_and_moderators_change_a_set(client, society):
    one = accepted(society, society.old)
    make(client, society.ada, one, accepted(society, society.new))
    author = make_member("Avi", role="author")
    ways = {"change": SAID | {"name": "Theirs", "revision": "0"}, "add": {"codes": one.code}, "dissolve": {}}
    ways |= {"take-out": {"piece": one.code}, "bring-back": {}}
    for way, given in ways.items():
        client.logout()
        assert client.post(f"/sets/G1/{way}/", given)["Location"].startswith("/account/login/")
        for person in (society.ben, author):
            client.force_login(person)
            answer = client.post(f"/sets/G1/{way}/", given)
            assert answer.status_code == 403, way
            assert "was made by Ada. You may read this set; only who made it" in words(answer.content.decode())
    found = ExampleSet.objects.get()
    assert (found.name, found.places.count()) == ("Smock and trousers", 2)

    client.force_login(society.mo)
    assert client.post("/sets/G1/dissolve/").status_code == 302
    client.force_login(society.ada)
    client.post("/sets/G1/bring-back/")
    assert not ExampleSet.objects.exists()
    client.force_login(society.mia)
    client.post("/sets/G1/bring-back/")
    assert ExampleSet.objects.exists()


def test_a_piece_in_two_sets_stands_once_in_each(client, society):
    one, two = accepted(society, society.old), accepted(society, society.new)
    make(client, society.ada, one, two)
    make(client, society.ada, two, one, name="Another")

    for code in ("G1", "G2"):
        page = client.get(f"/sets/{code}/")
        assert [row["code"] for row in page.context["pieces"]].count(one.code) == 1
        assert len(page.context["pairs"]) == 1


def test_the_page_of_a_piece_offers_the_members_sets(client, society):
    make(client, society.ada, accepted(society, society.old), accepted(society, society.new))
    theirs = accepted(society, society.new, society.ben)
    assert f"/sets/new/?piece={theirs.code}" in client.get(f"/examples/{theirs.code}/").content.decode()
    page = client.get(f"/sets/new/?piece={theirs.code}").content.decode()
    assert "Put it in" in page
    assert f'value="{theirs.code}"' in page
    assert client.get(f"/sets/new/?piece={sent(society, society.ben).code}").status_code == 404


def test_what_the_seller_called_a_piece_stands_beside_what_it_is(client, society):
    one, two = accepted(society, society.old), accepted(society, society.new)
    Example.objects.filter(pk=one.pk).update(sold_as="rare Ling smock", sold_as_version=society.new)
    make(client, society.ada, one, two)

    assert "sold as “rare Ling smock”, which the society does not agree with" in text(client, "/sets/G1/")


def test_a_seller_who_named_what_the_version_was_before_a_split_is_not_disagreed_with(client, society):
    one, two = accepted(society, society.old), accepted(society, society.old)
    before = make_version(society.smock, "SMK-60", {}, name="Smock 60")
    for became in (society.old, society.new):
        before.successors.create(successor=became)
    Example.objects.filter(pk=one.pk).update(sold_as="early Ling smock", sold_as_version=before)
    make(client, society.ada, one, two)
    assert "sold as “early Ling smock”, which the society does not agree with" in text(client, "/sets/G1/")

    before.retired_why = "Two contracts."
    before.save()
    ReferenceState.mark_changed()

    for address in ("/sets/G1/", "/sets/G1/change/"):
        page = text(client, address)
        assert "sold as “early Ling smock”" in page
        assert "does not agree" not in page


def test_a_member_who_leaves_takes_sets_along_that_nobody_else_sees(client, society):
    from catalogue.member_examples.sets.own_sets import exported, forget

    kept = make(client, society.ada, accepted(society, society.old), accepted(society, society.new))
    make(client, society.ada, draft(society), draft(society))
    assert [row["name"] for row in exported(society.ada)] == ["Smock and trousers"] * 2
    forget(society.ada)

    assert list(ExampleSet.with_dissolved.all()) == [kept]


def test_the_number_of_a_set_that_went_with_its_maker_never_comes_back(client, society):
    make(client, society.ada, draft(society), draft(society))
    gone = ExampleSet.objects.get()
    own_sets.forget(society.ada)
    make(client, society.ben, draft(society, society.ben), draft(society, society.ben))

    assert (gone.code, ExampleSet.objects.get().code) == ("G1", "G2")
