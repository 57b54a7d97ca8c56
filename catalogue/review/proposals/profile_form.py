"""The profile of a proposal as a form: the features of the garment type, with what stands today beside each.

Authors choose states and all that belongs to them; other members add sources to what is recorded.
"""

from dataclasses import dataclass

from django.http import QueryDict

from catalogue.reference.admin_profiles import ProfileForm, sent
from catalogue.reference.facts import TypeFacts
from catalogue.reference.models import FeatureState, IssueVersion, Maker, Source
from catalogue.reference.spreadsheets.profiles import FIELDS, Cells
from catalogue.review.models import Proposal
from catalogue.review.proposals.composing import row_in_words
from catalogue.review.proposals.rules import row_of
from catalogue.review.proposals.standing import Rows
from catalogue.review.proposals.words import FEATURE

Typed = dict[int, dict[str, str]]


@dataclass
class ProposedProfile:
    """The form with what the proposal wants so far; `home` is the garment type as it stands."""

    proposal: Proposal
    home: TypeFacts
    form: ProfileForm

    def groups(self) -> list[dict]:
        """Features under their groups, each with what stands today and whether the proposal changes it.

        A group is open where something in it is changed, was typed so that it cannot be read, or is to be shown.
        """
        found = self.form.groups()
        for group in found:
            for row in group["rows"]:
                key = f"{FEATURE}{row['feature'].code}"
                row["stands"] = row_in_words(key, row_of(self.proposal.base, key), self.home)
                row["other"] = row_in_words(key, row_of(self.proposal.other_base, key), self.home)
                row["changed"] = key in self.proposal.rows
            states = {state["pk"] for row in group["rows"] for state in row["states"]}
            wanted = states & (self.form.unfolded | set(self.form.errors))
            group["number_changed"] = sum(row["changed"] for row in group["rows"])
            group["open"] = bool(wanted or group["number_changed"]) or len(found) == 1
        return found

    def rows(self) -> Rows | None:
        """The features as they are wanted now; None where something that was typed cannot be read."""
        cells = self.form.read()
        return None if self.form.errors else rows_of_cells(cells, self.form.states)


def begun(proposal: Proposal, home: TypeFacts) -> ProposedProfile:
    """As it is first shown."""
    form = ProfileForm(bare_version(proposal), None, typed_of(proposal))
    return ProposedProfile(proposal, home, form)


def filled(proposal: Proposal, home: TypeFacts, data: QueryDict, *, may_maintain: bool) -> ProposedProfile:
    """As it was sent. Of who only cites, nothing but sources is read, and only of states that are there."""
    form = sent(bare_version(proposal), None, data)
    if not may_maintain:
        held = typed_of(proposal)
        for state, own in held.items():
            given = data.get(f"s{state}-source_codes")
            own |= {} if given is None else {"source_codes": given.strip()}
        form.typed = {state: {name: text for name, text in own.items() if text} for state, own in held.items()}
    return ProposedProfile(proposal, home, form)


def bare_version(proposal: Proposal) -> IssueVersion:
    """What the form asks of a version: its garment type."""
    return proposal.version or IssueVersion(garment_type=proposal.garment_type, code=proposal.new_code)


def typed_of(proposal: Proposal) -> Typed:
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
    return plain | {name: text for name, text in lists.items() if text}


def rows_of_cells(cells: Cells, states: list[FeatureState]) -> Rows:
    """Cells by key of their state as rows, in the order of the states; the same as `rows_of_record` reads them."""
    makers, sources = ({pk: code for code, pk in table.objects.values_list("code", "pk")} for table in (Maker, Source))
    rows: Rows = {}
    for state in states:
        row = rows.setdefault(f"{FEATURE}{state.feature.code}", [])
        if state.pk in cells:
            fields, sizes, of_makers, cited = cells[state.pk]
            row.append(
                {
                    "state": state.code,
                    **dict(zip(FIELDS, fields, strict=True)),
                    "sizes": sizes,
                    "makers": sorted(makers[pk] for pk in of_makers),
                    "sources": [sources[pk] for pk in cited],
                }
            )
    return rows
