"""The demo society's pieces: written in bulk, since they come from files that were checked, and never twice.

The files say what members sent in and what moderators decided. What each piece truly is stands in none of them.
"""

import csv
from collections import defaultdict
from datetime import UTC, datetime, timedelta
from pathlib import Path

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.models import (
    Alteration,
    Attribution,
    Example,
    ExampleDecision,
    ExampleInSet,
    ExampleSet,
    Label,
    Measurement,
    Observation,
    ShadePair,
)
from catalogue.member_examples.models.particulars import bare_text
from catalogue.member_examples.models.shades import MEASURED
from catalogue.member_examples.words import Answer, AttributedBy, DecisionKind, ExampleState, Held
from catalogue.reference.demo import DEMO_FOLDER
from catalogue.reference.models import Feature, FeatureState, GarmentType, IssueVersion, Maker, ReferenceState

PIECES = DEMO_FOLDER / "member_examples"
BATCH = 2_000
CLAIMED = "Claimed when the piece was sent in; no grounds were written down."


class Files:
    """The rows of each file by example, and the records they name by code."""

    def __init__(self, folder: Path):
        self.examples = rows(folder / "examples.csv")
        self.sets = rows(folder / "sets.csv")
        self.by_example = {
            name: grouped(rows(folder / f"{name}.csv"))
            for name in ("labels", "alterations", "measurements", "observations", "decisions", "shades")
        }
        self.types = by_code(GarmentType)
        self.versions = by_code(IssueVersion)
        self.makers = by_code(Maker)
        self.features = by_code(Feature)
        self.states = {
            (feature, code): pk for pk, feature, code in FeatureState.objects.values_list("pk", "feature__code", "code")
        }
        self.members = self.members_named()

    def members_named(self) -> dict[str, Member]:
        """Everybody the files name; who has no account yet gets one that nobody can sign in with."""
        observers = {row["observer"] for found in self.by_example["observations"].values() for row in found}
        names = {row["owner"] for row in self.examples} | observers | {row["made_by"] for row in self.sets}
        names |= {row["moderator"] for found in self.by_example["decisions"].values() for row in found}
        known = {member.username: member for member in Member.objects.filter(username__in=names)}
        for name in sorted(names - set(known)):
            member = Member(username=name)
            member.set_unusable_password()
            member.save()
            known[name] = member
        return known


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def grouped(found: list[dict[str, str]]) -> dict[str, list[dict[str, str]]]:
    groups: dict[str, list[dict[str, str]]] = defaultdict(list)
    for row in found:
        groups[row["example"]].append(row)
    return groups


def by_code(model) -> dict[str, object]:
    return {row.code: row for row in model.objects.all()}


def noon(date: str) -> datetime:
    """Noon of the first day that an EDTF date may mean."""
    year, month, day = (*map(int, date[:10].strip("~?%").split("-")), 1, 1)[:3]
    return datetime(year, month, day, 12, tzinfo=UTC)


@transaction.atomic
def load_demo_examples(folder: Path = PIECES) -> int:
    """The pieces that are not there yet, with all that hangs on them. Returns how many; 0 writes nothing."""
    there = set(Example.objects.values_list("code", flat=True))
    if all(row["example"] in there for row in rows(folder / "examples.csv")):
        return 0
    files = Files(folder)
    new = [row for row in files.examples if row["example"] not in there]
    made = Example.objects.bulk_create([example_of(row, files) for row in new], batch_size=BATCH)
    write_particulars(made, files)
    write_opinions(made, new, files)
    write_sets(files)
    ReferenceState.mark_changed()
    return len(made)


def example_of(row: dict[str, str], files: Files) -> Example:
    claimed = files.versions[row["claimed_version"]] if row["claimed_version"] else None
    by_seller = claimed is not None and row["claimed_by"] == "seller"
    kept = next((d["held_as"] for d in files.by_example["decisions"][row["example"]] if d["held_as"]), "")
    seen = noon(row["seen_on"])
    return Example(
        code=row["example"],
        owner=files.members[row["owner"]],
        garment_type=files.types[row["type"]],
        state=row["state"],
        held_as=files.versions[kept] if kept else None,
        sold_as=claimed.name if by_seller else "",
        sold_as_version=claimed if by_seller else None,
        maker=files.makers[row["maker"]] if row["maker"] else None,
        label_year=int(row["label_year"]) if row["label_year"] else None,
        contract=row["contract"],
        size_mark=row["size_mark"],
        condition=row["condition"],
        name_on_label=row["name_on_label"],
        provenance=row["provenance"],
        seen_on=row["seen_on"],
        venue=row["venue"],
        times_sent=1,
        made_at=seen,
        changed_at=seen,
        submitted_at=seen,
    )


def write_particulars(made: list[Example], files: Files) -> None:
    """Labels, measurements, shades and alterations."""
    labels, lengths, altered, shades = [], [], [], []
    for example in made:
        for place, row in enumerate(files.by_example["labels"][example.code]):
            given = {k: row[k] for k in ("kind", "place", "text", "remark", "attachment", "origin")}
            labels.append(Label(example=example, bare=bare_text(row["text"]), position=place, **given))
        for row in files.by_example["measurements"][example.code]:
            lengths.append(Measurement(example=example, what=row["what"], mm=int(row["mm"]), by_id=example.owner_id))
        for row in files.by_example["shades"][example.code]:
            shades.append(ShadePair(example=example, **{name: float(row[name]) for name in MEASURED}))
        for place, row in enumerate(files.by_example["alterations"][example.code]):
            given = {k: row[k] for k in ("kind", "part", "view", "region", "traces", "by")}
            altered.append((Alteration(example=example, position=place, **given), row["features"].split()))
    Label.objects.bulk_create(labels, batch_size=BATCH)
    Measurement.objects.bulk_create(lengths, batch_size=BATCH)
    ShadePair.objects.bulk_create(shades, batch_size=BATCH)
    kept = Alteration.objects.bulk_create([one for one, _ in altered])
    through = Alteration.features.through
    through.objects.bulk_create(
        through(alteration=one, feature=files.features[code])
        for one, (_, codes) in zip(kept, altered, strict=True)
        for code in codes
    )


def write_opinions(made: list[Example], new: list[dict[str, str]], files: Files) -> None:
    """What was seen, claimed and decided."""
    looks, opinions, decisions = [], [], []
    for example, row in zip(made, new, strict=True):
        looks += [look_of(one, example, files) for one in files.by_example["observations"][example.code]]
        if row["claimed_version"] and row["claimed_by"] == "owner":
            opinions.append(
                Attribution(
                    example=example,
                    member_id=example.owner_id,
                    version=files.versions[row["claimed_version"]],
                    grounds=CLAIMED,
                    made_at=example.submitted_at,
                )
            )
        for one in files.by_example["decisions"][example.code]:
            decisions.append(decision_of(one, example, files))
            if one["decision"] == DecisionKind.ACCEPTED:
                opinions.append(
                    Attribution(
                        example=example,
                        by=AttributedBy.SOCIETY,
                        member=files.members[one["moderator"]],
                        held=Held.VERSION if one["held_as"] else Held.NOT_IN_REFERENCE,
                        version=files.versions.get(one["held_as"]),
                        grounds=one["grounds"] or one["reason"],
                        made_at=noon(one["on"]),
                    )
                )
    Observation.objects.bulk_create(looks, batch_size=BATCH)
    Attribution.objects.bulk_create(opinions, batch_size=BATCH)
    ExampleDecision.objects.bulk_create(decisions, batch_size=BATCH)


def look_of(row: dict[str, str], example: Example, files: Files) -> Observation:
    observer = files.members[row["observer"]]
    later = timedelta(0) if observer.pk == example.owner_id else timedelta(days=1)
    return Observation(
        example=example,
        observer=observer,
        feature=files.features[row["feature"]],
        answer=row["answer"],
        state_id=files.states[row["feature"], row["state"]] if row["answer"] == Answer.SEEN else None,
        value=float(row["value"]) if row["value"] else None,
        made_at=example.submitted_at + later,
    )


def decision_of(row: dict[str, str], example: Example, files: Files) -> ExampleDecision:
    return ExampleDecision(
        example=example,
        moderator=files.members[row["moderator"]],
        owner_id=example.owner_id,
        decision=row["decision"],
        held_as=files.versions.get(row["held_as"]),
        reason=row["reason"],
        sending=1,
        made_at=noon(row["on"]),
    )


def write_sets(files: Files) -> None:
    """The sets that are not there yet and whose pieces are."""
    there = set(ExampleSet.objects.values_list("code", flat=True))
    pieces = {example.code: example for example in Example.objects.exclude(state=ExampleState.DRAFT)}
    for row in files.sets:
        codes = row["examples"].split()
        if row["set"] in there or not all(code in pieces for code in codes):
            continue
        made = ExampleSet.objects.create(
            code=row["set"],
            name=row["name"],
            together=row["together"],
            fasten=row["fasten"],
            grounds=row["grounds"],
            made_by=files.members[row["made_by"]],
        )
        ExampleInSet.objects.bulk_create(
            ExampleInSet(example_set=made, example=pieces[code], position=place) for place, code in enumerate(codes)
        )
