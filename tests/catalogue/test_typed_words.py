"""What nobody can read is no words: wherever people type, it is as if nothing had been typed."""

import importlib
import pkgutil
import unicodedata

import pytest
from allauth.account.fields import PasswordField
from django import forms
from django.contrib import admin
from django.test import RequestFactory
from hypothesis import given
from hypothesis import strategies as st

import catalogue
from catalogue.member_examples.submitting.forms import plain
from catalogue.reference.spreadsheets.csv_files import split_lines
from catalogue.typed_words import WordsField, can_be_read

NO_WORDS = (WordsField, PasswordField, forms.EmailField, forms.UUIDField)
INVISIBLE = "\u200b\u2060\u202e\u00ad\ufeff\u3164\u2800\u0301"


@given(st.text())
def test_words_are_what_holds_a_letter_a_figure_a_mark_or_a_symbol(text):
    shown = [sign for sign in text if unicodedata.category(sign)[0] in "LNPS"]

    assert can_be_read(text) == bool([sign for sign in shown if sign not in "\u115f\u1160\u3164\uffa0\u2800"])


@pytest.mark.parametrize("text", ["?", "é", "e\u0301", "\u200bx", "図", "№", "½"])
def test_whatever_shows_a_sign_is_words_and_stays_as_typed(text):
    assert WordsField().clean(text) == text


def test_a_field_that_must_be_filled_says_so_and_another_stays_empty():
    with pytest.raises(forms.ValidationError, match="Fill this in"):
        WordsField().clean(INVISIBLE)
    assert WordsField(required=False).clean(INVISIBLE) == ""


def forms_of_ours() -> list[type[forms.BaseForm]]:
    """Every form class that a module of the site defines."""
    for found in pkgutil.walk_packages(catalogue.__path__, "catalogue."):
        if found.name.rpartition(".")[2] in ("forms", "sign_in_forms", "admin_base", "choosing_drawings"):
            importlib.import_module(found.name)
    known, waiting = [], [forms.BaseForm]
    while waiting:
        below = waiting.pop().__subclasses__()
        waiting += below
        known += [one for one in below if one.__module__.startswith("catalogue.")]
    return known


def own_fields(form: type[forms.BaseForm]) -> dict[str, forms.Field]:
    """Those that a form of ours names, not the sign-in library's, and of the accounts' forms those of a table."""
    if form.__module__ == "catalogue.accounts.forms":
        return form.base_fields
    others = [one.declared_fields for one in form.__mro__ if not one.__module__.startswith("catalogue.")
              and hasattr(one, "declared_fields")]  # fmt: skip
    return {name: field for name, field in form.declared_fields.items() if not any(name in one for one in others)}


def is_for_words(field: forms.Field) -> bool:
    return not isinstance(field, forms.CharField) or isinstance(field, NO_WORDS)


def test_every_text_field_of_a_form_is_one_for_words():
    """Passwords, addresses and what the sign-in library asks are no words; the back office has a test of its own."""
    fields = {
        f"{one.__module__}.{one.__name__}.{name}": field
        for one in forms_of_ours()
        for name, field in own_fields(one).items()
    }

    assert sum(isinstance(field, WordsField) for field in fields.values()) > 50
    assert [name for name, field in fields.items() if not is_for_words(field)] == []


@pytest.mark.django_db
@pytest.mark.parametrize("name", ["OpenQuestion", "Source", "Maker", "IssueVersion"])
def test_the_back_office_takes_none_for_words_either(name):
    model = next(one for one in admin.site._registry if one.__name__ == name)
    request = RequestFactory().get("/")
    request.user = type("Secretary", (), {"has_perm": lambda *_: True, "is_active": True, "is_staff": True})()
    office = admin.site._registry[model]
    inlines = office.get_inline_instances(request)
    every = [office.get_form(request), *(inline.get_formset(request).form for inline in inlines)]
    texts = [field for form in every for field in form.base_fields.values() if type(field) is forms.CharField]

    assert texts == []


def test_a_cell_of_a_spreadsheet_and_a_caption_that_hold_none_are_empty():
    lines = split_lines(f"code,name\nA,{INVISIBLE}\n{INVISIBLE},{INVISIBLE}\n", ",", lambda *_: None)

    assert [cells for _, cells in lines.cells] == [["code", "name"], ["A", ""]]
    assert plain(INVISIBLE) == ""
