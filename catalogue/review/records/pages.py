"""What the pages of a version's history show."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import timedelta

from django.utils.formats import date_format
from django.utils.timezone import localdate

from catalogue.figures.figure import draw_version
from catalogue.long_lists import page_of
from catalogue.reference.addresses import address_of
from catalogue.reference.changes import Changes, changes, in_a_sentence
from catalogue.reference.comparison import DOES_NOT_APPLY, NOT_RECORDED, cell_words
from catalogue.reference.facts import CellFacts, FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.models import VersionRecord
from catalogue.reference.version_page import grounds_of, profile, source_row, state_words
from catalogue.review.proposals.composing import row_in_words
from catalogue.review.proposals.deciders import titles_cited, told_of_decision
from catalogue.review.proposals.rules import row_of
from catalogue.review.proposals.words import FIELD_WORDS
from catalogue.review.records.addresses import record_address
from catalogue.review.records.deeds import READ_WITH, decision_behind, deeds_of, written_by
from catalogue.review.records.reading import ReadRecord, read_record

A_PAGE_OF_RECORDS = 20
# What a seal holds of the version itself, by the names of a proposal's rows.
SEALED = ("name", "kind", "date", "certainty")
SHOWN_OF_A_DIGEST = 12
# A record from before there were seals, or one whose seal was made by hand, was sealed later than it was written.
SEALED_WITH_IT = timedelta(hours=1)


def records_of(version: VersionFacts):
    """Every record of a version with its seal, newest first."""
    rows = VersionRecord.objects.filter(version__code=version.code).order_by("-number")
    decided = rows.select_related("written_by", "seal", *READ_WITH)
    return decided.prefetch_related(
        "decision__proposal__decisions__by",
        "decision__proposal__decisions__in_place_of",
        "further__decision__proposal__decisions__by",
        "further__decision__proposal__decisions__in_place_of",
        "looks__by",
    )


# ---- the list


def history_context(home: TypeFacts, version: VersionFacts, asked: str | None) -> dict:
    """A page of records, each with what it changed."""
    rows = records_of(version)
    page, odd_page = page_of(asked, rows, A_PAGE_OF_RECORDS)
    # The one before the last of this page, for what that one changed.
    shown = [*page, *rows[page.end_index() : page.end_index() + 1]]
    read = [read_record(row, home, version) for row in shown]
    titles = titles_cited(decision_behind(row) for row in page)
    pairs = zip(read, [*read[1:], None], strict=False)
    listed = [history_row(one, before, titles) for one, before in pairs][: len(page)]
    return {
        "facts": home,
        "version": version,
        "version_address": address_of("version", version.code),
        "page": page,
        "odd_page": odd_page,
        "keep": "",
        "rows": listed,
    }


def history_row(one: ReadRecord, before: ReadRecord | None, titles: Mapping[str, str]) -> dict:
    row = head_of(one, titles)
    row["sources"] = [source_row(source, 0) for source in one.sources]
    if before:
        made = changes(one.home, before.version, one.version)
        row["notes"] = made.notes
        row["others"] = other_words(one, before, made) + unsealed_words(one)
        row["before"] = before.record.number
        row["compare"] = f"{row['address']}?with={before.record.number}"
    return row


def head_of(one: ReadRecord, titles: Mapping[str, str]) -> dict:
    """Who, when, why, what it did beside its features, and the seal. `titles`: of the sources of its proposal."""
    record, version = one.record, one.version
    seal = getattr(record, "seal", None)
    return {
        "number": record.number,
        "address": record_address(version.code, record.number),
        "made_at": record.made_at,
        "who": record.written_by.username if record.written_by else "",
        "why": record.why,
        "reviewed": reviewed_words(record),
        "stands": one.stands,
        "recorded": one.recorded,
        "intact": one.intact,
        "digest": seal.digest if seal else "",
        "digest_begins": seal.digest[:SHOWN_OF_A_DIGEST] if seal else "",
        "seal_number": seal.number if seal else None,
        "decided": decided_by(record, titles),
        "deeds": deeds_of(record),
        "looks": list(record.looks.all()),
        "sealed_later": seal.sealed_at if seal and seal.sealed_at - record.made_at > SEALED_WITH_IT else None,
    }


def reviewed_words(record: VersionRecord) -> str:
    """Approved, looked through by whom and when, or not reviewed."""
    if record.standing == VersionRecord.Standing.APPROVED:
        return "approved"
    looks = list(record.looks.all())
    if looks and looks[-1].passed:
        return f"looked through by {looks[-1].by.username} on {date_format(localdate(looks[-1].made_at), 'j F Y')}"
    return "not reviewed"


def decided_by(record: VersionRecord, titles: Mapping[str, str]) -> dict | None:
    """The proposal that the record came from, its sources and the people who decided on it; None for a record without
    one."""
    decision = decision_behind(record)
    return told_of_decision(decision, titles) if decision else None


def unsealed_words(one: ReadRecord) -> list[str]:
    """What a decision changed of the version beside its features and what the seal holds: names, notes, sources."""
    decision = written_by(one.record)
    keys = [key for key in FIELD_WORDS if key not in SEALED and decision and key in decision.after]
    return row_words(keys, decision.before, decision.after, one.home) if keys else []


def unsealed_between(rows: Sequence[VersionRecord], after: int, to: int, home: TypeFacts) -> list[str]:
    """The same, of all decisions behind the records from the one after number `after` to number `to`."""
    was, now = {}, {}
    for row in sorted(rows, key=lambda one: one.number):
        decision = written_by(row)
        if decision and after < row.number <= to:
            was = {**decision.before, **was}
            now |= decision.after
    return row_words([key for key in FIELD_WORDS if key in now and key not in SEALED], was, now, home)


def said_then(rows: Sequence[VersionRecord], number: int, home: TypeFacts) -> list[dict]:
    """What a record's version said beside its features, where a later decision changed that."""
    was = {}
    for row in sorted(rows, key=lambda one: one.number):
        decision = written_by(row)
        if decision and row.number > number:
            was = {**decision.before, **was}
    return [
        {"name": words, "words": row_in_words(key, row_of(was, key), home)}
        for key, words in FIELD_WORDS.items()
        if key in was and key not in SEALED
    ]


def sealed_words(one: ReadRecord, before: ReadRecord) -> list[str]:
    """What is different of what the version said of itself on the days of two seals."""
    was, now = ({key: getattr(side.version, key) for key in SEALED} for side in (before, one))
    return row_words(SEALED, was, now, one.home)


def row_words(keys: Sequence[str], was: Mapping, now: Mapping, home: TypeFacts) -> list[str]:
    """Each of these rows that is different, as it is and as it was."""
    told = {key: [row_in_words(key, row_of(side, key), home) or "nothing" for side in (now, was)] for key in keys}
    return [
        f"{FIELD_WORDS[key]}: {told[key][0]} (before: {told[key][1]})"
        for key in keys
        if row_of(was, key) != row_of(now, key)
    ]


def other_words(one: ReadRecord, before: ReadRecord, made: Changes) -> list[str]:
    """What is different but for the states: what the version says of itself, features that only one record speaks of,
    how often, limits, grounds."""
    lines = sealed_words(one, before)
    if made.not_recorded_before:
        lines.append(f"Recorded in addition: {', '.join(map(in_a_sentence, made.not_recorded_before))}")
    if made.not_recorded_after:
        lines.append(f"No longer recorded: {', '.join(map(in_a_sentence, made.not_recorded_after))}")
    for feature in one.home.features.values():
        was, now = cells_by_state(before, feature), cells_by_state(one, feature)
        changed = [
            f"{told(now[state])} (before: {told(was[state])})"
            for state in now
            if was.keys() == now.keys() and without_words(now[state]) != without_words(was[state])
        ]
        if changed:
            lines.append(f"{feature.name}: {'; '.join(changed)}")
    return lines


def cells_by_state(one: ReadRecord, feature: FeatureFacts) -> dict[str, CellFacts]:
    return {cell.state: cell for cell in one.version.cells.get(feature.code, ())}


def without_words(cell: CellFacts) -> CellFacts:
    """What a cell says, whatever its state and its sources were called at the time."""
    return replace(cell, label="", citations=tuple(replace(one, title="", grade="") for one in cell.citations))


def told(cell: CellFacts) -> str:
    """A cell with how often, its grounds and its sources."""
    sources = [f"{'against: ' if one.contradicts else ''}{one.source}" for one in cell.citations]
    return "; ".join([in_a_sentence(state_words(cell, True)), cell.grounds.lower(), *sources])


# ---- one record


def record_context(one: ReadRecord, today: VersionFacts, all_records: Sequence[VersionRecord]) -> dict:
    """A record as it was: its profile, its figures, and from when to when it stood."""
    sources = one.sources
    number_of = {source.source: place for place, source in enumerate(sources, start=1)}
    groups, unrecorded, inapplicable = profile(one.home, one.version, number_of)
    following = [row for row in all_records if row.number > one.record.number]
    return {
        "facts": one.home,
        "version": one.version,
        "today": today,
        "version_address": address_of("version", today.code),
        "type_address": address_of("type", one.home.code),
        "row": head_of(one, titles_cited([decision_behind(one.record)])),
        "followed_by": following[-1] if following else None,
        "one_day": bool(following) and localdate(following[-1].made_at) == localdate(one.record.made_at),
        "followed_address": record_address(today.code, following[-1].number) if following else "",
        "said_then": said_then(all_records, one.record.number, one.home),
        "groups": groups,
        "unrecorded": unrecorded,
        "inapplicable": inapplicable,
        "left_over": [
            {"name": name, "words": state_words(cell, False), "grounds": grounds_of(cell, number_of)}
            for name, cell in one.left_over
        ],
        "sources": [source_row(source, number_of[source.source]) for source in sources],
        "figures": draw_version(one.home, one.version),
        "others": [row for row in all_records if row.number != one.record.number],
    }


# ---- two records


def compared_context(earlier: ReadRecord, later: ReadRecord, all_records: Sequence[VersionRecord]) -> dict:
    """Two records of one version: what changed, in words and marked on the figures."""
    made = changes(later.home, earlier.version, later.version)
    both = (earlier, later)
    titles = titles_cited(decision_behind(one.record) for one in both)
    features = list(later.home.features.values())
    differing = [feature for feature in features if shape_of(earlier, feature) != shape_of(later, feature)]
    return {
        "facts": later.home,
        "version": later.version,
        "heads": [head_of(one, titles) for one in both],
        "homes": [one.home for one in both],
        "versions": [titled(one) for one in both],
        "differing": frozenset(feature.code for feature in differing),
        "notes": made.notes,
        "others": other_words(later, earlier, made)
        + unsealed_between(all_records, earlier.record.number, later.record.number, later.home),
        "rows": [{"name": feature.name, "cells": [cell_of(one, feature) for one in both]} for feature in differing],
        "alike": sum(1 for f in features if f not in differing and f.code in later.version.cells),
        "columns": len(both) + 1,
    }


def shape_of(one: ReadRecord, feature: FeatureFacts) -> list[tuple]:
    """The states of a feature with how often and on which pieces, whatever they were called."""
    return [(cell.state, cell.how_often, cell.share, cell.limits) for cell in one.version.cells.get(feature.code, ())]


def cell_of(one: ReadRecord, feature: FeatureFacts) -> dict:
    """What a record says of a feature, in the words of its own day."""
    words = cell_words(one.home, one.version, one.home.features[feature.code])
    return {"words": words, "nothing": words in (NOT_RECORDED, DOES_NOT_APPLY)}


def titled(one: ReadRecord) -> VersionFacts:
    """For the titles of two figures of one version on one page."""
    return replace(one.version, code=f"{one.version.code}, record {one.record.number}")
