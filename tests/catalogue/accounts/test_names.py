"""Display names: what is taken, what is refused, and what looks alike."""

import pytest

from catalogue.accounts.names import look_alike_key, reason_not_to_take, tidy
from catalogue.accounts.sign_in_adapter import SignInAdapter
from tests.making import make_member

RIGHT_TO_LEFT = "\u202e"


@pytest.mark.parametrize(
    "name", ["Plover", "Jack Snipe", "O'Crake", "Åse", "Κίχλη", "Кулик", "ぬえ 7", "a.b-c_d", "x" * 40]
)
def test_a_plain_name_is_taken(name):
    assert reason_not_to_take(name) is None


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("x" * 300, "at most 40 signs; this one has 300"),
        (f"Plover{RIGHT_TO_LEFT}", "an invisible one (right-to-left override)"),
        ("Plo\u200bver", "an invisible one (zero width space)"),
        ("Plo\u2066ver", "left-to-right isolate"),
        ("<script>", "not “<”"),
        ("ada@example.org", "not “@”"),
        ("a/b", "not “/”"),
        ("Plover\x00", "not an invisible one"),
        ("😀 bird", "not “😀”"),
        ("", "at least two"),
        ("x", "at least two"),
        ("- -", "begins with a letter or a figure"),
        ("Plоver", "keeps to one alphabet; this one mixes Cyrillic and Latin"),
        ("Secretary", "an office of the society"),
        ("M.o.d.e.r.a.t.o.r", "an office of the society"),
        ("Former Member 3", "somebody who has left"),
        ("FORMER-MEMBER", "somebody who has left"),
    ],
)
def test_a_name_that_cannot_be_is_refused_in_words(name, said):
    assert said in reason_not_to_take(name)


@pytest.mark.parametrize(
    "other",
    ["plover", "PLOVER", "Ｐｌｏｖｅｒ", "Plover.", "P l o v e r", "ⓟlover", "Plo-ver", "𝐏𝐥𝐨𝐯𝐞𝐫"],
)
def test_names_that_look_alike_have_the_same_key(other):
    assert look_alike_key(other) == look_alike_key("Plover")


# Foldings that Unicode's own CaseFolding.txt and its chapter on normalisation give (from memory): sharp s, the long s
# with its ligature, the Greek final sigma, and the Kelvin sign.
@pytest.mark.parametrize(
    ("one", "other"), [("Straße", "STRASSE"), ("ﬅag", "stag"), ("ΦΑΡΟΣ", "φαρος"), ("\u212aiwi", "kiwi")]
)
def test_case_is_folded_as_unicode_folds_it(one, other):
    assert look_alike_key(one) == look_alike_key(other)


def test_different_names_have_different_keys():
    names = ["Plover", "Plovers", "Dunlin", "Åse", "Ase"]

    assert len({look_alike_key(name) for name in names}) == len(names)


def test_a_name_is_tidied_before_it_is_kept():
    assert tidy("  Jack \t Ｓｎｉｐｅ ") == "Jack Snipe"


@pytest.mark.django_db
def test_a_name_that_looks_like_one_there_is_is_refused_and_the_database_refuses_it_too():
    from django.core.exceptions import ValidationError
    from django.db import IntegrityError, transaction

    make_member("Plover")

    with pytest.raises(ValidationError, match="one that looks like it"):
        SignInAdapter().clean_username("ＰＬＯＶＥＲ")
    with pytest.raises(IntegrityError), transaction.atomic():
        make_member("plo ver")
    assert SignInAdapter().clean_username("Dunlin ") == "Dunlin"
