"""The profile of a proposal as a form: the features of the garment type, with what stands today beside each.

Authors choose states and all that belongs to them; other members add sources to what is recorded.
"""

from dataclasses import dataclass
from functools import cached_property

from django.http import QueryDict

from catalogue.figures.previews import Place, Preview, features_of, place_named, previews
from catalogue.reference.admin_profiles import ProfileForm, sent
from catalogue.reference.facts import TypeFacts
from catalogue.reference.models import FeatureState, IssueVersion, Maker, Source
from catalogue.reference.regions import VIEW_WORDS
from catalogue.reference.spreadsheets.profiles import FIELDS, Cells
from catalogue.reference.words import HowOften
from catalogue.review.proposals.composing import row_in_words, with_rows
from catalogue.review.proposals.rules import against_of, row_of
from catalogue.review.proposals.standing import Rows
from catalogue.review.proposals.words import FEATURE
from catalogue.review.proposals.written import Written

Typed = dict[int, dict[str, str]]
SEVERAL = "several"


@dataclass
class ProposedProfile:
    """The form with what the proposal wants so far; `home` is the garment type as it stands."""

    proposal: Written
    home: TypeFacts
    form: ProfileForm
    place: Place | None = None
    is_sent: bool = False
    feature: str = ""

    def groups(self) -> list[dict]:
        """Features under their groups, each with what stands today and whether the proposal changes it.

        What belongs to the chosen place comes first, as a group of its own. A group is open where something in it is
        changed, was typed so that it cannot be read, or is to be shown, as `feature` is.
        """
        found = self.form.groups()
        if self.place:
            here = {feature.code for feature in features_of(self.home, self.place)}
            rows = [row for group in found for row in group["rows"] if row["feature"].code in here]
            for group in found:
                group["rows"] = [row for row in group["rows"] if row["feature"].code not in here]
            name = f"{VIEW_WORDS[self.place.view]}: {self.place.words}"
            found = [{"name": name, "rows": rows, "here": True}, *(group for group in found if group["rows"])]
        for group in found:
            for row in group["rows"]:
                key = f"{FEATURE}{row['feature'].code}"
                row["stands"] = row_in_words(key, row_of(self.proposal.today, key), self.home)
                row["other"] = row_in_words(key, row_of(self.proposal.other_today, key), self.home)
                if key in self.proposal.moved:
                    row["begun"] = row_in_words(key, self.proposal.moved[key], self.home) or "not recorded"
                row["changed"] = key in self.proposal.rows
                row["asked"] = row["feature"].code == self.feature
                row["one"] = self.one_state(row["states"])
                known = self.home.features[row["feature"].code].state_by_code
                for state in row["states"]:
                    state["facts"] = known[state["code"]]
            states = {state["pk"] for row in group["rows"] for state in row["states"]}
            wanted = states & (self.form.unfolded | set(self.form.errors))
            group["number_changed"] = sum(row["changed"] for row in group["rows"])
            asked = any(row["asked"] for row in group["rows"])
            group["open"] = bool(wanted or group["number_changed"] or group.get("here") or asked) or len(found) == 1
        return found

    def one_state(self, states: list[dict]) -> int | str:
        """What is chosen of a feature by one tap: the number of the state that it always shows, "" for not recorded,
        SEVERAL for anything else."""
        chosen = [state for state in states if state["chosen"]]
        if not chosen:
            return ""
        return chosen[0]["pk"] if [one["chosen"] for one in chosen] == [HowOften.ALWAYS] else SEVERAL

    @cached_property
    def readable(self) -> Rows:
        """The features as they are wanted now, without the cells that cannot be read."""
        if not self.is_sent:  # what was saved was read then
            return {key: row for key, row in self.proposal.rows.items() if key.startswith(FEATURE)}
        return rows_of_cells(self.form.read(), self.form.states)

    def rows(self) -> Rows | None:
        """The features as they are wanted now; None where something that was typed cannot be read."""
        rows = self.readable
        return None if self.form.errors else rows

    def figures(self) -> list[Preview]:
        """The version drawn as it is written so far, what the proposal changes marked."""
        known = self.proposal.known_in(self.home)
        base = self.proposal.base
        version = with_rows(self.home, known, {**base, **self.proposal.rows, **self.readable})
        changed = {key.removeprefix(FEATURE) for key, row in self.readable.items() if base and row != row_of(base, key)}
        return previews(self.home, version, changed, self.place)


def begun(proposal: Written, home: TypeFacts, *, feature: str = "") -> ProposedProfile:
    """As it is first shown, open at a feature."""
    form = ProfileForm(bare_version(proposal), None, typed_of(proposal))
    return ProposedProfile(proposal, home, form, feature=feature)


def filled(proposal: Written, home: TypeFacts, data: QueryDict, *, may_maintain: bool) -> ProposedProfile:
    """As it was sent. Of who only cites, nothing but sources is read, and only of states that are there."""
    version = bare_version(proposal)
    form = sent(version, None, with_taps(data, version))
    if not may_maintain:
        held = typed_of(proposal)
        for state, own in held.items():
            for name in ("source_codes", "against_codes"):
                given = data.get(f"s{state}-{name}")
                own |= {} if given is None else {name: given.strip()}
        form.typed = {state: {name: text for name, text in own.items() if text} for state, own in held.items()}
    return ProposedProfile(proposal, home, form, place_named(home, data.get("_place", "")), is_sent=True)


def with_taps(data: QueryDict, version: IssueVersion) -> QueryDict:
    """The form with what was chosen by one tap written out: `f`, a feature's number, is the number of the state that it
    always shows, nothing for not recorded, or SEVERAL, which leaves to each state what was chosen of it."""
    taps = {key[1:]: data[key] for key in data if key[:1] == "f" and key[1:].isascii() and key[1:].isdigit()}
    if not taps:
        return data
    written = data.copy()
    states = FeatureState.objects.filter(feature__garment_types=version.garment_type).values_list("pk", "feature_id")
    for state, feature in states:
        tap = taps.get(str(feature), SEVERAL)
        if tap != SEVERAL:
            written[f"s{state}-how_often"] = HowOften.ALWAYS if tap == str(state) else ""
    return written


def bare_version(proposal: Written) -> IssueVersion:
    """What the form asks of a version: its garment type."""
    return proposal.version or IssueVersion(garment_type=proposal.garment_type, code=proposal.code)


def typed_of(proposal: Written) -> Typed:
    """The cells that are wanted so far as they would be typed, by state."""
    whole = {**proposal.base, **proposal.rows}
    keys = {
        (feature, code): pk
        for feature, code, pk in FeatureState.objects.filter(
            feature__garment_types=proposal.garment_type
        ).values_list("feature__code", "code", "pk")
    }  # fmt: skip
    found: Typed = {}
    for key, value in whole.items():
        if key.startswith(FEATURE):
            for cell in value:
                if state := keys.get((key.removeprefix(FEATURE), cell["state"])):
                    found[state] = typed_cell(cell)
    return found


def typed_cell(cell: dict) -> dict[str, str]:
    plain = {name: str(cell[name]) for name in (*FIELDS, "sizes") if cell[name] not in (None, "")}
    lists = {"maker_codes": " ".join(cell["makers"]), "source_codes": " ".join(cell["sources"])}
    lists["against_codes"] = " ".join(cell.get("against", ()))
    return plain | {name: text for name, text in lists.items() if text}


def rows_of_cells(cells: Cells, states: list[FeatureState]) -> Rows:
    """Cells by key of their state as rows, in the order of the states; the same as `rows_of_record` reads them."""
    makers, sources = ({pk: code for code, pk in table.objects.values_list("code", "pk")} for table in (Maker, Source))
    rows: Rows = {}
    for state in states:
        row = rows.setdefault(f"{FEATURE}{state.feature.code}", [])
        if state.pk in cells:
            fields, sizes, of_makers, cited, against = cells[state.pk]
            row.append(
                {
                    "state": state.code,
                    **dict(zip(FIELDS, fields, strict=True)),
                    "sizes": sizes,
                    "makers": sorted(makers[pk] for pk in of_makers),
                    "sources": [sources[pk] for pk in cited],
                    **against_of([sources[pk] for pk in against]),
                }
            )
    return rows
