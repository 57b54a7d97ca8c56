"""Who may open what: every address of the slice, for everybody, in every state of a piece."""

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.urls import get_resolver

from catalogue.member_examples import urls
from catalogue.member_examples.filters import visible_to
from catalogue.member_examples.gates import is_member, is_moderator
from catalogue.member_examples.models import Example, ExampleInSet, ExampleSet, Photograph
from catalogue.member_examples.rules import may_be_read
from catalogue.member_examples.words import ExampleState
from tests.catalogue.member_examples.pieces import accepted, in_state, make_society
from tests.making import make_member
from tests.reading import text

pytestmark = pytest.mark.django_db
STATES = [state.value for state in ExampleState]
PEOPLE = ["visitor", "owner", "other", "author", "moderator", "secretary", "gone"]
# Who reads a piece in each state. "gone" was a member once and the account is closed.
READERS = {
    "draft": {"owner"},
    "submitted": {"owner", "moderator"},
    "returned": {"owner", "moderator"},
    "declined": {"owner", "moderator"},
    "withdrawn": {"owner", "moderator"},
    "accepted": {"visitor", "owner", "other", "author", "moderator", "secretary", "gone"},
}
MEMBERS = {"owner", "other", "author", "moderator", "secretary"}


@pytest.fixture
def society(db):
    return make_society()


@pytest.fixture
def people(society):
    gone = make_member("Gil", is_active=False)
    return {
        "visitor": None,
        "owner": society.ada,
        "other": society.ben,
        "author": make_member("Avi", role="author"),
        "moderator": society.mia,
        "secretary": make_member("Sia", role="secretary"),
        "gone": gone,
    }


def sign_in(client, person) -> None:
    client.logout()
    if person is not None:
        client.force_login(person)


def statuses(client, people, address: str) -> dict[str, int]:
    found = {}
    for name, person in people.items():
        sign_in(client, person)
        found[name] = client.get(address).status_code
    return found


def picture_of(example: Example, **fields) -> Photograph:
    name = default_storage.save(f"photographs/{example.code}-320.webp", ContentFile(b"RIFF of a test"))
    files = [{"name": name, "longer": 320, "width": 320, "height": 240}]
    digest = f"{example.pk:064x}"
    return Photograph.objects.create(example=example, files=files, width=320, height=240, sha256=digest, **fields)


def test_the_table_below_names_every_address_of_the_slice():
    tested = {"gallery", "agreement", "photograph", "differently", "example", "sets", "set"}
    tested |= {
        f"{way}_set" for way in ("new", "change", "add_to", "take_out_of", "dissolve", "bring_back")
    }  # sets/test_sets.py
    tested |= {"names", "ask_for_removal", "settle_name", "blur_name"}  # test_removing_names.py
    tested |= {"altered", "confirm_alteration", "take_back_alteration"}  # test_added_alterations.py

    assert {pattern.name for pattern in urls.urlpatterns} == tested
    assert "member_examples" in get_resolver().namespace_dict


@pytest.mark.parametrize("state", STATES)
def test_a_piece_and_its_photographs_open_for_those_who_may_read_it_and_for_nobody_else(
    client, society, people, state, settings, tmp_path
):
    settings.MEDIA_ROOT = tmp_path
    example = in_state(society, state)
    photograph = picture_of(example)
    expected = {name: 200 if name in READERS[state] else 404 for name in PEOPLE}

    assert statuses(client, people, f"/examples/{example.code}/") == expected
    assert statuses(client, people, f"/examples/photographs/{photograph.pk}-320.webp") == expected
    assert statuses(client, people, f"/examples/photographs/{photograph.pk}-800.webp") == dict.fromkeys(PEOPLE, 404)


def test_a_hidden_photograph_opens_for_its_owner_and_moderators_only(client, society, people, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    photograph = picture_of(accepted(society, society.old), hidden=True)

    found = statuses(client, people, f"/examples/photographs/{photograph.pk}-320.webp")
    assert {name for name, status in found.items() if status == 200} == {"owner", "moderator"}
    sign_in(client, None)
    assert f"photographs/{photograph.pk}-" not in text(client, f"/examples/{photograph.example.code}/")


@pytest.mark.parametrize("state", STATES)
def test_members_say_what_they_see_of_what_they_may_read(client, society, people, state):
    example = in_state(society, state)
    signed_in = {name: person for name, person in people.items() if name in MEMBERS}

    found = statuses(client, signed_in, f"/examples/{example.code}/differently/")
    assert found == {name: 200 if name in READERS[state] else 404 for name in signed_in}


def test_a_visitor_is_sent_to_sign_in_before_saying_anything(client, society):
    example = accepted(society, society.old)
    response = client.post(f"/examples/{example.code}/differently/", {"version": "SMK-76", "grounds": "x"})

    assert response.status_code == 302
    assert response["Location"].startswith("/account/login/")
    assert example.attributions.count() == 1


@pytest.mark.parametrize("address", ["/examples/", "/examples/agreement/", "/sets/"])
def test_the_lists_are_open_to_all(client, society, people, address):
    accepted(society, society.old)

    assert statuses(client, people, address) == dict.fromkeys(PEOPLE, 200)


def test_lists_and_searches_never_show_what_a_person_may_not_read(client, society, people):
    label = "27-114-06"
    pieces = {state: in_state(society, state) for state in STATES}
    for name, person in people.items():
        sign_in(client, person)
        readable = {piece.code for state, piece in pieces.items() if name in READERS[state]}
        for address in ("/examples/", f"/examples/?q={label}", "/examples/?type=SMK", f"/search/?q={label}"):
            page = text(client, address)
            shown = {piece.code for piece in pieces.values() if f"/examples/{piece.code}/" in page}
            # a piece that was not accepted has no version, but its type is counted for those who may read it
            assert shown == readable, (name, address)


def test_the_gate_of_one_piece_and_the_filter_of_many_say_the_same(society, people):
    pieces = [in_state(society, state, owner) for state in STATES for owner in (society.ada, society.ben)]
    for person in filter(None, people.values()):
        member, moderator = is_member(person), is_moderator(person)
        by_rule = {
            piece.code
            for piece in pieces
            if may_be_read(state=piece.state, is_owner=member and piece.owner == person, is_moderator=moderator)
        }
        by_filter = set(visible_to(person if member else None, moderator=moderator).values_list("code", flat=True))
        assert by_filter == by_rule, person


def test_a_set_opens_once_two_of_its_pieces_may_be_read(client, society, people):
    kept, waiting = accepted(society, society.old), in_state(society, "submitted")
    found = ExampleSet.objects.create(code="G1", name="Smock and another", made_by=society.ada)
    for place, piece in enumerate((kept, waiting)):
        ExampleInSet.objects.create(example_set=found, example=piece, position=place)

    expected = {name: 200 if name in ("owner", "moderator") else 404 for name in PEOPLE}
    assert statuses(client, people, "/sets/G1/") == expected
    for name, person in people.items():
        sign_in(client, person)
        assert ("/sets/G1/" in text(client, "/sets/")) == (expected[name] == 200), name


def test_an_unmasked_name_is_shown_to_its_owner_and_moderators_only(client, society, people):
    example = accepted(society, society.old)
    Example.objects.filter(pk=example.pk).update(name_on_label="to_mask")
    example.labels.update(text="SMOCK\nA. WARDEN")

    for name, person in people.items():
        sign_in(client, person)
        page = text(client, f"/examples/{example.code}/")
        assert ("A. WARDEN" in page) == (name in ("owner", "moderator")), name
        assert "A. WARDEN" not in text(client, "/search/?q=WARDEN"), name


def test_what_a_member_sees_and_every_photograph_is_kept_by_no_shared_cache(
    client, society, people, settings, tmp_path
):
    settings.MEDIA_ROOT = tmp_path
    photograph = picture_of(accepted(society, society.old))
    address = f"/examples/photographs/{photograph.pk}-320.webp"
    # The address of a picture stays when a part of it is blurred: whoever kept it must ask again.
    assert client.get(address)["Cache-Control"] == "private, no-cache"

    sign_in(client, people["owner"])
    assert "private" in client.get(f"/examples/{photograph.example.code}/")["Cache-Control"]
    Example.objects.filter(pk=photograph.example.pk).update(state="withdrawn", held_as=None)
    assert "private" in client.get(address)["Cache-Control"]


def test_a_photograph_whose_file_is_lost_is_not_there_and_no_fault(client, society, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    photograph = picture_of(accepted(society, society.old))
    default_storage.delete(photograph.files[0]["name"])

    assert client.get(f"/examples/photographs/{photograph.pk}-320.webp").status_code == 404


def test_reading_pages_take_no_other_method(client, society):
    example = accepted(society, society.old)
    for address in ("/examples/", f"/examples/{example.code}/", "/sets/", "/examples/agreement/"):
        assert client.post(address).status_code == 405
