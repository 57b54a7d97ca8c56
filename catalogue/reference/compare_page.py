"""What the comparison page shows, and what it says when it cannot compare."""

from collections.abc import Sequence
from itertools import pairwise

from catalogue.reference.addresses import address_of, comparison_address
from catalogue.reference.changes import changes
from catalogue.reference.comparison import MOST, NOT_RECORDED, ComparedRow, Comparison, compare
from catalogue.reference.evidence_pages import views_by_question
from catalogue.reference.facts import OpenQuestionFacts, TypeFacts, VersionFacts
from catalogue.reference.nearest import LONGEST_SHOWN, near_codes, version_names
from catalogue.reference.separation import NOTHING, Separation
from catalogue.reference.snapshots import keep_for_state, type_of_retired, type_of_version

Chosen = tuple[TypeFacts, VersionFacts]
LATE = 9999
MOST_CODES_READ = 12
MARKS = {"differs": "≠", "partly": "≈", "alike": "="}


def compare_context(codes: Sequence[str], *, number: int) -> dict:
    """The page for the codes that an address holds, whatever they are."""
    given = [code for code in dict.fromkeys(code.strip() for code in codes) if code][:MOST_CODES_READ]
    found, unknown, moved = chosen_versions(given, number=number)
    shown, left_out = found[:MOST], found[MOST:]
    context = {
        "unknown": unknown,
        "moved": moved,
        "left_out": [version.code for _, version in left_out],
        "chosen": [version_head(home, version) for home, version in shown],
        "siblings": siblings(shown, shown or found),
        "full": len(shown) == MOST,
    }
    if len(shown) >= 2:
        context |= compared(shown, number=number)
    return context


def chosen_versions(given: list[str], *, number: int) -> tuple[list[Chosen], list[dict], list[dict]]:
    """The versions that exist, each once; each other code with what is spelled nearly so; and each retired one with
    what it became. Where that is one version, it is compared in its place."""
    names = version_names(number=number) if given else {}
    by_capitals = {code.upper(): code for code in names}
    found: dict[str, Chosen] = {}
    unknown, moved = [], []
    for code in given:
        known = code if code in names else by_capitals.get(code.upper())
        home = type_of_version(known, number=number) if known else None
        if home:
            found[known] = (home, home.versions[known])
        elif home := type_of_retired(code, number=number):
            became = home.in_force(code)
            moved.append(moved_row(code, became))
            if len(became) == 1:
                found[became[0].code] = (home, became[0])
        else:
            unknown.append({"code": code[:LONGEST_SHOWN], "near": near_links(code, names)})
    return list(found.values()), unknown, moved


def moved_row(code: str, became: Sequence[VersionFacts]) -> dict:
    return {
        "code": code,
        "address": address_of("version", code),
        "became": [{"code": one.code, "address": address_of("version", one.code)} for one in became],
    }


def near_links(code: str, names: dict[str, str]) -> list[dict]:
    return [
        {"words": f"{near}: {names[near]}", "address": address_of("version", near)} for near in near_codes(code, names)
    ]


def version_head(home: TypeFacts, version: VersionFacts) -> dict:
    return {
        "code": version.code,
        "name": version.name,
        "type": home.name,
        "address": address_of("version", version.code),
        "kind": version.kind_words,
        "dates": version.date_words or "not known",
        "sure": version.certainty_words + ("" if version.piece_seen else "; no piece seen"),
    }


def siblings(shown: list[Chosen], all_chosen: list[Chosen]) -> list[dict]:
    """The other versions of the types that are compared, to be ticked in."""
    taken = {version.code for _, version in all_chosen}
    homes = {home.code: home for home, _ in shown}
    return [
        {"code": version.code, "name": version.name}
        for home in homes.values()
        for version in home.versions.values()
        if version.code not in taken
    ]


def compared(shown: list[Chosen], *, number: int) -> dict:
    homes, versions = zip(*shown, strict=True)
    comparison = compare(homes, versions)
    questions = {question.code: question for version in versions for question in version.open_questions}
    return {
        "comparison": comparison,
        "homes": homes,
        "versions": versions,
        "differing": frozenset(row.feature.code for row in comparison.differing),
        "partly": frozenset(row.feature.code for row in comparison.partly),
        "across_types": len({home.code for home in homes}) > 1,
        "columns": len(versions) + 1,
        "tables": (tables := tables_of(comparison)),
        "asserted": any(cell["asserted"] for part in tables for row in part["rows"] for cell in row["cells"]),
        "pairs": [pair_row(pair, versions) for pair in comparison.pairs],
        "in_words": in_words(shown),
        "questions": [question_row(question, versions, number=number) for question in questions.values()],
    }


def question_row(question: OpenQuestionFacts, versions: Sequence[VersionFacts], *, number: int) -> dict:
    """A disputed matter. Where it is about two of the versions that are compared, every view of it stands here."""
    row = {
        "words": question.question,
        "settled": question.settled,
        "address": address_of("open_question", question.code),
        "about": [version.code for version in versions if question in version.open_questions],
    }
    if len(row["about"]) < 2:
        return row
    return row | keep_for_state(("views of questions",), views_by_question, number=number).get(question.code, {})


def in_words(shown: list[Chosen]) -> list[dict]:
    """A line for each difference, from the one that came first to the next, and so on."""
    in_order = sorted(shown, key=lambda chosen: came_first(chosen, shown))
    return [
        {
            "before": before.code,
            "after": after.code,
            "notes": changes(home_before, before, after, home_after=home_after).notes,
        }
        for (home_before, before), (home_after, after) in pairwise(in_order)
    ]


def came_first(chosen: Chosen, pair: list[Chosen]) -> tuple[bool, int]:
    """What follows the other stands second, whatever the years say."""
    version = chosen[1]
    others = {other.code for _, other in pair}
    return any(a.version in others for a in version.ancestors), version.from_year or version.to_year or LATE


def tables_of(comparison: Comparison) -> list[dict]:
    """The parts of the table, each with its heading, its mark and its rows."""
    parts = (
        ("differs", "These differ", comparison.differing),
        ("partly", "Alike in part, or not recorded for all", comparison.partly),
        ("alike", "These are alike", comparison.alike),
    )
    return [
        {
            "kind": kind,
            "heading": f"{heading} ({len(rows)})",
            "mark": MARKS[kind],
            "rows": [row_of(row, comparison.versions) for row in rows],
        }
        for kind, heading, rows in parts
        if rows
    ]


def row_of(row: ComparedRow, versions: Sequence[VersionFacts]) -> dict:
    return {
        "name": row.feature.name,
        "seen": row.feature.seen_words.lower(),
        "cells": [
            {"words": words, "nothing": words == NOT_RECORDED, "asserted": version.only_asserts(row.feature.code)}
            for words, version in zip(row.cells, versions, strict=True)
        ],
    }


def pair_row(pair: Separation, versions: Sequence[VersionFacts]) -> dict:
    both = [version for version in versions if version.code in (pair.one, pair.other)]
    shared = [question for question in both[0].open_questions if question in both[1].open_questions]
    return {
        "one": pair.one,
        "other": pair.other,
        "nothing": pair.words == NOTHING,
        "words": pair.words,
        "ways": [{"seen": seen, "names": ", ".join(names).lower()} for seen, names in pair.by_effort],
        "questions": [{"words": q.question, "address": address_of("open_question", q.code)} for q in shared],
        "alone": comparison_address(pair.one, pair.other) if len(versions) > 2 else "",
    }
