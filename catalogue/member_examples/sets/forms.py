"""The forms of a set: what is said of it, and which pieces are in it."""

import re

from django import forms

from catalogue.accounts.models import Member
from catalogue.member_examples.filters import visible_to
from catalogue.member_examples.models import Example
from catalogue.member_examples.sets.actions import MOST_PIECES, may_be_added
from catalogue.member_examples.submitting.forms import Words
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import Together

BETWEEN = re.compile(r"[\s,;]+")
OWN_SHOWN = 24


class SetForm(forms.Form):
    """What is said of a set."""

    name = Words(
        label="What is it called?", longest=200, required=True, help_text="Such as: coat with its quilted liner."
    )
    together = forms.ChoiceField(
        label="Were they together from the beginning?",
        choices=Together.choices,
        initial=Together.UNKNOWN,
        widget=forms.RadioSelect,
        help_text="Issued or worn together; found or sold together is another matter.",
        error_messages={"required": "Choose one; “not known” is an answer.", "invalid_choice": "Choose one of these."},
    )
    fasten = forms.ChoiceField(
        label="Do they fasten to each other?",
        choices=Together.choices,
        initial=Together.UNKNOWN,
        widget=forms.RadioSelect,
        help_text="Try it, where they were made to: a liner by its loops, a hood by its studs. Else “not known”.",
        error_messages={"required": "Choose one; “not known” is an answer.", "invalid_choice": "Choose one of these."},
    )
    grounds = Words(
        label="On what grounds, and where were they found or sold together?",
        rows=4,
        longest=4_000,
        help_text="No address, and no person's name.",
    )

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["name"].error_messages["required"] = "Give it a name."

    def clean(self):
        given = super().clean()
        if given.get("together", Together.UNKNOWN) != Together.UNKNOWN and not given.get("grounds"):
            self.add_error("grounds", "Say on what grounds you say yes or no; or choose “not known”.")
        return given


class NewSetForm(SetForm):
    """A set with its pieces: ticked among one's own, or by their codes."""

    own = forms.MultipleChoiceField(
        label="Your pieces", required=False, widget=forms.CheckboxSelectMultiple,
        error_messages={"invalid_choice": "%(value)s is not among your pieces."},
    )  # fmt: skip
    codes = Words(
        label="Pieces by their codes",
        longest=400,
        help_text="Spaces between, as E061 E080: your own, or accepted ones of others. Their owners are told.",
    )
    field_order = ("own", "codes", "name", "together", "fasten", "grounds")

    def __init__(self, *args, member: Member, **kwargs):
        super().__init__(*args, **kwargs)
        self.member = member
        mine = Example.objects.filter(owner=member).select_related("garment_type", "held_as")
        mine = mine.prefetch_related("alterations").order_by("-changed_at", "-pk")[:OWN_SHOWN]
        self.fields["own"].choices = [(one.code, f"{one.code}: {title_of(one)}") for one in mine]
        if not self.fields["own"].choices:
            del self.fields["own"]

    def clean(self):
        given = super().clean()
        codes = list(dict.fromkeys([*given.get("own", ()), *codes_in(given.get("codes", ""))]))
        self.pieces, missing = pieces_to_add(self.member, codes)
        if missing:
            self.add_error("codes", not_found(missing))
        elif len(self.pieces) < 2 and "codes" not in self.errors:
            self.add_error("codes", "A set has two pieces at least: tick yours, or write their codes.")
        elif len(self.pieces) > MOST_PIECES:
            self.add_error("codes", f"A set has at most {MOST_PIECES} pieces.")
        return given


class AddForm(forms.Form):
    """Pieces to be added to a set that there is."""

    codes = Words(
        label="Codes of the pieces",
        longest=400,
        help_text="Spaces between, as E061 E080: your own, or accepted ones of others. Their owners are told.",
    )

    def __init__(self, *args, member: Member, **kwargs):
        super().__init__(*args, **kwargs)
        self.member = member

    def clean_codes(self) -> str:
        typed = self.cleaned_data["codes"]
        self.pieces, missing = pieces_to_add(self.member, codes_in(typed))
        if missing:
            raise forms.ValidationError(not_found(missing))
        if not self.pieces:
            raise forms.ValidationError("Write the code of a piece, as E061.")
        return typed


def codes_in(typed: str) -> list[str]:
    """Codes as people write them: E061, e61."""
    return [code for code in BETWEEN.split(typed.upper()) if code]


def pieces_to_add(member: Member, codes: list[str]) -> tuple[list[Example], list[str]]:
    """The pieces that the member may add, in the order of `codes`, and codes of which there is none such: whether it
    is not there or not to be read is not told."""
    rows = visible_to(member, moderator=False).filter(code__in=codes).select_related("owner")
    found = {one.code: one for one in rows if may_be_added(member, one)}
    return [found[code] for code in codes if code in found], [code for code in codes if code not in found]


def not_found(codes: list[str]) -> str:
    named = ", ".join(code[:20] for code in codes[:5])
    return f"No piece that you can add has the code {named}. It is to be your own, or an accepted one."
