"""What the pages of a feature's history show."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime

from django.db.models import QuerySet
from django.urls import reverse

from catalogue.long_lists import page_of
from catalogue.reference.models import VersionRecord
from catalogue.reference.words import FeatureKind
from catalogue.review.features.recording import is_intact, rows_in
from catalogue.review.features.rows import FIELD_WORDS, Rows, differences, row_in_words, state_in_words, states_of
from catalogue.review.models import FeatureRecord
from catalogue.review.proposals.deciders import titles_cited, told_of_decision
from catalogue.review.proposals.rules import row_of

A_PAGE_OF_RECORDS = 20
SHOWN_OF_A_DIGEST = 12


def record_address(code: str, number: int) -> str:
    """Where a feature can be read for ever as it was."""
    return reverse("feature_records:record", args=[code, number])


def history_address(code: str) -> str:
    return reverse("feature_records:history", args=[code])


def records_of(code: str) -> QuerySet:
    """Every record of a feature, newest first."""
    rows = FeatureRecord.objects.filter(code=code).select_related("written_by", "decision__proposal")
    return rows.prefetch_related(
        "decision__proposal__decisions__by", "decision__proposal__decisions__in_place_of"
    ).order_by("-number")


def record_like(code: str, rows: Rows, *, on: datetime) -> dict | None:
    """The record that says exactly this: that which stood then, or else the newest; None where none does."""
    alike = [one for one in records_of(code) if rows_in(one) == rows]
    stood = [one for one in alike if one.made_at <= on] or alike
    return {"number": stood[0].number, "address": record_address(code, stood[0].number)} if stood else None


def feature_head(code: str, found: Sequence[FeatureRecord]) -> dict:
    """The name that a history is headed with, and where the feature is explained."""
    return {
        "code": code,
        "name": rows_in(found[0])["name"] if found else code,
        "feature_address": reverse("reference:feature_group", args=[code]),
    }


def history_context(code: str, found: Sequence[FeatureRecord], asked: str | None) -> dict:
    """A page of records, each with what it changed."""
    page, odd_page = page_of(asked, found, A_PAGE_OF_RECORDS)
    before = {one.number: one for one in found}
    titles = titles_of_page(page)
    return {
        **feature_head(code, found),
        "page": page,
        "odd_page": odd_page,
        "keep": "",
        "rows": [history_row(one, before.get(one.number - 1), found, titles) for one in page],
    }


def titles_of_page(shown: Iterable[FeatureRecord]) -> dict[str, str]:
    """The titles of the sources that these records were decided on."""
    return titles_cited(getattr(one, "decision", None) for one in shown)


def history_row(
    one: FeatureRecord, before: FeatureRecord | None, found: Sequence[FeatureRecord], titles: Mapping[str, str]
) -> dict:
    row = head_of(one, found, titles)
    if before:
        row |= {
            "before": before.number,
            "changed": differences(rows_in(before), rows_in(one)),
            "compare": f"{row['address']}?with={before.number}",
        }
    return row


def head_of(one: FeatureRecord, found: Sequence[FeatureRecord], titles: Mapping[str, str]) -> dict:
    """Who, when, why, and whether it is as it was written."""
    return {
        "number": one.number,
        "address": record_address(one.code, one.number),
        "made_at": one.made_at,
        "who": one.written_by.username if one.written_by else "",
        "why": one.why,
        "reviewed": "approved" if one.standing == VersionRecord.Standing.APPROVED else "not reviewed",
        "imported": one.standing == VersionRecord.Standing.IMPORTED,
        "stands": one.number == found[0].number,
        "intact": is_intact(one),
        "digest": one.digest,
        "digest_begins": one.digest[:SHOWN_OF_A_DIGEST],
        "place": one.place,
        "decided": decided_by(one, titles),
    }


def decided_by(one: FeatureRecord, titles: Mapping[str, str]) -> dict | None:
    """The proposal that the record came from, its sources and the people who decided; None without one."""
    decision = getattr(one, "decision", None)
    return told_of_decision(decision, titles) if decision else None


def record_context(one: FeatureRecord, found: Sequence[FeatureRecord]) -> dict:
    """A feature as it was."""
    rows = rows_in(one)
    following = [other for other in found if other.number > one.number]
    return {
        **feature_head(one.code, found),
        "row": head_of(one, found, titles_of_page([one])),
        "then": rows["name"],
        "question": rows["question"],
        "states": [{"code": code, "words": state_in_words(state, rows)} for code, state in states_of(rows).items()],
        "lines": [
            {"name": words, "words": told}
            for key, words in FIELD_WORDS.items()
            if key not in ("name", "question")
            and (key != "spread" or rows["kind"] == FeatureKind.MEASUREMENT)
            and (told := row_in_words(key, row_of(rows, key), rows))
        ],
        "followed_by": head_of(following[-1], found, {}) if following else None,
        "others": [other for other in found if other.number != one.number],
    }


def compared_context(earlier: FeatureRecord, later: FeatureRecord) -> dict:
    """Two records of one feature side by side."""
    return {
        "heads": [
            {
                "number": one.number,
                "address": record_address(one.code, one.number),
                "made_at": one.made_at,
                "decided": decided_by(one, {}),
            }
            for one in (earlier, later)
        ],
        "rows": differences(rows_in(earlier), rows_in(later)),
    }
