"""A list that is asked for a page it does not have says so, instead of showing another page as if it were that one."""

import pytest

from tests.making import make_member, make_type, make_version

pytestmark = pytest.mark.django_db
PUBLIC = ("/garment-types/", "/issue-versions/", "/makers/", "/sources/", "/open-questions/", "/examples/")
OF_MODERATORS = ("/my/notices/", "/my-pieces/", "/pieces-that-wait/", "/proposals/", "/society/requests/")
OF_THE_SECRETARY = ("/society/",)


@pytest.mark.parametrize("page", ["9", "0", "-1", "last"])
def test_every_list_says_that_it_has_no_such_page(client, demo, page):
    moderator, secretary = make_member("Mo", role="moderator"), make_member("Sue", is_superuser=True)
    for person, addresses in ((moderator, (*PUBLIC, *OF_MODERATORS)), (secretary, OF_THE_SECRETARY)):
        client.force_login(person)
        for address in addresses:
            said = client.get(address, {"page": page}).content.decode()
            assert f"There is no page “{page}” of this list." in said, address
            assert "There is no page" not in client.get(address, {"page": "1"}).content.decode(), address


def test_an_empty_list_says_so_too(client, db):
    make_version(make_type("X"), "X-1")
    client.force_login(make_member("Mo", role="moderator"))

    assert "There is no page “2”" in client.get("/proposals/?page=2").content.decode()
