"""What a proposal is written and decided with."""

from django import forms

from catalogue.reference.admin_profiles import CodesField, refuse_unknown
from catalogue.reference.models import Colourway, Cut, GarmentType, Issuer, IssueVersion, Maker, Source
from catalogue.reference.models.fields import validate_uncertain_date
from catalogue.reference.size_tables import in_a_table
from catalogue.reference.words import Certainty, HazardKind, Measured, Restriction, VersionKind
from catalogue.review.fields import (
    decision_field,
    grounds_field,
    reason_field,
    revision_field,
    sending_field,
    word_field,
)
from catalogue.review.proposals.number_lines import HELP, NotUnderstood, as_lines, from_lines
from catalogue.review.proposals.rules import row_of
from catalogue.review.proposals.standing import numbers_in_order
from catalogue.review.proposals.words import UNORDERED, DecisionOn, ProposalKind, Weight
from catalogue.review.words import LONGEST
from catalogue.typed_words import WordsField

AUTHORS_FIELDS = (
    "kind", "cut", "colourway", "issuer", "date", "certainty", "continues", "made_from", "makers", "stock_numbers",
    "passes_for", "rarity", "abundance", "piece_seen",
)  # fmt: skip
# Rows of codes, with spaces between; those that stand in no order are kept sorted.
BY_CODES = ("sources", "contradicting_sources", "continues", "made_from", "makers", "passes_for", "became")
DECISIONS = [
    (DecisionOn.APPROVED, "Approve it"),
    (DecisionOn.RETURNED, "Return it with a question"),
    (DecisionOn.DECLINED, "Decline it"),
]


class SourceCodes(CodesField):
    """Codes of sources, or of other records, with spaces between, kept as codes."""

    def clean(self, value):
        by_key = {key: code for code, key in self.known.items()}
        return [by_key[key] for key in super().clean(value)]


class NamesField(WordsField):
    """A name a line."""

    def __init__(self, **kwargs):
        super().__init__(required=False, widget=forms.Textarea(attrs={"rows": 2}), **kwargs)

    def clean(self, value):
        return list(dict.fromkeys(line.strip() for line in super().clean(value).splitlines() if line.strip()))


class SizesField(WordsField):
    """A length of a size table a line: mark; length; millimetres; source."""

    known: dict[str, int] = {}

    def __init__(self, **kwargs):
        super().__init__(required=False, max_length=60_000, widget=forms.Textarea(attrs={"rows": 4}), **kwargs)

    def clean(self, value):
        lines = [line.strip() for line in super().clean(value).splitlines() if line.strip()]
        found = [self.length(line) for line in lines]
        refuse_unknown([one["source"] for one in found], self.known, "source")
        return sorted(found, key=lambda one: in_a_table(one["mark"], one["what"]))

    def length(self, line: str) -> dict[str, object]:
        parts = [part.strip() for part in line.split(";")]
        if len(parts) != 4:
            raise forms.ValidationError(
                f"“{line[:80]}” is not a mark, a length, millimetres and a source, with ; between."
            )
        mark, what, mm, source = parts
        lengths = {name.casefold(): code for code, label in Measured.choices for name in (code, label)}
        if what.casefold() not in lengths:
            raise forms.ValidationError(f"“{what[:40]}” is no length: one of {', '.join(Measured.labels).lower()}.")
        if not (mm.isascii() and mm.isdigit() and len(mm) <= 4):
            raise forms.ValidationError(f"“{mm[:40]}” is not a length in millimetres.")
        return {"mark": mark, "what": lengths[what.casefold()], "mm": int(mm), "source": source}


class NumbersField(WordsField):
    """Stock numbers, one a line."""

    def __init__(self, **kwargs):
        super().__init__(
            required=False, max_length=60_000, strip=False, widget=forms.Textarea(attrs={"rows": 4}), **kwargs
        )

    def clean(self, value):
        try:
            return numbers_in_order(from_lines(super().clean(value)))
        except NotUnderstood as fault:
            raise forms.ValidationError(str(fault)) from None


class OneOf(forms.ChoiceField):
    """One record of a table by its code, or none; what is chosen already stays to choose from."""

    def __init__(self, table, **kwargs):
        super().__init__(required=False, choices=lambda: [("", "none"), *self.names()], **kwargs)
        self.table = table

    def names(self) -> list[tuple[str, str]]:
        return [(code, f"{name} ({code})") for code, name in self.table.objects.values_list("code", "name")]


class ParticularsForm(forms.Form):
    """What a version says of itself beside its profile, the grounds and the sources of a change of it."""

    name = WordsField(max_length=200, error_messages={"required": "A version needs a name."})
    other_names = NamesField(label="Names used by members", help_text="One a line.", max_length=2_000)
    kind = forms.ChoiceField(choices=VersionKind.choices, label="Kind of version")
    cut = OneOf(Cut)
    colourway = OneOf(Colourway)
    issuer = OneOf(Issuer, label="Given out by", help_text="Its dates bound those of what it gave out.")
    date = WordsField(
        label="Dates",
        required=False,
        max_length=40,
        validators=[validate_uncertain_date],
        help_text="As 1966, 1966-03, 1966~ (about), 1964? (uncertain), 1971/1986; .. for an open end.",
    )
    certainty = forms.ChoiceField(choices=Certainty.choices, label="How sure the version is")
    continues = SourceCodes(
        label="Continues or imitates", help_text="Codes of versions; its profile follows the first."
    )
    made_from = SourceCodes(label="Made from", help_text="Of an altered piece: codes of the versions it was made from.")
    makers = SourceCodes(label="Makers", help_text="Codes of makers, spaces between.")
    stock_numbers = NumbersField(label="Stock numbers", help_text=HELP)
    passes_for = SourceCodes(
        label="May be taken for", help_text="Codes of the other garment types that it may be taken for."
    )
    rarity = forms.TypedChoiceField(
        label="How rare", coerce=int, choices=[(1, "1, common"), (2, "2"), (3, "3"), (4, "4"), (5, "5, rare")]
    )
    abundance = forms.FloatField(
        label="Relative number of pieces",
        required=False,
        min_value=0,
        help_text="Counted, beside others of its type; wins over how rare.",
    )
    piece_seen = forms.TypedChoiceField(
        label="A member has seen a piece", coerce=lambda given: given == "True", choices=[(True, "yes"), (False, "no")]
    )
    hazard_kind = forms.ChoiceField(
        label="Kind of hazard",
        required=False,
        choices=[("", "none"), *HazardKind.choices],
        help_text="One person can give a caution; to change it or take it away takes two.",
    )
    hazard = WordsField(label="Hazard in words", required=False, max_length=200)
    restrictions = forms.MultipleChoiceField(
        label="What the law may restrict",
        required=False,
        choices=Restriction.choices,
        widget=forms.CheckboxSelectMultiple,
        help_text="One person can add one; to take one away takes two.",
    )
    reason = WordsField(
        label="Why it was made or changed", required=False, max_length=LONGEST, widget=forms.Textarea(attrs={"rows": 2})
    )
    note = WordsField(required=False, max_length=LONGEST, widget=forms.Textarea(attrs={"rows": 2}))
    sources = SourceCodes(label="Sources for the version", help_text="Codes of sources, spaces between, as S01 S22.")
    contradicting_sources = SourceCodes(
        label="Sources against the version", help_text="Codes of sources that contradict it, spaces between."
    )
    sizes = SizesField(
        label="Size table",
        help_text="A length a line, garment laid flat: mark; length; millimetres; code of the paper. Such as: "
        "4; pit to pit; 525; S03.",
    )
    retired = WordsField(
        label="Why it is held to be no version any more",
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="Stands on its page, which stays where it is.",
        error_messages={"required": "Its page will say why: write it down."},
    )
    became = SourceCodes(
        label="What it became",
        help_text="Code of the version, of its garment type, that its pieces are held to be instead: its page leads "
        "there, and its accepted pieces go there. Empty where nothing takes its place and no piece is held as it.",
    )
    grounds = grounds_field(kept_with="record")
    cites = SourceCodes(label="Sources cited for the change", help_text="Codes of sources, spaces between.")
    revision = revision_field()

    def __init__(
        self, *args, kind: str, may_maintain: bool, stands: dict[str, str], others=None, begun=None, also=(), **kwargs
    ):
        """`stands`: what each field says on record today, in words; `others`: the same of another that is shown beside
        it; `begun`: what those said that were changed since the draft was begun. `also`: codes of versions that a split
        makes, which may be named before they are there."""
        super().__init__(*args, **kwargs)
        known = dict(Source.objects.values_list("code", "pk"))
        for name in ("sources", "contradicting_sources", "cites", "sizes"):
            self.fields[name].known = known
        self.fields["makers"].known = dict(Maker.objects.values_list("code", "pk"))
        self.fields["passes_for"].known = dict(GarmentType.objects.values_list("code", "pk"))
        for name in ("continues", "made_from", "became"):
            self.fields[name].known = {code: code for code in also} | dict(
                IssueVersion.objects.values_list("code", "pk")
            )
        self.stands, self.others, self.begun = stands, others or {}, begun or {}
        if kind == ProposalKind.RETIRE:
            self.keep_only("retired", "became", "grounds", "cites", "revision")
        else:
            self.leave_out("retired", "became")
            if not may_maintain:
                for name in AUTHORS_FIELDS:
                    del self.fields[name]

    def leave_out(self, *names: str) -> None:
        for name in names:
            del self.fields[name]

    def keep_only(self, *names: str) -> None:
        self.fields = {name: field for name, field in self.fields.items() if name in names}

    def rows(self) -> dict[str, object]:
        """The fields as rows of a version."""
        apart = ("grounds", "cites", "revision")
        found = {
            name: value.replace("\r\n", "\n") if isinstance(value, str) else value
            for name, value in self.cleaned_data.items()
            if name not in apart
        }
        return found | {name: sorted(found[name]) for name in UNORDERED if name in found}

    def shown(self) -> list[dict]:
        """The fields for the page, each with what stands today."""
        return [
            {
                "field": field,
                "stands": self.stands.get(field.name),
                "other": self.others.get(field.name),
                "begun": self.begun.get(field.name, "") or ("nothing" if field.name in self.begun else ""),
            }
            for field in self
            if not field.is_hidden
        ]


def first_values(whole: dict) -> dict[str, object]:
    """What the form shows first: the version as it is wanted so far."""
    lists = {"other_names": "\n".join(row_of(whole, "other_names"))} | {
        name: " ".join(row_of(whole, name)) for name in BY_CODES
    }
    lists["stock_numbers"] = as_lines(row_of(whole, "stock_numbers"))
    lists["sizes"] = "\n".join(
        f"{one['mark']}; {Measured(one['what']).label.lower()}; {one['mm']}; {one['source']}"
        for one in row_of(whole, "sizes")
    )
    return {name: row_of(whole, name) for name in ParticularsForm.base_fields} | lists


class MergeForm(forms.Form):
    """With which other version, and which of the two stays."""

    other = forms.ChoiceField(
        label="It is the same as",
        error_messages={"required": "Choose the other version.", "invalid_choice": "Choose one of these."},
    )
    stays = forms.ChoiceField(
        label="Which of the two stays",
        widget=forms.RadioSelect,
        error_messages={"required": "Choose which of the two stays.", "invalid_choice": "Choose one of these."},
    )

    def __init__(self, *args, version, others: list[tuple[str, str]], **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["other"].choices = [("", "Choose …"), *others]
        self.fields["stays"].choices = [
            ("this", f"{version.name} ({version.code}) stays; the other is retired and leads here"),
            ("other", f"The other stays; {version.code} is retired and leads there"),
        ]


class SplitForm(forms.Form):
    """What the two versions are called that a split makes."""

    first_code = WordsField(
        max_length=80,
        label="Code of the first",
        help_text="Short, as those of its garment type; it stands in its address.",
    )
    first_name = WordsField(
        max_length=200, label="Name of the first", error_messages={"required": "Both versions need a name."}
    )
    second_code = WordsField(max_length=80, label="Code of the second")
    second_name = WordsField(
        max_length=200, label="Name of the second", error_messages={"required": "Both versions need a name."}
    )


class NewVersionForm(forms.Form):
    """What a new version begins with."""

    code = WordsField(max_length=80, help_text="Short, as those of its garment type; it stands in its address.")
    name = WordsField(max_length=200, error_messages={"required": "A version needs a name."})
    copy = forms.ChoiceField(
        label="Begin as a copy of",
        required=False,
        help_text="With its profile, dates and kind, as the version that it continues. Change then what is different.",
    )

    def __init__(self, *args, versions, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["copy"].choices = [("", "nothing: begin empty"), *versions]


class DecisionForm(forms.Form):
    """One decision on the sending that was looked at."""

    decision = decision_field(DECISIONS)
    reason = reason_field("Reason, or question", reader="author", page="proposal")
    sending = sending_field()

    def __init__(self, *args, weight: str, agreed: int, **kwargs):
        super().__init__(*args, **kwargs)
        if weight == Weight.WEIGHTY:
            words = "Approve it, as the second of two" if agreed else "Approve it; another person has to approve it too"
            self.fields["decision"].choices = [(DecisionOn.APPROVED, words), *DECISIONS[1:]]


class RevokeForm(forms.Form):
    """Why an approval is revoked."""

    reason = reason_field("Why it is revoked", reader="author", rows=3)
    sending = sending_field()


class WordForm(forms.Form):
    """A word in the thread of a proposal."""

    text = word_field("Write about this proposal")
    token = forms.UUIDField(widget=forms.HiddenInput)
