"""The back office explains how a form of numbers is written, and shows how it reads a number before it is saved."""

from html import unescape

import pytest
from django.urls import reverse

from catalogue.accounts.models import Member
from catalogue.reference.demo import make_sign_ins
from catalogue.reference.models import Correction, NumberForm
from tests.forms import fields_of, refused, send
from tests.reading import text, words

pytestmark = pytest.mark.django_db
EXAMPLES = {"(99)-(999)-(99)": "27-114-06", r"TRI\AL 5\9 / No. (99)": "TRIAL 59 / No. 12"}
ADD = "/admin/catalogue/numberform/add/"


@pytest.fixture
def author(client, demo):
    make_sign_ins()
    client.force_login(Member.objects.get(username="Plover"))
    return client


def address(code: str) -> str:
    return reverse("admin:catalogue_numberform_change", args=[NumberForm.objects.get(code=code).pk])


def tried(client, where: str, **typed) -> str:
    """What the page says when a number is tried."""
    response = client.post(where, fields_of(client, where) | typed | {"_try": "yes"})
    assert response.status_code == 200
    for name, value in typed.items():
        assert response.context["adminform"].form[name].value() == value
    return words(unescape(response.content.decode()))


def test_the_pattern_is_explained_with_examples_that_read_as_they_say(author):
    said = words(unescape(text(author, ADD)))

    assert "9 is one figure" in said
    for pattern, number in EXAMPLES.items():
        assert f"{pattern} reads {number}" in said
        shown = tried(author, ADD, pattern=pattern, tried_number=number)
        assert f"“{number}” is read as {number}." in shown, pattern


def test_a_number_is_read_by_the_form_as_typed_and_nothing_is_saved(author):
    before = NumberForm.objects.get(code="contract_t")
    said = tried(author, address("contract_t"), pattern="(T)/(99)/(9{4-5})", tried_number="T/74/2081", why="")

    assert "“T/74/2081” is read as T/74/2081." in said
    assert "Group 2 is 74: year of the contract" in said
    assert "The year is 1974." in said
    assert "nothing is saved yet" in said
    assert "What you typed stands below." in said
    assert NumberForm.objects.get(code="contract_t").pattern == before.pattern
    assert not Correction.objects.exists()


@pytest.mark.parametrize(
    ("number", "says"),
    [
        ("27114129", "It breaks the rule “group 4 = (sum of all figures of groups 1 to 3) mod 10”."),
        ("27114128", "It keeps the rule"),
        ("2711412B", "a person has to confirm it"),
        ("271141281", "Nearly one: it has 9 figures, and the form 8."),
        ("BLOUSE", "“BLOUSE” is not read as a number of this form."),
    ],
)
def test_what_is_wrong_with_a_number_is_said(author, number, says):
    assert says in tried(author, address("bar"), tried_number=number)


def test_a_try_of_a_new_form_asks_for_no_more_than_it_needs(author):
    said = tried(author, ADD, pattern="(AA) (99)", tried_number="XY 12")

    assert "“XY 12” is read as XY 12." in said
    assert "This field is required" not in said


def test_a_try_with_a_faulty_pattern_or_without_a_number_says_what_is_wrong(author):
    assert "a bracket is not closed" in tried(author, ADD, pattern="(99", tried_number="12")
    assert "Write a number to try." in tried(author, ADD, pattern="(99)", tried_number="")


def test_a_check_rule_that_says_nothing_is_refused_with_what_would_be_right(author):
    where = address("bar")
    said = refused(author, where, fields_of(author, where) | {"check_rule": "it adds up"})

    assert "“it adds up” cannot be worked out" in said
    assert "group 1 lies between 1 and 40" in said
    send(author, where, fields_of(author, where) | {"check_rule": "group 4 is not 9", "tried_number": "x"})
    assert NumberForm.objects.get(code="bar").check_rule == "group 4 is not 9"
    assert [line[0] for line in Correction.objects.get().lines] == ["Check rule"]
