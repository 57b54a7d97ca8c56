"""What a feature is proposed with: its words, where and how it is looked at, its states."""

from collections.abc import Mapping

from django import forms

from catalogue.reference.models import Feature, GarmentType, Source
from catalogue.reference.models.fields import validate_label_says
from catalogue.reference.regions import VIEW_WORDS, all_regions
from catalogue.reference.words import FeatureKind, Seen, ServiceChange
from catalogue.review.features.place_radios import PlaceRadios
from catalogue.review.features.rows import ADDED_WORDS, Rows, place_in_words, row_in_words, states_of
from catalogue.review.fields import revision_field
from catalogue.review.proposals.forms import SourceCodes
from catalogue.review.proposals.rules import SMALL_OF_FEATURE, row_of
from catalogue.review.proposals.words import STATE
from catalogue.review.words import LONGEST
from catalogue.typed_words import WordsField

FREE_STATES, FREE_PLACES = 3, 2
BETWEEN = "|"
# Only of a feature that is new: what has been answered is not counted otherwise afterwards.
OF_A_NEW_ONE = ("kind", "unit", "spread")
APART = ("grounds", "cites", "revision")


def words_field(label: str, *, longest: int, rows: int = 1, **more) -> WordsField:
    widget = forms.Textarea(attrs={"rows": rows}) if rows > 1 else forms.TextInput()
    return WordsField(label=label, required=False, max_length=longest, widget=widget, **more)


def chance_field(label: str, help_text: str) -> forms.FloatField:
    return forms.FloatField(label=label, min_value=0, max_value=1, help_text=help_text)


class FeatureForm(forms.Form):
    """The whole feature as it is wanted, each field beside what stands today."""

    name = words_field("Trade word", longest=200, help_text="What the trade calls it, as cuff tab.")
    question = words_field(
        "Question", longest=300, rows=2, help_text="As it is put to somebody who never saw the garment."
    )
    grounds = words_field(
        "Why it matters",
        longest=LONGEST,
        rows=4,
        help_text="What it tells apart, and what that rests on. Kept with the record. A draft may wait for it.",
    )
    cites = SourceCodes(label="Sources cited for it", help_text="Codes of sources, spaces between, as S01 S22.")
    kind = forms.ChoiceField(choices=FeatureKind.choices, label="How it is answered")
    unit = words_field("Unit of bands and measures", longest=20, help_text="As mm, or pieces.")
    spread = forms.FloatField(label="Spread of measures, in that unit", min_value=0.0001)
    types = forms.MultipleChoiceField(label="Garment types that it is asked of", widget=forms.CheckboxSelectMultiple,
                                      required=False)  # fmt: skip
    seen = forms.ChoiceField(choices=Seen.choices, label="How it is looked at")
    effort = forms.FloatField(label="Effort of looking", min_value=0.01, help_text="1 is a glance; 3 is a minute.")
    error = chance_field("Chance of a wrong answer", "0.05 is one in twenty.")
    error_note = words_field("Why people get it wrong", longest=LONGEST, rows=2)
    service_change = forms.ChoiceField(choices=ServiceChange.choices, label="In service")
    change_note = words_field("What happens to it in service", longest=LONGEST, rows=2)
    absent = words_field(
        "If it can be lost: the state that is then seen", longest=80, help_text="Its code. Empty: it cannot be lost."
    )
    loss = chance_field("Chance that the part was lost", "0 where it cannot be.")
    gain = chance_field("Chance that the part was added", "0 where nobody adds it.")
    parent = forms.ChoiceField(
        label="A detail of", required=False, help_text="The feature without which it is not there."
    )
    shown_when = words_field(
        "Only where that shows", longest=500, help_text="Codes of states of that feature, spaces between."
    )
    group = words_field("Heading it stands under", longest=80)
    basis = words_field("Standard or paper behind the term", longest=300)
    revision = revision_field()

    def __init__(self, *args, whole: Rows, base: Rows, may_maintain: bool, **kwargs):
        """`whole`: the feature as it is wanted so far; `base`: as it stood when the draft was begun, empty for new. Who
        is no author is asked for small things only, and nothing else is read of what they send."""
        super().__init__(*args, initial=first_values(whole) | kwargs.pop("initial", {}), **kwargs)
        self.whole, self.base = whole, base
        self.fields["cites"].known = dict(Source.objects.values_list("code", "pk"))
        homes = list(GarmentType.objects.order_by("position", "code"))
        self.fields["types"].choices = [(one.code, one.name) for one in homes]
        others = Feature.objects.order_by("name", "code").values_list("code", "name")
        self.fields["parent"].choices = [("", "nothing: it is there by itself")] + [
            (code, f"{name} ({code})") for code, name in others
        ]
        if base:
            for name in OF_A_NEW_ONE:
                del self.fields[name]
        if not may_maintain:
            self.fields = {
                name: field for name, field in self.fields.items() if name in APART or name in SMALL_OF_FEATURE
            }
            return
        self.add_places({one.garment_class for one in homes if one.code in row_of(whole, "types")})

    def add_places(self, outlines: set[str]) -> None:
        """A choice for each place that there is, and free ones."""
        held = row_of(self.whole, "places")
        choices = place_choices(outlines, held)
        for n in range(len(held) + FREE_PLACES):
            self.fields[f"place_{n}"] = forms.ChoiceField(
                label="Where to look" if n == 0 else "and", choices=choices, required=False,
                widget=PlaceRadios(outlines=tuple(sorted(outlines)), first=n == 0, between=BETWEEN),
                initial=BETWEEN.join(held[n]) if n < len(held) else "",
            )  # fmt: skip

    def clean_shown_when(self) -> list[str]:
        return sorted(set(self.cleaned_data["shown_when"].split()))

    def rows(self) -> Rows:
        """The fields that are asked as rows of a feature, without its states."""
        given = self.cleaned_data
        rows = {
            name: value.replace("\r\n", "\n").strip() if isinstance(value, str) else value
            for name, value in given.items()
            if name not in APART and not name.startswith("place_")
        }
        if "types" not in given:
            return rows
        places = [value.split(BETWEEN) for name, value in given.items() if name.startswith("place_") and value]
        known = [value for value, _ in self.fields["types"].choices]
        return rows | {
            "places": [list(place) for place in dict.fromkeys(map(tuple, places))],
            "types": [code for code in known if code in given["types"]],
        }

    def shown(self) -> list[dict]:
        """The fields for the page, each with what stands today; places stand behind the types."""
        places = [field for field in self if field.name.startswith("place_")]
        found = []
        for field in self:
            if field.is_hidden or field in places:
                continue
            found.append({"field": field, "stands": self.stands(field.name), "group": field.name == "types"})
            if field.name == "types":
                found += [
                    {"field": one, "stands": self.stands("places") if n == 0 else None} for n, one in enumerate(places)
                ]
        return found

    def stands(self, name: str) -> str | None:
        """What is on record today, in words; None for what is no row, or of a feature that is new."""
        if not self.base or name in APART:
            return None
        return row_in_words(name, row_of(self.base, name), self.base)


def first_values(whole: Rows) -> dict[str, object]:
    plain = {name: value for name, value in whole.items() if not name.startswith(STATE)}
    return plain | {"shown_when": " ".join(row_of(whole, "shown_when"))}


def place_choices(outlines: set[str], held) -> list:
    """Regions of these outlines under their views; places of one type only stay as they are."""
    groups: dict[str, dict[str, str]] = {}
    for outline, view, code in all_regions():
        if outline in outlines:
            region = all_regions()[outline, view, code]
            groups.setdefault(view, {}).setdefault(BETWEEN.join(("", view, code)), region.label)
    known = {value for places in groups.values() for value in places}
    own = [(BETWEEN.join(place), place_in_words(place)) for place in held if BETWEEN.join(place) not in known]
    by_view = [(VIEW_WORDS.get(view, view), list(places.items())) for view, places in groups.items()]
    return [("", "nowhere"), *([("On record", own)] if own else []), *by_view]


class StateForm(forms.Form):
    """One state: its code, what is seen, and of a count or measure its band."""

    code = words_field("Code", longest=80)
    label = words_field("What is seen", longest=200)
    explained = words_field("What the trade word means", longest=300)
    label_says = words_field("What its label says, such as size:CODE", longest=300)
    low = forms.FloatField(label="From", required=False)
    high = forms.FloatField(label="to under", required=False)

    def clean_label_says(self):
        validate_label_says(self.cleaned_data["label_says"])
        return self.cleaned_data["label_says"]

    def clean(self):
        given = super().clean()
        if given.get("code") and not given.get("label") and not self.initial:
            self.add_error("label", "Write down what is seen.")
        if given.get("label") and not given.get("code"):
            self.add_error("code", "A state needs a code, as tab.")
        return given


class StateForms(forms.BaseFormSet):
    """The states of a feature and free ones behind; one whose words are emptied goes."""

    whole: Mapping[str, object]

    def add_fields(self, form, index):
        super().add_fields(form, index)
        if form.initial:
            form.fields["code"].disabled = True
        if row_of(self.whole, "kind") == FeatureKind.CHOICE:
            del form.fields["low"], form.fields["high"]

    def clean(self):
        codes = [form.cleaned_data.get("code") for form in self.forms if form.cleaned_data.get("label")]
        if twice := next((code for code in codes if codes.count(code) > 1), None):
            raise forms.ValidationError(f"The code {twice} stands there twice.")

    def rows(self) -> Rows:
        """Every state as a row; of one that goes, nothing."""
        rows: Rows = {key: None for key in self.whole if key.startswith(STATE)}
        place = max((one["position"] for one in states_of(self.whole).values()), default=-1)
        for form in self.forms:
            given = form.cleaned_data
            if not given.get("label"):
                continue
            key = f"{STATE}{given['code']}"
            held = self.whole.get(key)
            if held is None:
                place += 1
            rows[key] = {
                "label": given["label"].strip(), "low": given.get("low"), "high": given.get("high"),
                "drawing": held["drawing"] if held else "", "position": held["position"] if held else place,
            }  # fmt: skip
            rows[key] |= {name: said for name in ADDED_WORDS if (said := given.get(name, "").strip())}
        return rows


def state_forms(whole: Rows, data=None) -> StateForms:
    made = forms.formset_factory(StateForm, formset=StateForms, extra=FREE_STATES, max_num=200, absolute_max=200)
    first = [
        {"code": code, **{name: state.get(name, "") for name in ("label", *ADDED_WORDS, "low", "high")}}
        for code, state in states_of(whole).items()
    ]
    found = made(data, initial=first, prefix="state")
    found.whole = whole  # before the forms, which are made when they are first asked for
    return found


class NewFeatureForm(forms.Form):
    """What a new feature begins with."""

    home = forms.ChoiceField(label="First asked of", help_text="A garment type; others can be added.")
    code = WordsField(
        max_length=80,
        help_text="Short, as cuff_tab; it stands in addresses and spreadsheets for ever.",
        error_messages={"required": "A feature needs a code."},
    )
    name = WordsField(
        label="Trade word", max_length=200, error_messages={"required": "A feature needs its trade word."}
    )

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["home"].choices = list(GarmentType.objects.order_by("position", "code").values_list("code", "name"))
