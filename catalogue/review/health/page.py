"""What the page of the reference's health says: a headline, then the weak spots, the worst first."""

from collections.abc import Mapping, Sequence

from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.http import urlencode

from catalogue.reference.addresses import address_of, comparison_address
from catalogue.reference.models import Source, TypeFeature
from catalogue.reference.plurals import counted
from catalogue.reference.snapshots import KeptForState
from catalogue.review.health.error_lines import error_lines
from catalogue.review.health.headline import of_types
from catalogue.review.health.keeping import healths
from catalogue.review.health.working_out import AGREEING, MOST_KEPT, strongest

keep_page = KeptForState(most=256)
# Lines of a section that stand open; the rest is behind a fold.
OPEN_LINES = 5
# So many lines of a section are written out for the whole society; a garment type's own page has all that are kept.
MOST_LINES = 20


def page_context(code: str = "", *, number: int) -> dict | None:
    """The whole society's page, or a garment type's; None where there is no such type."""
    return keep_page(("health", code), lambda: make_page(code, number), number=number)


def page_as_written(code: str, *, number: int) -> str:
    """The same as markup, for readers, who decide nothing: all see it alike, so it is written once for each state."""
    return keep_page(
        ("health as written", code),
        lambda: render_to_string("review/health/weak_spots.html", page_context(code, number=number)),
        number=number,
    )


def make_page(code: str, number: int) -> dict | None:
    every = healths(number=number)
    if code and code not in every:
        return None
    chosen = [every[code]] if code else list(every.values())
    only = TypeFeature.objects.filter(garment_type__code=code).values_list("feature__code", flat=True) if code else None
    sections = [
        section("apart", "Versions that nothing on record separates", chosen, "blind", "pairs", blind_line, weightiest),
        section("against", "Pieces that contradict their version", chosen, "against", "against_number", against_line,
                strongest),
        section("cells", "What to record next", chosen, "cells", "cells_number", cell_line, dearest),
        plain_section("errors", "Features that people answer wrongly", error_lines(every.values(), only)),
        section("years", "Label years outside a version’s span", chosen, "outside", "outside_number", year_line,
                lambda row: (-len(row["dated"]), -row["gap"])),
        section("disputed", "Pieces that members hold to be something else", chosen, "disputed", "disputed_number",
                disputed_line, lambda row: -len(row["others"])),
        plain_section("sources", "Sources that no claim cites", [] if code else uncited_sources()),
        plain_section("walks", "Garment types without a walk-through", walkless(chosen)),
    ]  # fmt: skip
    return {
        "code": code,
        "name": chosen[0]["name"] if code else "",
        "headline": of_types(chosen),
        "sections": [one for one in sections if one["number"]],
        "well": [
            one["heading"].lower() for one in sections if not one["number"] and (one["id"] != "sources" or not code)
        ],
        "types": [] if code else type_rows(chosen),
        "type_address": address_of("type", code) if code else "",
        "walk": reverse("walk_through:type", args=[code]) if code else reverse("walk_through:choose"),
    }


def section(name: str, heading: str, chosen, rows: str, number: str, line, order) -> dict:
    """One section over several types: the worst rows of all, as lines."""
    found = sorted((row | {"type": health["type"]} for health in chosen for row in health[rows]), key=order)
    most = MOST_KEPT if len(chosen) == 1 else MOST_LINES
    return plain_section(name, heading, [line(row) for row in found[:most]], sum(h[number] for h in chosen), most)


def plain_section(
    name: str, heading: str, lines: list[dict], number: int | None = None, most: int = MOST_LINES
) -> dict:
    number, lines = len(lines) if number is None else number, lines[:most]
    return {
        "id": name,
        "heading": heading,
        "number": number,
        "open": lines[:OPEN_LINES],
        "folded": lines[OPEN_LINES:],
        "unlisted": number - len(lines),
    }


def weightiest(row: Mapping):
    return -row["weight"], row["one"], row["other"]


def dearest(row: Mapping):
    return -row["worth"], row["version"], row["feature"]


def blind_line(row: Mapping) -> dict:
    where = [
        {"code": code, "address": address_of("version", code), "shown": shown, "propose": to_propose(code, row, shown)}
        for code, shown in zip(row["record_for"], row["shown"], strict=True)
    ]
    return {
        "pair": (row["one"], row["other"]),
        "address": comparison_address(row["one"], row["other"]),
        "chance": chance_words(row["weight"]),
        "feature": row["feature"],
        "settles": chance_words(row["chance"]) if row["feature"] else "",
        "where": where,
        "new_feature": new_feature_of(row["type"]),
        "questions": [{"code": q, "address": address_of("open_question", q)} for q in row["questions"]],
    }


def against_line(row: Mapping) -> dict:
    return dict(row) | {
        "address": address_of("version", row["version"]),
        "recorded": " or ".join(row["recorded"]),
        "proposal": row["number"] >= AGREEING,
        "propose": to_propose(row["version"], row, {"state": row["state_code"]}),
        "pieces": piece_links(row["pieces"][:OPEN_LINES]),
        "more": max(row["number"] - OPEN_LINES, 0),
    }


def cell_line(row: Mapping) -> dict:
    return dict(row) | {
        "address": address_of("version", row["version"]),
        "worth": chance_words(row["worth"]),
        "propose": to_propose(row["version"], row, row["shown"]),
        "look": gallery_of(row["version"]) if row["pieces"] else "",
    }


def to_propose(version: str, row: Mapping, shown: Mapping | None) -> str:
    """Where a change of this cell is proposed; where pieces show something, the draft begins with it."""
    asked = {"version": version, "feature": row["feature_code"]} | ({"state": shown["state"]} if shown else {})
    return f"{reverse('proposals:new')}?{urlencode(asked)}"


def new_feature_of(garment_type: str) -> str:
    return f"{reverse('feature_records:new')}?{urlencode({'type': garment_type})}"


def gallery_of(version: str) -> str:
    return f"{reverse('member_examples:gallery')}?{urlencode({'version': version})}"


def year_line(row: Mapping) -> dict:
    years = sorted({year for year, _ in row["dated"]})
    return dict(row) | {
        "address": address_of("version", row["version"]),
        "propose": f"{reverse('proposals:new')}?{urlencode({'version': row['version'], 'dates': 'labels'})}",
        "proposal": len(row["dated"]) >= AGREEING,
        "years": ", ".join(map(str, years[:OPEN_LINES])) + (" …" if len(years) > OPEN_LINES else ""),
        "number": counted(len(row["dated"]), "piece"),
        "pieces": piece_links([code for _, code in row["dated"][:OPEN_LINES]]),
        "more": max(len(row["dated"]) - OPEN_LINES, 0),
    }


def disputed_line(row: Mapping) -> dict:
    return {
        "code": row["piece"],
        "address": reverse("member_examples:example", args=[row["piece"]]),
        "version": row["version"],
        "others": [
            {"who": who, "version": version, "address": comparison_address(row["version"], version) if version else ""}
            for who, version in row["others"]
        ],
    }


def piece_links(codes: Sequence[str]) -> list[dict]:
    return [{"code": code, "address": reverse("member_examples:example", args=[code])} for code in codes]


def uncited_sources() -> list[dict]:
    rows = Source.objects.uncited().order_by("code")
    return [{"code": one.code, "title": one.title, "address": address_of("source", one.code)} for one in rows]


def walkless(chosen: Sequence[Mapping]) -> list[dict]:
    return [
        {
            "name": h["name"],
            "versions": counted(h["versions"], "version"),
            "address": address_of("type", h["type"]),
            "new_feature": new_feature_of(h["type"]),
        }
        for h in chosen
        if h["no_walk"]
    ]


def type_rows(chosen: Sequence[Mapping]) -> list[dict]:
    """Types where a version cannot be identified, the worst share first."""
    rows = [h for h in chosen if h["identified"] < h["versions"]]
    rows.sort(key=lambda h: (h["identified"] / h["versions"], h["type"]))
    return [
        {
            "name": h["name"],
            "words": f"{h['identified']} of {counted(h['versions'], 'version')}",
            "address": reverse("health:type", args=[h["type"]]),
        }
        for h in rows
    ]


def chance_words(chance: float) -> str:
    """`4 in 100`, `3 in 10,000`: in figures that a small chance keeps."""
    for of in (100, 10_000, 1_000_000):
        if round(chance * of) >= 1:
            return f"{round(chance * of)} in {of:,}"
    return "fewer than 1 in 1,000,000"
