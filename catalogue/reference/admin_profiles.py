"""The form of a whole profile: a row for each feature of the garment type, its states with how often each.

What limits a state and what it rests on is folded away, and sent only for states that are chosen: a type has hundreds
of states, and a version shows a few of them.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from django import forms
from django.http import QueryDict

from catalogue.reference.models import FeatureState, IssueVersion, Maker, ProfileCell, Source, VersionRecord
from catalogue.reference.nearest import LONGEST_SHOWN
from catalogue.reference.spreadsheets.columns import FIRST_YEAR, LAST_YEAR, LONGEST_TEXT
from catalogue.reference.spreadsheets.faults import nearest
from catalogue.reference.spreadsheets.profiles import FIELDS, Cells, cells_of_record
from catalogue.reference.words import Certainty, HowOften, Stance
from catalogue.typed_words import WordsField

NOT_OF_ITS_MAKERS = "A state is limited to makers of the version. Add the maker to the version first."
# Of more unknown codes in one field only the number is told.
MOST_UNKNOWN_TOLD = 20
HOW_OFTEN = tuple(HowOften.values)
# What may be typed of a chosen state beside how often it occurs, in the order of the form.
DETAILS = (
    ("share", "Counted share"),
    ("certainty", "How sure"),
    ("source_codes", "Sources"),
    ("against_codes", "Sources against"),
    ("sizes", "Only sizes"),
    ("maker_codes", "Only makers"),
    ("first_year", "Only from"),
    ("last_year", "Only until"),
    ("note", "Note"),
)
Typed = dict[str, str]
Profile = dict[int, Typed]


class CodesField(WordsField):
    """Codes of other records, spaces between, as in the spreadsheets; read as their numbers. `known`: all there are."""

    def __init__(self, **kwargs):
        super().__init__(required=False, **kwargs)
        self.known: Mapping[str, int] = {}

    def clean(self, value):
        codes = list(dict.fromkeys(super().clean(value).split()))
        refuse_unknown(codes, self.known)
        return tuple(self.known[code] for code in codes)


def refuse_unknown(codes: Iterable[str], known: Iterable[str], what: str = "code") -> None:
    """Tells every code that is not there, each with the nearest that is, unless there are very many."""
    there = set(known)
    unknown = [code for code in dict.fromkeys(codes) if code not in there]
    told = []
    for code in unknown[:MOST_UNKNOWN_TOLD]:
        near = nearest(code, there)
        told.append(f"There is no {what} “{code[:LONGEST_SHOWN]}”.{f' Nearest: {near}.' if near else ''}")
    if len(unknown) > MOST_UNKNOWN_TOLD:
        told.append(f"{len(unknown) - MOST_UNKNOWN_TOLD} more are not there either.")
    if told:
        raise forms.ValidationError(told)


class CellForm(forms.ModelForm):
    """One state that the version shows."""

    source_codes = CodesField()
    against_codes = CodesField()
    maker_codes = CodesField()
    first_year = forms.IntegerField(required=False, min_value=FIRST_YEAR, max_value=LAST_YEAR)
    last_year = forms.IntegerField(required=False, min_value=FIRST_YEAR, max_value=LAST_YEAR)
    note = WordsField(required=False, max_length=LONGEST_TEXT)

    class Meta:
        model = ProfileCell
        fields = ["how_often", "share", "certainty", "sizes", "first_year", "last_year", "note"]

    def __init__(self, *args, sources: Mapping[str, int], makers: Mapping[str, int], **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["source_codes"].known = self.fields["against_codes"].known = sources
        self.fields["maker_codes"].known = makers

    def clean(self):
        """No source is for a state and against it."""
        given = super().clean()
        if set(given.get("source_codes", ())) & set(given.get("against_codes", ())):
            self.add_error("against_codes", "A source that supports this state cannot contradict it as well.")
        return given

    def as_cell(self) -> tuple:
        """The cell as `write_profile` takes it."""
        given = self.cleaned_data
        sizes = " ".join(given["sizes"].split())
        sources = given["source_codes"], given["against_codes"]
        return (tuple(given[name] for name in FIELDS), sizes, frozenset(given["maker_codes"]), *sources)


@dataclass
class ProfileForm:
    """A profile being written for a version. `typed` and `errors` by state and field. `made_by`: the version's makers,
    to which alone a state may be limited; none where they are not known or not asked."""

    version: IssueVersion
    begins_with: VersionRecord | None
    typed: Profile
    why: str = ""
    errors: dict[int, dict[str, list[str]]] = field(default_factory=dict)
    general: list[str] = field(default_factory=list)
    clash: list[dict] = field(default_factory=list)
    unfolded: set[int] = field(default_factory=set)
    made_by: frozenset[int] = frozenset()

    def unfold_chosen(self, held: Profile) -> None:
        """What the states rest on and what limits them is shown unfolded: of those that are not in `held`, which have
        had no such fields before; of every chosen one where none is new."""
        self.unfolded = {state for state in self.typed if state not in held} or set(self.typed)

    @cached_property
    def states(self) -> list[FeatureState]:
        """The states that the garment type's features have, in its reading order."""
        rows = FeatureState.objects.filter(feature__garment_types=self.version.garment_type_id)
        of_type = {link.feature_id: link.position for link in self.version.garment_type.type_features.all()}
        found = rows.select_related("feature").order_by("feature__position", "feature__code", "position", "code")
        return sorted(found, key=lambda state: of_type[state.feature_id])

    @cached_property
    def codes(self) -> dict[str, dict[str, int]]:
        return {
            "sources": dict(Source.objects.values_list("code", "pk")),
            "makers": dict(Maker.objects.values_list("code", "pk")),
        }

    def read(self) -> Cells:
        """The cells, where nothing is wrong with any; sets `errors` otherwise.

        What stands as in the record that the form begins with is taken from there and not judged again.
        """
        known = {state.pk for state in self.states}
        held, values = profile_of(self.begins_with), cells_of_record(self.begins_with)
        cells: Cells = {}
        for state, typed in self.typed.items():
            if state in known and typed == held.get(state):
                cells[state] = values[state]
                continue
            form = CellForm(typed, **self.codes)
            if state not in known:
                self.errors[state] = {"how_often": ["This state belongs to no feature of the garment type."]}
            elif form.is_valid() and self.made_by and not self.made_by.issuperset(form.cleaned_data["maker_codes"]):
                self.errors[state] = {"maker_codes": [NOT_OF_ITS_MAKERS]}
            elif form.is_valid():
                cells[state] = form.as_cell()
            else:
                self.errors[state] = {name or "how_often": list(words) for name, words in form.errors.items()}
        if self.errors:
            self.errors = {
                state: {("how_often" if name == "__all__" else name): words for name, words in found.items()}
                for state, found in self.errors.items()
            }
        return cells

    # ---- the page

    def groups(self) -> list[dict]:
        """Features under their groups, ready for the page."""
        rows: dict[int, dict] = {}
        for state in self.states:
            row = rows.setdefault(state.feature_id, {"feature": state.feature, "states": []})
            row["states"].append(self.state_row(state))
        groups: dict[str, list[dict]] = {}
        for row in rows.values():
            groups.setdefault(row["feature"].group or "other features", []).append(row)
        return [{"name": name, "rows": found} for name, found in groups.items()]

    def state_row(self, state: FeatureState) -> dict:
        typed, errors = self.typed.get(state.pk, {}), self.errors.get(state.pk, {})
        chosen = typed.get("how_often", "")
        return {
            "pk": state.pk,
            "code": state.code,
            "label": state.label,
            "chosen": chosen,
            "choices": [(word, word == chosen) for word in HOW_OFTEN],
            "errors": errors.get("how_often", []),
            "details": self.detail_rows(typed, errors) if chosen else [],
            "open": state.pk in self.unfolded or any(name != "how_often" for name in errors),
            "summary": summary(typed),
        }

    def detail_rows(self, typed: Typed, errors: Mapping[str, list[str]]) -> list[dict]:
        return [
            {"name": name, "label": label, "value": typed.get(name, ""), "errors": errors.get(name, [])}
            | ({"choices": [(key, label, key == typed.get(name)) for key, label in Certainty.choices]}
               if name == "certainty" else {})
            for name, label in DETAILS
        ]  # fmt: skip

    def faults(self) -> list[dict]:
        """Every complaint about a state, with where it stands."""
        named = {state.pk: f"{state.feature.name}, {state.label}" for state in self.states}
        labels = {name: label.lower() for name, label in DETAILS}
        return [
            {
                "state": state,
                "what": named.get(state, "an unknown state"),
                "field": labels.get(name, ""),
                "words": words,
            }
            for state, found in self.errors.items()
            for name, several in found.items()
            for words in several
        ]


def summary(typed: Typed) -> str:
    """What is folded away, in few words."""
    years = "–".join(filter(None, (typed.get("first_year"), typed.get("last_year"))))
    limits = [typed.get("sizes"), typed.get("maker_codes"), years]
    parts = [
        dict(Certainty.choices).get(typed.get("certainty", ""), ""),
        typed.get("source_codes", ""),
        f"against: {typed['against_codes']}" if typed.get("against_codes") else "",
        f"share {typed['share']}" if typed.get("share") else "",
        f"only {', '.join(one for one in limits if one)}" if any(limits) else "",
        "note" if typed.get("note") else "",
    ]
    return "; ".join(part for part in parts if part) or "carried over or asserted"


def begun(version: IssueVersion, record: VersionRecord | None) -> ProfileForm:
    """The form as it is first shown: with the cells of the record that it begins with."""
    return ProfileForm(version, record, profile_of(record))


def profile_of(record: VersionRecord | None) -> Profile:
    """The cells of a record as they would be typed."""
    if record is None:
        return {}
    cells = record.cells.prefetch_related("makers", "citations__source")
    return {cell.state_id: typed_cell(cell) for cell in cells}


def typed_cell(cell: ProfileCell) -> Typed:
    values = {name: getattr(cell, name) for name in (*FIELDS, "sizes")}
    found = {name: str(value) for name, value in values.items() if value not in (None, "")}
    found["maker_codes"] = " ".join(sorted(maker.code for maker in cell.makers.all()))
    for name, stance in (("source_codes", Stance.SUPPORTS), ("against_codes", Stance.CONTRADICTS)):
        found[name] = " ".join(one.source.code for one in cell.citations.all() if one.stance == stance)
    return {name: text for name, text in found.items() if text}


def sent(version: IssueVersion, record: VersionRecord | None, data: QueryDict) -> ProfileForm:
    """The form as it was sent, with all that was typed. A state's fields are `s`, its number, `-` and the field."""
    typed: Profile = {}
    names = {"how_often", *(name for name, _ in DETAILS)}
    for key, value in data.items():
        state, _, name = key.partition("-")
        if name in names and state[:1] == "s" and state[1:].isascii() and state[1:].isdigit() and value.strip():
            typed.setdefault(int(state[1:]), {})[name] = value.replace("\r\n", "\n").strip()
    chosen = {state: own for state, own in typed.items() if own.get("how_often")}
    return ProfileForm(version, record, chosen, data.get("why", "").strip())


# ---- a profile that others have changed meanwhile


def merge_with(form: ProfileForm, now: VersionRecord | None) -> None:
    """Brings what `now` changed into the form: states not touched follow it, others stay as they were typed."""
    opened, here = profile_of(form.begins_with), profile_of(now)
    for state in dict.fromkeys((*opened, *here, *form.typed)):
        was, is_, own = (one.get(state, {}) for one in (opened, here, form.typed))
        if was == is_ or is_ == own:
            continue
        touched = own != was
        if not touched:
            form.typed.pop(state, None)
            if is_:
                form.typed[state] = is_
        form.clash.append({"state": state, "opened": was, "now": is_, "typed": own, "yours": touched})
    named = {state.pk: state for state in FeatureState.objects.filter(pk__in=[one["state"] for one in form.clash])
             .select_related("feature")}  # fmt: skip
    for one in form.clash:
        state = named[one["state"]]
        one["what"] = f"{state.feature.name}: {state.label}"
        for name in ("opened", "now", "typed"):
            one[name] = in_words(one[name])
    form.begins_with = now


def in_words(typed: Typed) -> str:
    """A cell in words; empty where there is none."""
    if not typed.get("how_often"):
        return ""
    told = f"; note: {typed['note']}" if typed.get("note") else ""
    return f"{typed['how_often']}; {summary(typed | {'note': ''})}{told}"


def lines_between(before: VersionRecord | None, after: VersionRecord | None) -> list[list[str]]:
    """[feature and state, before, after] in words, of every state in which two records differ."""
    old, new = profile_of(before), profile_of(after)
    differing = [state for state in dict.fromkeys((*old, *new)) if old.get(state) != new.get(state)]
    rows = FeatureState.objects.filter(pk__in=differing).select_related("feature")
    return [
        [f"{row.feature.name}: {row.label}", in_words(old.get(row.pk, {})), in_words(new.get(row.pk, {}))]
        for row in rows.order_by("feature__position", "feature__code", "position")
    ]


def same_as(record: VersionRecord | None, cells: Cells) -> bool:
    return record is not None and cells_of_record(record) == cells


def read_groups(cells: Iterable[ProfileCell]) -> list[dict]:
    """The cells of an old record under the groups of their features, to be read."""
    groups: dict[str, dict[str, list[dict]]] = {}
    for cell in cells:
        feature = cell.state.feature
        rows = groups.setdefault(feature.group or "other features", {}).setdefault(feature.name, [])
        rows.append({"label": cell.state.label, "words": in_words(typed_cell(cell))})
    return [
        {"name": name, "rows": [{"feature": feature, "states": states} for feature, states in rows.items()]}
        for name, rows in groups.items()
    ]
