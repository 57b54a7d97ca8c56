"""The forms of a submission. What a form complains about it says in the words of whoever filled it in."""

import re
import unicodedata
from collections.abc import Mapping

from django import forms

from catalogue.member_examples.models import Alteration, Label
from catalogue.member_examples.submitting.figures_typed import lab
from catalogue.member_examples.submitting.lengths import millimetres
from catalogue.member_examples.submitting.pictures import LICENCES
from catalogue.member_examples.words import (
    CONDITION_MEANING,
    AlterationKind,
    AlteredBy,
    Attachment,
    Condition,
    Held,
    LabelKind,
    LabelOrigin,
    ProtectedShade,
    Shot,
)
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.models import GarmentType, Maker
from catalogue.reference.regions import VIEW_WORDS, all_regions, views_of
from catalogue.reference.uncertain_dates import UNREADABLE, as_typed, fault_in_date
from catalogue.reference.words import MEASURED_FROM, Measured
from catalogue.typed_words import WordsField, can_be_read
from identification.dating.shades import Lab

NOT_SURE = ""
LONGEST_TEXT = 5_000
YES_NO = (("", "Not looked"), ("yes", "Yes"), ("no", "No"))
TURNING = re.compile("[\u200e\u200f\u202a-\u202e\u2066-\u2069]")


def plain(text: str) -> str:
    """Without marks that turn the direction of text and other signs nobody sees, but for ends of lines. Nothing where
    nothing of it can be read."""
    text = TURNING.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))
    text = "".join(sign for sign in text if sign in "\n\t" or unicodedata.category(sign) != "Cc")
    return text if can_be_read(text) else ""


class Words(WordsField):
    """A text, in one line unless `rows` says otherwise."""

    def __init__(self, *, rows: int = 0, longest: int, **kwargs):
        widget = forms.Textarea(attrs={"rows": rows}) if rows else forms.TextInput()
        super().__init__(required=kwargs.pop("required", False), max_length=longest, widget=widget, **kwargs)
        self.error_messages["max_length"] = (
            f"At most {longest} signs fit here; this has %(show_value)s. What you typed is still here."
        )

    def to_python(self, value):
        return plain(super().to_python(value))


class GarmentForm(forms.Form):
    garment_type = forms.ModelChoiceField(
        GarmentType.objects.order_by("name"),
        required=False,
        to_field_name="code",
        empty_label=None,
        widget=forms.RadioSelect,
        error_messages={"invalid_choice": "Choose one of these, or “I am not sure”."},
    )
    sold_as = Words(
        label="What did the seller call it?", longest=200, help_text="In the seller's own words, right or wrong."
    )
    seen_on = Words(
        label="When did you get or see it?",
        longest=60,
        help_text="As 14 May 2024, May 2024, 2024, about 2019 or 1998–2003.",
    )
    venue = Words(
        label="Where, in general?",
        longest=120,
        help_text="The kind of place: market, shop, family. No address, and no person's name.",
    )

    def clean_seen_on(self):
        date = as_typed(self.cleaned_data["seen_on"])
        if date and (fault := fault_in_date(date)):
            told = "write it as 14 May 2024, May 2024, 2024, about 2019 or 1998–2003" if fault == UNREADABLE else fault
            raise forms.ValidationError(f"{told[0].upper()}{told[1:]}.")
        return date


MEASURED_PLACES = ("exposed_lab", "protected_lab")


class ConditionForm(forms.Form):
    condition = forms.ChoiceField(
        choices=[
            ("", "Not said"),
            *((one.value, f"{one.label}: {CONDITION_MEANING[one].lower()}") for one in Condition),
        ],
        required=False,
        widget=forms.RadioSelect,
        label="Condition",
    )
    complete = forms.ChoiceField(choices=YES_NO, required=False, widget=forms.RadioSelect, label="Is everything there?")
    label_legible = forms.ChoiceField(
        choices=YES_NO, required=False, widget=forms.RadioSelect, label="Can the label be read?"
    )
    mould = forms.ChoiceField(
        choices=YES_NO,
        required=False,
        widget=forms.RadioSelect,
        label="Does it smell, or show mould?",
        help_text="Look, do not sniff.",
    )
    provenance = Words(
        label="What is said of its history, and by whom?",
        longest=LONGEST_TEXT,
        rows=4,
        help_text="What the seller said stays what the seller said. Leave out names of persons.",
    )
    repairs = Words(label="Repairs", longest=LONGEST_TEXT, rows=3, help_text="What was mended, where, and with what.")
    note = Words(label="Anything else", longest=LONGEST_TEXT, rows=3)

    def __init__(self, *args, shade: FeatureFacts | None = None, **kwargs):
        """`shade`: the type's feature that is a shade, where it has one: then both places are asked for."""
        super().__init__(*args, **kwargs)
        self.asks_shades = shade is not None
        if shade is None:
            return
        self.fields["exposed"] = forms.ChoiceField(
            choices=[("", "Not looked"), *((state.code, state.label) for state in shade.states)],
            required=False,
            label="Its shade where light falls",
            help_text="Outside, in daylight: shoulder or chest.",
        )
        self.fields["protected"] = forms.ChoiceField(
            choices=[("", "Not looked"), *ProtectedShade.choices],
            required=False,
            label="And beside it, under a flap or inside a pocket?",
            help_text="Hold both places side by side. It shows whether the piece has faded.",
        )
        for place, where in (("exposed", "where light falls"), ("protected", "in the protected place")):
            self.fields[f"{place}_lab"] = WordsField(
                required=False, max_length=40, label=f"L, a and b {where}", help_text="Such as: 43.9 -5.8 13.7"
            )
        self.order_fields(["condition", "complete", "label_legible", "mould", "exposed", "protected"])

    @property
    def plain_fields(self) -> list:
        return [field for field in self if field.name not in MEASURED_PLACES]

    @property
    def measured_fields(self) -> list:
        return [self[name] for name in MEASURED_PLACES if name in self.fields]

    @property
    def shows_measured(self) -> bool:
        return any(field.value() or field.errors for field in self.measured_fields)

    def clean(self):
        given = super().clean()
        self.labs: tuple[Lab, Lab] | None = None
        typed = [given.get(name, "").strip() for name in MEASURED_PLACES]
        read = [lab(words) for words in typed]
        for name, words, figures in zip(MEASURED_PLACES, typed, read, strict=True):
            if words and figures is None:
                said = f"“{words}” is not three figures: L from 0 to 100, then a and b from -128 to 128."
                self.add_error(name, said)
            elif not words and any(typed):
                self.add_error(name, "Give the figures of both places, or of none.")
        if all(read):
            self.labs = (read[0], read[1])
        return given

    def shades(self, *, before: Mapping[str, str], measured_before: tuple[Lab, Lab] | None) -> dict:
        """The code of the exposed state, the protected place beside it, empty where not looked; figures of both, those
        of before where what was typed is not kept."""
        unread = any(name in self.errors for name in MEASURED_PLACES)
        seen = {name: self.cleaned_data.get(name, before.get(name, "")) for name in ("exposed", "protected")}
        return seen | {"labs": measured_before if unread else self.labs}

    @property
    def fields_of_piece(self) -> dict:
        beside = ("exposed", "protected", *MEASURED_PLACES)
        given = {name: value for name, value in self.cleaned_data.items() if name not in beside}
        for name in {"complete", "label_legible", "mould"} & set(given):
            given[name] = {"yes": True, "no": False, "": None}[given[name]]
        return given


class PaperForm(forms.Form):
    """What the labels say that has a field of its own."""

    maker = forms.ModelChoiceField(
        Maker.objects.order_by("name"), required=False, to_field_name="code", empty_label="Not known, or not listed"
    )
    label_year = forms.IntegerField(
        required=False,
        min_value=1700,
        max_value=2200,
        label="Year on a label",
        error_messages={
            "invalid": "A year has four figures, as 1976.",
            "min_value": "A year has four figures, as 1976.",
            "max_value": "A year has four figures, as 1976.",
        },
        widget=forms.TextInput(attrs={"inputmode": "numeric", "size": 6}),
    )
    contract = Words(label="Contract number", longest=80, help_text="Letter by letter, as it stands there.")


class LabelForm(forms.Form):
    kept_as_whole = True
    kind = forms.ChoiceField(choices=LabelKind.choices, label="Which label is it?")
    place = Words(label="Where is it?", longest=80, help_text="Such as: inside, below the neck seam.")
    text = Words(
        label="What it says",
        longest=LONGEST_TEXT,
        rows=5,
        help_text="Letter by letter, line by line; ? for a sign that cannot be read.",
    )
    attachment = forms.ChoiceField(choices=Attachment.choices, initial=Attachment.NOT_KNOWN, label="How is it fixed?")
    origin = forms.ChoiceField(
        choices=LabelOrigin.choices,
        initial=LabelOrigin.NOT_KNOWN,
        label="Was it always there?",
        widget=forms.RadioSelect,
    )
    remark = Words(label="What is not on it", longest=200, help_text="Such as: lower half cut off.")

    def clean(self):
        given = super().clean()
        said = given.get("text") or given.get("remark") or given.get("origin") == LabelOrigin.TRACE
        if not self.errors and not said:
            raise forms.ValidationError("Write what it says, or what is left of it.")
        return given

    @staticmethod
    def of(label: Label) -> dict:
        return {name: getattr(label, name) for name in ("kind", "place", "text", "attachment", "origin", "remark")}


class SizeForm(forms.Form):
    """The size mark, and a field for each length that tells something of the class of garment."""

    size_mark = Words(label="Size, as it is marked", longest=40, help_text="As it stands there, such as 3 or M/R.")
    unit = forms.ChoiceField(choices=[("cm", "centimetres"), ("in", "inches")], required=False, label="I measure in")
    method = Words(
        label="Measured otherwise than said above?", longest=120, help_text="Such as: raglan, from the neck."
    )

    def __init__(self, *args, lengths: tuple[str, ...], **kwargs):
        super().__init__(*args, **kwargs)
        self.lengths = lengths
        self.read_with = {what: ("unit",) for what in lengths}
        for what in lengths:
            self.fields[what] = WordsField(
                required=False,
                max_length=20,
                label=Measured(what).label,
                help_text=MEASURED_FROM[Measured(what)],
                widget=forms.TextInput(attrs={"inputmode": "decimal", "size": 8, "autocomplete": "off"}),
            )

    @property
    def fields_of_piece(self) -> dict:
        return {name: self.cleaned_data[name] for name in ("size_mark",) if name in self.cleaned_data}

    @property
    def measured_lengths(self) -> dict[str, tuple[int, str] | None]:
        return {what: given for what, given in self.measured.items() if what not in self.errors}

    @property
    def length_fields(self) -> list:
        return [self[what] for what in self.lengths]

    def clean(self):
        given = super().clean()
        self.measured: dict[str, tuple[int, str] | None] = {}
        unit = given.get("unit") or "cm"
        for what in self.lengths:
            typed = (given.get(what) or "").strip()
            mm = millimetres(typed, unit) if typed else None
            if typed and mm is None:
                self.add_error(what, f"“{typed}” is no length between 1 mm and 3 m. Write 55, 55.5 or 21 1/2.")
            else:
                self.measured[what] = (mm, f"{typed} {unit}"[:40]) if mm else None
        return given


class AlterationForm(forms.Form):
    kept_as_whole = True
    part = Words(label="Which part?", longest=60, required=True, help_text="Such as: sleeves, hem, label, buttons.")
    kind = forms.ChoiceField(choices=AlterationKind.choices, label="What was done?")
    where = forms.ChoiceField(required=False, label="Where?")
    traces = Words(
        label="What still shows it?", longest=LONGEST_TEXT, rows=3, help_text="Such as: needle holes, a paler patch."
    )
    by = forms.ChoiceField(choices=AlteredBy.choices, label="By whom?")
    features = forms.MultipleChoiceField(
        required=False,
        widget=forms.CheckboxSelectMultiple,
        label="What says nothing of the version any more?",
        help_text="Tick nothing, and it is all that is looked for at the place you named.",
    )

    def __init__(self, *args, facts: TypeFacts | None, **kwargs):
        super().__init__(*args, **kwargs)
        self.facts = facts
        self.fields["part"].error_messages["required"] = "Say which part it is."
        self.fields["features"].choices = [(f.code, f.name) for f in facts.features.values()] if facts else []
        self.fields["where"].choices = [("", "Not said"), *(region_choices(facts.garment_class) if facts else [])]

    def clean(self):
        """What is looked for at the place says nothing of the version any more, unless somebody ticked what does not;
        once it is written down, ticks are taken as they are while the place stays."""
        given = super().clean()
        where = given.get("where", "")
        if where and not given.get("features") and where != self.initial.get("where", "") and self.facts:
            view, _, region = where.partition(":")
            found = [code for code, feature in self.facts.features.items() if feature.lies_at(view, region)]
            given["features"] = found
        return given

    @property
    def fields_of_row(self) -> dict:
        view, _, region = self.cleaned_data["where"].partition(":")
        kept = {name: self.cleaned_data[name] for name in ("part", "kind", "traces", "by")}
        return kept | {"view": view, "region": region}

    @staticmethod
    def of(row: Alteration) -> dict:
        where = f"{row.view}:{row.region}" if row.region else ""
        kept = {name: getattr(row, name) for name in ("part", "kind", "traces", "by")}
        return kept | {"where": where, "features": [feature.code for feature in row.features.all()]}


def region_choices(garment_class: str) -> list:
    """The places of a class of garment, grouped by view."""
    groups = []
    for view in views_of(garment_class):
        places = [
            (f"{view}:{r.code}", r.label)
            for (cls, v, _), r in all_regions().items()
            if (cls, v) == (garment_class, view)
        ]
        groups.append((VIEW_WORDS.get(view, view), places))
    return groups


class HeldForm(forms.Form):
    """What the owner holds a piece to be. `may_be_half`: a draft takes a choice without grounds, and grounds without a
    choice."""

    version = forms.ChoiceField(widget=forms.RadioSelect, label="I hold it to be")
    grounds = Words(
        label="On what grounds?",
        longest=LONGEST_TEXT,
        rows=4,
        required=True,
        help_text="Which features, which label, which paper.",
    )

    def __init__(self, *args, facts: TypeFacts | None, may_be_half: bool, **kwargs):
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.required = not may_be_half
        self.fields["grounds"].error_messages["required"] = (
            "Say on what grounds: which features, which label, which paper."
        )
        self.fields["version"].error_messages["required"] = "Choose one of these; “I cannot say” is an answer."
        versions = [(v.code, f"{v.name} ({v.code})") for v in facts.versions.values()] if facts else []
        self.fields["version"].choices = [
            *versions,
            (f"_{Held.NOT_IN_REFERENCE}", "None of these: not in the reference"),
            (f"_{Held.CANNOT_SAY}", "I cannot say"),
        ]

    @property
    def is_whole(self) -> bool:
        """Both are there: a choice and its grounds."""
        return self.is_valid() and all(self.cleaned_data[name].strip() for name in ("version", "grounds"))

    @property
    def half(self) -> dict[str, str]:
        """What is there, as the draft keeps it."""
        kept = {"begun_held": "version", "begun_grounds": "grounds"}
        return {name: self.cleaned_data[field] for name, field in kept.items() if field in self.cleaned_data}

    @property
    def held(self) -> str:
        chosen = self.cleaned_data["version"]
        return chosen.removeprefix("_") if chosen.startswith("_") else ""


class PictureForm(forms.Form):
    view = forms.ChoiceField(choices=Shot.choices, label="What it shows")
    caption = Words(label="Caption", longest=300)
    credit = Words(label="Whose picture is it?", longest=120, help_text="As you want to be named.")
    licence = forms.ChoiceField(choices=LICENCES, required=False, label="Who may use it?")


class TermsForm(forms.Form):
    """Of all pictures of a piece."""

    credit = Words(label="Whose are they?", longest=120, help_text="Empty: your display name.")
    licence = forms.ChoiceField(choices=LICENCES, required=False, label="Who may use them?")
