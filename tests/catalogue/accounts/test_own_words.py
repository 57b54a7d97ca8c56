"""What the account library says on pages and by mail is said in the society's own words."""

import stat
from importlib.resources import files

import pytest
from django.conf import settings
from django.core import mail
from django.template.loader import get_template

from catalogue import environment
from catalogue.accounts.mail import send
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


@pytest.mark.django_db
@pytest.mark.parametrize("sent", ["by the library", "by the society"])
def test_a_mail_says_that_nobody_wrote_it_so_that_no_absent_person_answers(client, sent):
    """RFC 3834, section 5: Auto-Submitted: auto-generated."""
    member = make_member("Mo", password="ling-and-shingle-2")
    if sent == "by the library":
        client.post("/account/password/reset/", {"email": member.email})
    else:
        assert send("decided", member.email, request=None, address="")

    assert [one.extra_headers["Auto-Submitted"] for one in mail.outbox] == ["auto-generated"]


def test_mail_that_is_kept_as_files_can_be_read_by_the_sites_own_user_alone(tmp_path):
    kept = environment.mail(tmp_path.as_uri())
    connection = mail.get_connection(kept["EMAIL_BACKEND"], file_path=kept["EMAIL_FILE_PATH"])
    mail.EmailMessage("A new password", "a link", to=["mo@example.org"], connection=connection).send()
    (file,) = tmp_path.iterdir()

    assert "a link" in file.read_text(encoding="utf-8")
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
