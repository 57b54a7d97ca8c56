"""What the page of one piece shows."""

from collections import defaultdict

from django.db.models import prefetch_related_objects

from catalogue.member_examples.actions.alterations import may_confirm
from catalogue.member_examples.comparing import Beside, compared
from catalogue.member_examples.evidence import Said
from catalogue.member_examples.gates import is_member, is_moderator, may_remove_names, owns, sees_unmasked
from catalogue.member_examples.lengths import in_words
from catalogue.member_examples.models import Example
from catalogue.member_examples.pictures import picture_of
from catalogue.member_examples.sets.page import sets_of_piece
from catalogue.member_examples.shades import shades_of_piece
from catalogue.member_examples.sold_as import sold_as_another
from catalogue.member_examples.titles import altered_at, altered_words, title_of
from catalogue.member_examples.words import (
    Answer,
    AttributedBy,
    DecisionKind,
    ExampleState,
    Held,
    NameOnLabel,
)
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.snapshots import type_facts
from catalogue.reference.uncertain_dates import in_words as date_in_words

TALLIED = {
    Beside.AGREES: "agree",
    Beside.DISAGREES: "disagree",
    Beside.NOT_RECORDED: "not in the record",
    Beside.ALTERED: "altered",
    Beside.DISPUTED: "seen differently by different people",
    Beside.GONE: "gone",
    Beside.SAYS_NOTHING: "could not be told",
}
YES_NO = {True: "yes", False: "no", None: ""}


def example_context(person, example: Example, *, number: int) -> dict:
    """Everything the template needs, as far as this person may see it."""
    facts = type_facts(example.garment_type.code, number=number) if example.garment_type else None
    version = facts.versions.get(example.held_as.code) if facts and example.held_as else None
    prefetch_related_objects([example], "alterations__features", "alterations__added_by", "alterations__confirmed_by")
    alterations = list(example.alterations.all())
    groups, tally, observers = looks(example, facts, version, alterations)
    unmasked = sees_unmasked(person, example)
    return {
        "example": example,
        "facts": facts,
        "version": version,
        "number": number,
        "title": title_of(example),
        "is_owner": owns(person, example),
        "is_member": is_member(person),
        "not_as_sold": sold_as_another(example, number=number),
        "accepted": example.state == ExampleState.ACCEPTED,
        "type_address": address_of("type", facts.code) if facts else "",
        "version_address": address_of("version", version.code) if version else "",
        "maker_address": address_of("maker", example.maker.code) if example.maker else "",
        "pictures": pictures(example, unmasked=unmasked),
        "groups": groups,
        "tally": tally,
        "observers": observers,
        "labels": labels(example, unmasked=unmasked),
        "name_hidden": example.name_on_label == NameOnLabel.TO_MASK and not unmasked,
        "lengths": [
            {
                "what": one.get_what_display(),
                "words": in_words(one.mm),
                "from": one.measured_from,
                "by": one.by.username if one.by else "",
            }
            for one in example.measurements.select_related("by")
        ],
        "shades": shades_of_piece(example),
        "seen_on": date_in_words(example.seen_on),
        "alterations": [alteration_row(example, one, person) for one in alterations],
        "altered": altered_words(one for one in alterations if one.counts),
        "condition_notes": condition_notes(example),
        "names_removed": names_removed(example),
        "may_remove_names": may_remove_names(person, example),
        "attributions": attributions(example),
        "decisions": decisions(example),
        "sets": sets_of_piece(person, example),
    }


def names_removed(example: Example) -> list:
    """The days on which personal data were removed because somebody asked."""
    notes = example.hidden_names.filter(on_request=True).values_list("made_at", flat=True)
    return sorted({made_at.date() for made_at in notes})


def pictures(example: Example, *, unmasked: bool) -> list:
    rows = example.photographs.all() if unmasked else example.photographs.filter(hidden=False)
    return [picture for row in rows if (picture := picture_of(row))]


def looks(
    example: Example, facts: TypeFacts | None, version: VersionFacts | None, alterations: list
) -> tuple[list[dict], dict[str, int], list[str]]:
    """Rows by group of features; how many agree, disagree and so on; who looked."""
    if facts is None:
        return [], {}, []
    altered = {feature.code for one in alterations if one.counts for feature in one.features.all()}
    rows = example.observations.select_related("observer", "feature", "state").order_by("pk")
    by_feature: dict[str, list] = defaultdict(list)
    for row in rows:
        by_feature[row.feature.code].append(row)
    groups: dict[str, list[dict]] = {}
    tally = dict.fromkeys(Beside, 0)
    for code, feature in facts.features.items():
        told = by_feature.get(code)
        if not told or all(one.answer == Answer.NO_SUCH_PART for one in told):
            continue
        row = look_row(feature, told, version, altered=code in altered)
        tally[row["compared"].beside] += 1
        groups.setdefault(feature.group or "features", []).append(row)
    observers = list(dict.fromkeys(row.observer.username for row in rows))
    shown = {TALLIED[beside]: count for beside, count in tally.items() if count}
    return [{"name": name, "rows": rows} for name, rows in groups.items()], shown, observers


def look_row(feature: FeatureFacts, told: list, version: VersionFacts | None, *, altered: bool) -> dict:
    cells = version.cells.get(feature.code, ()) if version else ()
    said = [Said(str(one.observer_id), one.answer, one.state.code if one.state else "") for one in told]
    found = compared(said, [cell.state for cell in cells], altered=altered)
    seen = next((one.state for one in told if one.state and one.state.code == found.agreed), None)
    last = {one.observer_id: one for one in told}
    plainly = found.agreed and all(one.state_id == seen.pk and one.value is None and not one.note for one in told)
    recorded = [cell.label for cell in cells]
    return {
        # Where everybody says the same, their names are enough; so is the record where it says no more than they do.
        "alike": ", ".join(dict.fromkeys(one.observer.username for one in told)) if plainly else "",
        "feature": feature,
        "compared": found,
        "seen": seen,
        "drawing": seen.drawing if seen else "",
        "told": [
            {
                "who": one.observer.username,
                "what": told_words(one, feature),
                "note": one.note,
                "earlier": last[one.observer_id] is not one,
            }
            for one in told
        ],
        "recorded": "" if found.agreed and recorded == [seen.label] else " or ".join(recorded),
    }


def told_words(one, feature: FeatureFacts) -> str:
    """What one person said, with the number behind it."""
    if one.answer != Answer.SEEN:
        return Answer(one.answer).label.lower()
    words = one.state.label if one.state else ""
    if one.value is not None:
        words = f"{words} ({one.value:g} {feature.unit})".strip()
    return words


def labels(example: Example, *, unmasked: bool) -> list[dict]:
    """Labels with their text, unless a name stands on them that is not yet masked."""
    hide = example.name_on_label == NameOnLabel.TO_MASK and not unmasked
    return [
        {
            "kind": one.get_kind_display(),
            "place": one.place,
            "text": "" if hide else one.text,
            "remark": one.remark,
            "attachment": one.get_attachment_display() if one.attachment != "not_known" else "",
            "origin": one.get_origin_display() if one.origin != "not_known" else "",
        }
        for one in example.labels.all()
    ]


def alteration_row(example: Example, one, person) -> dict:
    """`added_by`: who added it once the piece was accepted, empty in the owner's record; `confirmed_by`: who else holds
    it to be so."""
    mine = one.added_by_id is not None and (one.added_by_id == person.pk or is_moderator(person))
    return {
        "number": one.pk,
        "added_by": one.added_by.username if one.added_by else "",
        "added_at": one.added_at,
        "counts": one.counts,
        "confirmed_by": one.confirmed_by.username if one.confirmed_by_id not in (None, one.added_by_id) else "",
        "may_take_back": mine,
        "may_confirm": one.added_by_id is not None and may_confirm(person, example),
        "words": altered_words([one]),
        "where": altered_at(example, one),
        "by": one.get_by_display().lower() if one.by != "not_known" else "",
        "traces": one.traces,
        "features": ", ".join(feature.name.lower() for feature in one.features.all()),
    }


def condition_notes(example: Example) -> list[tuple[str, str]]:
    """The yes and no of condition that were recorded."""
    pairs = [
        ("Complete", example.complete),
        ("Label legible", example.label_legible),
        ("Smell or mould", example.mould),
    ]
    return [(words, YES_NO[value]) for words, value in pairs if value is not None]


def attributions(example: Example) -> list[dict]:
    """Every opinion in order of time; of each holder the last one stands, earlier ones stay readable. The same that
    somebody says again, word for word, is shown once, with all its days."""
    rows = list(example.attributions.select_related("member", "version"))
    said: dict[tuple, list] = {}
    last_said: dict[tuple, tuple] = {}
    for row in rows:
        holder = holder_of(row)
        words = (holder, row.version_id, row.held, row.grounds, chance_words(row))
        # What stood between the two, of the same holder, keeps them apart: they changed their mind and came back.
        key = last_said[holder] if last_said.get(holder, ())[:-1] == words else (*words, row.pk)
        last_said[holder] = key
        said.setdefault(key, []).append(row)
    standing = set(last_said.values())
    return [
        {
            "who": who_holds(row),
            "what": row.version.name if row.version else Held(row.held).label,
            "code": row.version.code if row.version else "",
            "address": address_of("version", row.version.code) if row.version else "",
            "grounds": row.grounds,
            "chance": chance_words(row),
            "on": list({one.made_at.date(): one.made_at for one in same}.values()),
            "superseded": key not in standing,
        }
        for key, same in said.items()
        for row in same[:1]
    ]


def chance_words(row) -> str:
    return f"{row.chance:.0%}" if row.chance is not None else ""


def holder_of(row) -> tuple:
    return (row.by == AttributedBy.MEMBER and row.member_id, row.by)


def who_holds(row) -> str:
    if row.by == AttributedBy.ENGINE:
        return "The site's own identification"
    return f"The society, decided by {row.member.username}" if row.by == AttributedBy.SOCIETY else row.member.username


def decisions(example: Example) -> list[dict]:
    return [
        {
            "what": DecisionKind(row.decision).label,
            "by": row.moderator.username,
            "on": row.made_at,
            "reason": row.reason,
            "held_as": row.held_as.name if row.held_as else "",
        }
        for row in example.decisions.select_related("moderator", "held_as")
    ]
