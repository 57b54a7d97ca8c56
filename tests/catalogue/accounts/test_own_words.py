"""What the account library says on pages and by mail is said in the society's own words."""

from importlib.resources import files

import pytest
from django.conf import settings
from django.core import mail
from django.template.loader import get_template

from tests.making import make_member
from tests.reading import text

# Ways in that this site does not offer, so nothing of them is ever said.
NOT_OFFERED = ("login_code", "phone", "password_reset_code", "email_confirmation_signup", "base_")


def said_by_the_library() -> list[str]:
    folder = files("allauth") / "templates"
    return [
        f"{part}/{one.name}"
        for part in ("account/messages", "account/email", "mfa/messages", "mfa/email")
        for one in (folder / part).iterdir()
        if one.name.endswith(".txt") and not one.name.startswith(NOT_OFFERED)
    ]


@pytest.mark.parametrize("name", sorted(said_by_the_library()))
def test_whatever_the_library_says_the_society_has_words_for(name):
    assert get_template(name).origin.name.startswith(str(settings.BASE_DIR / "templates"))


@pytest.mark.django_db
def test_a_name_stands_in_a_message_as_it_is_written(client):
    member = make_member("O'Neill", password="ling-and-shingle-2")
    client.post("/account/login/", {"login": member.email, "password": "ling-and-shingle-2"})

    assert "You are signed in as O&#x27;Neill." in client.get("/my/").content.decode()


@pytest.mark.django_db
def test_a_new_password_is_told_by_mail_in_plain_words(client):
    member = make_member("Ada", password="ling-and-shingle-2")
    client.force_login(member)
    old, new = "ling-and-shingle-2", "bog-cotton-and-bracken-9"
    client.post("/account/password/change/", {"oldpassword": old, "password1": new, "password2": new})

    assert "The new password is set." in text(client, "/my/")
    assert mail.outbox[-1].subject.endswith(": A new password")
    assert "The password of your account was changed." in mail.outbox[-1].body
    assert "It was not you?" in mail.outbox[-1].body
