"""The drawings that pages show of versions: one in its views with call-outs, several side by side."""

import math
import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from html import escape

from catalogue.figures import call_outs
from catalogue.figures.cloth_fills import fill_for
from catalogue.figures.composing import (
    WHOLE,
    Shown,
    box_of,
    composed,
    sides_of,
    what_hides,
    where_drawn,
    with_counterpart,
)
from catalogue.figures.extents import common, holds
from catalogue.figures.outlines import alone
from catalogue.figures.pen import Box, Pen, number
from catalogue.figures.profiles import shown_of, unrecorded
from catalogue.figures.second_states import SecondState, second_states
from catalogue.figures.silhouettes import Silhouette, silhouette_for
from catalogue.figures.upper_cuts import NO_SLEEVES
from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.regions import OPENED_VIEWS, VIEW_WORDS, all_regions, views_of
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import VersionKind

# Made by altering another garment: no feature may speak of what was done, such as sleeves cut to the elbow.
ALTERED = (VersionKind.DEPOT_MODIFICATION, VersionKind.CONVERSION)
# Where in a box a line may end, in percent of it: on a part; where other parts cover its middle; in a region across the
# whole garment, whose middle is the front's opening; and, for what is not there, round its middle as well.
ABOVE_AND_BELOW = ((50, 50), (50, 35), (50, 65), (50, 20), (50, 80))
BESIDE = (*ABOVE_AND_BELOW, (25, 50), (75, 50), (12, 50), (88, 50), (25, 80), (75, 80))
AT_A_SIDE = ((76, 50), (24, 50), (84, 50), (16, 50), *ABOVE_AND_BELOW)
# Regions that a garment without sleeves has not.
ON_SLEEVES, BODY_VIEWS = ("elbow", "cuff"), ("front", "back")
AROUND = (*ABOVE_AND_BELOW, (15, 50), (85, 50), (15, 15), (85, 15), (15, 85), (85, 85), (50, 0), (50, 100))


@dataclass(frozen=True)
class Figure:
    """One view as a whole SVG element, and its view in words. `called`: rows whose number it is the first to show.

    `marks_absent`, `dashed`: whether it marks what is not there, and what only some pieces have. `seconds`: what some
    pieces have in place of what is drawn. `altered`: what was done to the garment after it was made, which the drawing
    may not show.
    """

    view: str
    words: str
    svg: str
    called: frozenset[int] = frozenset()
    marks_absent: bool = False
    dashed: bool = False
    seconds: tuple[SecondState, ...] = ()
    altered: str = ""


def figures_of(facts: TypeFacts, version: VersionFacts, *, number: int | None = None) -> tuple[Figure, ...]:
    """The views of a version that its class has drawings for, with call-outs numbered as its profile's rows.

    Kept until the reference changes.
    """
    return keep_for_state(("figures", version.code), lambda: draw_version(facts, version), number=number)


def drawn_views(facts: TypeFacts) -> list[str]:
    """The views of a type for which the site or the society has an outline, in the order of its class."""
    known = views_of(facts.garment_class)
    listed = [*known, *(view for view in facts.silhouettes if view not in known)]
    return [view for view in listed if silhouette_for(facts.garment_class, view, facts.silhouettes.get(view, ""))]


def draw_version(facts: TypeFacts, version: VersionFacts) -> tuple[Figure, ...]:
    shown = shown_of(facts, version)
    rows = facts.row_numbers(version)
    found = []
    for view in drawn_views(facts):
        pen = pen_for_cloth(shown, f"cloth-{view}", view)
        own = facts.silhouettes.get(view, "")
        body = composed(pen, facts.garment_class, view, shown, own=own)
        drawn = where_drawn(pen, facts.garment_class, view, shown, own=own)
        silent = silent_regions(facts, version, view, shown, body)
        for region in silent:
            mark_silent(pen, box_of(facts.garment_class, view, region, body))
        hiding = what_hides(pen, facts.garment_class, view, shown, own=own)
        chosen = call_outs_of(facts, view, shown, rows, body, drawn, hiding)
        if not chosen and not said_here(facts, view, shown):
            continue
        placed = call_outs.in_margins(chosen, body.width, body.height)
        numbers = frozenset(n for one in chosen for n in one.numbers)
        called = numbers.difference(*(figure.called for figure in found))
        call_outs.draw(pen, placed, {n: f"#p{n}" for n in numbers})
        frame = call_outs.framed(placed, body.width, body.height)
        name = f"{version.name}: {VIEW_WORDS[view].lower()}, laid flat"
        described = description(facts, version, view, shown, drawn, silent)
        svg = whole(pen, frame, name, described, side_words=view)
        absent = any(one.absent for one in chosen)
        seconds = second_states(facts, version, shown, features_at_home(facts, view))
        altered = version.reason if version.kind in ALTERED and not found else ""
        found.append(Figure(view, VIEW_WORDS[view], svg, called, absent, is_dashed(svg), seconds, altered))
    return tuple(found)


def is_dashed(svg: str) -> bool:
    """Whether something in a drawing is dashed because only some pieces have it."""
    return ' class="unsure' in svg


def features_at_home(facts: TypeFacts, view: str) -> list[str]:
    """The features whose first view that can be drawn is this one."""
    views = drawn_views(facts)
    return [
        code for code, f in facts.features.items() if view == next((p.view for p in f.places if p.view in views), "")
    ]


def pen_for_cloth(shown: Mapping[str, Shown], name: str, view: str) -> Pen:
    """A pen that fills outlines with the recorded cloth; inside and on a label its outside does not show."""
    markup, fill = fill_for({code: one.state for code, one in shown.items()}, name)
    if not markup or view in OPENED_VIEWS:
        return Pen()
    pen = Pen(cloth=fill)
    pen.written.append(f"<defs>{markup}</defs>")
    return pen


def said_here(facts: TypeFacts, view: str, shown: Mapping[str, Shown]) -> list[str]:
    """Features of the profile that are looked at in this view."""
    return [code for code, one in shown.items() if any(where == view for where, _ in one.places)]


def call_outs_of(
    facts: TypeFacts,
    view: str,
    shown: Mapping[str, Shown],
    rows: Mapping[str, int],
    body: Silhouette,
    drawn: Mapping[str, Sequence[Box]],
    hiding: Sequence[tuple[str, Box]],
) -> list[call_outs.CallOut]:
    """Each leads to what is drawn of its features; of a detail that is not drawn, to the part that it is a detail of;
    where neither is drawn, to the region. What is not there, and leaves no trace that could be drawn, has a call-out
    of its own, which says so.

    Features of one region share a call-out where one point lies on the parts of all of them. `drawn`: how far the
    parts of each feature reach; `hiding`: the shapes of parts that hide others, in the order of drawing.
    """
    profile = {code: one.state for code, one in shown.items()}
    regions: dict[str, list[str]] = {}
    for code, one in shown.items():
        region = region_of(one, facts.garment_class, view, body, profile)
        if region:
            regions.setdefault(region, []).append(code)
    drawn = {code: boxes for code in shown if (boxes := drawn_with(facts, code, drawn))}
    taken: list[tuple[float, float]] = []
    found = []
    for region, codes in regions.items():
        whole_region = box_of(facts.garment_class, view, region, body)
        missing = [code for code in codes if code not in drawn and shown[code].state == facts.features[code].absent]
        there = [code for code in codes if code not in missing]
        places = [(box, together, False) for box, together in sharing_a_place(there, drawn, whole_region)]
        for box, together, absent in [*places, *[(whole_region, missing, True)] * bool(missing)]:
            covering = lying_over(together, hiding)
            if absent:
                point = free_point(box, AROUND, taken, covering, apart=26)
            elif box is whole_region and box.w > body.width / 3:
                point = free_point(box, AT_A_SIDE, taken, covering, apart=10)
            else:
                point = free_point(box, BESIDE, taken, covering, apart=10)
            taken.append(point)
            found.append(call_outs.CallOut(tuple(sorted(rows[code] for code in together)), taken[-1], absent))
    return found


def drawn_with(facts: TypeFacts, code: str, drawn: Mapping[str, Sequence[Box]]) -> Sequence[Box]:
    """How far the part of a feature reaches, or else that of the nearest of the features that it is a detail of."""
    passed = set()
    while code and code not in drawn and code not in passed:
        passed.add(code)
        code = facts.features[code].parent if code in facts.features else ""
    return drawn.get(code, ())


def sharing_a_place(
    codes: Sequence[str], drawn: Mapping[str, Sequence[Box]], region: Box
) -> list[tuple[Box, list[str]]]:
    """Boxes, each with the features whose parts it lies on. What is not drawn goes with the first of them."""
    found: list[tuple[Box, list[str]]] = []
    for code in codes:
        if code in drawn:
            part = min(drawn[code], key=lambda box: math.dist(box.centre, region.centre))
            place = next((n for n, (box, _) in enumerate(found) if common(box, part)), None)
            if place is None:
                found.append((part, [code]))
            else:
                box, together = found[place]
                found[place] = common(box, part), [*together, code]
    small = [code for code in codes if code not in drawn]
    if small and found:
        found[0][1].extend(small)
    elif small:
        found.append((region, small))
    return found


def lying_over(codes: Collection[str], hiding: Sequence[tuple[str, Box]]) -> list[Box]:
    """The shapes that were drawn over the parts of all these features; every shape where none of them has one."""
    last = max((place for place, (code, _) in enumerate(hiding) if code in codes), default=-1)
    return [box for _, box in hiding[last + 1 :]]


def free_point(
    box: Box,
    shares: Sequence[tuple[float, float]],
    taken: Sequence[tuple[float, float]],
    covering: Sequence[Box],
    *,
    apart: int,
) -> tuple[float, float]:
    """The first of these points of the box, in percent of it, near which no other line ends and over which nothing
    else lies; else only near which none ends; else the one farthest from all others. Whole units."""
    points = [(round(x), round(y)) for x, y in (box.at(*share) for share in shares)]
    room = [min((math.dist(one, other) for other in taken), default=math.inf) for one in points]
    free = [point for point, far in zip(points, room, strict=True) if far > apart]
    bare = [point for point in free if not any(holds(other, point) for other in covering)]
    return next(iter([*bare, *free]), points[room.index(max(room))])


def region_of(one: Shown, garment_class: str, view: str, body: Silhouette, profile: Mapping[str, str]) -> str | None:
    """The region that a feature's call-out leads to: of two sides the one that the record names."""
    sides = sides_of(one, profile)
    sleeveless = profile.get("sleeve_set") in NO_SLEEVES
    for where, region in one.places:
        if where != view or region == WHOLE or (sleeveless and region.startswith(ON_SLEEVES) and view in BODY_VIEWS):
            continue
        for name, side in with_counterpart(region, garment_class, view, body):
            if not sides or side in sides or side == "centre":
                return name
    return None


def silent_regions(
    facts: TypeFacts, version: VersionFacts, view: str, shown: Mapping[str, Shown], body: Silhouette
) -> dict[str, list[FeatureFacts]]:
    """Regions of the view at which nothing at all is recorded, with the features that could be."""
    spoken = {region for one in shown.values() for where, region in one.places if where == view}
    found: dict[str, list[FeatureFacts]] = {}
    for feature in unrecorded(facts, version):
        for place in feature.places:
            known = place.region in body.regions or (facts.garment_class, view, place.region) in all_regions()
            if place.view == view and place.region not in spoken and place.region != WHOLE and known:
                found.setdefault(place.region, []).append(feature)
    return found


def mark_silent(pen: Pen, box: Box) -> None:
    with pen.group(class_="silent"):
        pen.in_box(box).rect("u", 0, 0, 100, 100, round=4)
        pen.in_box(box).text(50, 50 + 700 / max(box.h, 1), "?", size=20)


def description(
    facts: TypeFacts,
    version: VersionFacts,
    view: str,
    shown: Mapping[str, Shown],
    drawn: Mapping[str, Sequence[Box]],
    silent: Mapping[str, Sequence[FeatureFacts]],
) -> str:
    """What the drawing shows, in the words of the record, and how: what is dashed, and what stands small below."""
    said = []
    rows = facts.row_numbers(version)
    of_one_sleeve = [code for code in drawn if view in SLEEVE_VIEWS]  # a cuff is looked at on one sleeve, drawn on both
    for code in sorted({*said_here(facts, view, shown), *of_one_sleeve}, key=rows.get):
        labels = [cell.label + how_drawn(shown[code], cell.state, code in drawn) for cell in version.cells[code]]
        said.append(f"{rows[code]} {facts.features[code].name}: {'; or '.join(labels)}.")
    if silent:
        names = [feature.name.lower() for features in silent.values() for feature in features]
        said.append(f"Not recorded: {', '.join(dict.fromkeys(names))}.")
    return " ".join([side_words(view), *said]).strip()


def how_drawn(one: Shown, state: str, is_drawn: bool) -> str:
    if is_drawn and state == one.state:
        return " (dashed)" if one.unsure else ""
    return " (small, below)" if state in one.others else ""


SLEEVE_VIEWS = {"sleeve_left": "The wearer's left sleeve.", "sleeve_right": "The wearer's right sleeve."}


def side_words(view: str) -> str:
    """Where the wearer's left is in this view, or of which side it is."""
    if view in ("front", "inside"):
        return "The wearer's left is at the viewer's right."
    if view == "back":
        return "The wearer's left is at the viewer's left."
    if view == "side_left":
        return "The wearer's left side."
    return SLEEVE_VIEWS.get(view, "")


def whole(pen: Pen, frame: Box, name: str, described: str = "", *, side_words: str = "", kind: str = "flat") -> str:
    """The SVG element round what the pen has drawn. `side_words`: the view, where its sides are to be printed."""
    inner = pen.svg
    if side_words in ("front", "inside", "back"):
        inner += side_marks(frame, behind=side_words == "back")
        frame = Box(frame.x, frame.y, frame.w, frame.h + 34)
    box = " ".join(number(value) for value in (frame.x, frame.y, frame.w, frame.h))
    told = f"<title>{escape(name)}</title>" + (f"<desc>{escape(described, quote=False)}</desc>" if described else "")
    role = "group" if "<a " in inner else "img"  # what holds links is no picture to a screen reader
    size = f'width="{number(frame.w)}" height="{number(frame.h)}"'
    return f'<svg class="{kind}" viewBox="{box}" {size} role="{role}">{told}{inner}</svg>'


def side_marks(frame: Box, *, behind: bool) -> str:
    """The wearer's sides, printed below the drawing; very small drawings leave out whose they are."""
    left, right = ("left", "right") if behind else ("right", "left")
    whose = '<tspan class="whose">wearer\'s </tspan>'
    y = number(frame.y + frame.h + 26)
    return (
        f'<g class="sides"><text x="{frame.x + frame.w * 0.2:.0f}" y="{y}">{whose}{left}</text>'
        f'<text x="{frame.x + frame.w * 0.8:.0f}" y="{y}">{whose}{right}</text></g>'
    )


@dataclass(frozen=True)
class Row:
    """One view of several versions. `marked`: names of the features whose parts are marked in any of the drawings;
    `unmarked`: of those that differ there as well, but have no part in a flat. `seconds`: of each version what some of
    its pieces have in place of what is drawn. `tells_more`: whether it marks what no view before it does; paper shows
    no other."""

    words: str
    svgs: tuple[str, ...]
    marked: tuple[str, ...]
    unmarked: tuple[str, ...]
    seconds: tuple[tuple[SecondState, ...], ...] = ()
    tells_more: bool = True

    @property
    def drawings(self) -> list[tuple[str, tuple[SecondState, ...]]]:
        return list(zip(self.svgs, self.seconds, strict=True))

    @property
    def dashed(self) -> bool:
        return any(is_dashed(svg) for svg in self.svgs)


def side_by_side(
    homes: Sequence[TypeFacts],
    versions: Sequence[VersionFacts],
    differing: Collection[str],
    partly: Collection[str] = (),
) -> list[Row]:
    """Each view in which something differs, with the drawing of each version, changes marked.

    The front is shown in any case. A version whose class has no such drawing gets an empty string. `partly`: features
    in which the versions have some states in common: marked is what not all of them have.
    """
    found = []
    profiles = [shown_of(home, version) for home, version in zip(homes, versions, strict=True)]
    told = not_shared(versions, {*differing, *partly})
    for view in dict.fromkeys(view for home in homes for view in drawn_views(home)):
        features = [home.features[code] for home in homes for code in differing if code in home.features]
        drawings, seconds = [], []
        for place, (home, version, shown) in enumerate(zip(homes, versions, profiles, strict=True)):
            changed = {*differing, *(code for code in partly if code in shown and (code, shown[code].state) in told)}
            drawings.append(drawn_among(home, version, shown, view, changed, place))
            compared = [code for code in features_at_home(home, view) if code in differing or code in partly]
            seconds.append(second_states(home, version, shown, compared, told=told))
        marked = {code for svg in drawings for code in marked_in(svg)}
        marked |= {one.feature for each in seconds for one in each if one.changed}
        if view != "front" and not marked and not any(p.view == view for feature in features for p in feature.places):
            continue
        if any(drawings):
            known = {feature.code: feature for feature in (*features, *(f for h in homes for f in h.features.values()))}
            told_before = {name for row in found for name in row.marked}
            rest = [f for f in features if f.code not in marked and f.places and f.places[0].view == view]
            found.append(
                Row(
                    VIEW_WORDS[view],
                    tuple(drawings),
                    tuple(known[code].name for code in known if code in marked),
                    tuple(dict.fromkeys(feature.name for feature in rest)),
                    tuple(seconds),
                    any(known[code].name not in told_before for code in marked),
                )
            )
    return found


def not_shared(versions: Sequence[VersionFacts], features: Collection[str]) -> set[tuple[str, str]]:
    """Of these features the states that some of the versions have and others have not."""
    found = set()
    for code in features:
        states = [{cell.state for cell in version.cells.get(code, ())} for version in versions]
        found |= {(code, state) for state in set().union(*states) - set.intersection(*states)}
    return found


def in_no_drawing(homes: Sequence[TypeFacts], differing: Collection[str], rows: Sequence[Row]) -> list[str]:
    """Names of the features that differ and of which none of these rows speaks; all that differ where nothing is
    marked."""
    told = {name for row in rows for name in (*row.marked, *row.unmarked)} if any(row.marked for row in rows) else ()
    names = [home.features[code].name for home in homes for code in home.features if code in differing]
    return [name for name in dict.fromkeys(names) if name not in told]


def are_alike(rows: Sequence[Row]) -> bool:
    """Whether in each row all the drawings are the same, but for their names."""
    unnamed = [
        {
            (re.sub(r"<(title|desc)>.*?</\1>|cloth-\d+-", "", svg), tuple((one.feature, one.state) for one in seconds))
            for svg, seconds in row.drawings
        }
        for row in rows
    ]
    return all(len(drawings) == 1 for drawings in unnamed)


def marked_in(svg: str) -> list[str]:
    """Features of which a part is marked as changed in this drawing, as `composed` wrote it."""
    return re.findall(r'<g data-part="([^":]+):[^"]*"[^>]* class="(?:unsure )?changed"', svg)


def one_of_several(facts: TypeFacts, version: VersionFacts, view: str, differing: Collection[str]) -> str:
    """A version as it stands first among others on a page, without call-outs."""
    return drawn_among(facts, version, shown_of(facts, version), view, differing, 0)


def drawn_among(
    facts: TypeFacts,
    version: VersionFacts,
    shown: Mapping[str, Shown],
    view: str,
    differing: Collection[str],
    place: int,
) -> str:
    """A version among others on one page, of which it is the one at this place."""
    pen = pen_for_cloth(shown, f"cloth-{place}-{view}", view)
    own = facts.silhouettes.get(view, "")
    body = composed(pen, facts.garment_class, view, shown, changed=differing, own=own)
    if body is None:
        return ""
    marked = [facts.features[code].name.lower() for code in dict.fromkeys(marked_in(pen.svg))]
    told = f"Marked as different: {', '.join(marked)}." if marked else ""
    name = f"{version.code}: {VIEW_WORDS[view].lower()}"
    return whole(pen, Box(0, 0, body.width, body.height), name, told, side_words=view)


def file_of(facts: TypeFacts, version: VersionFacts, view: str) -> str | None:
    """A view of a version as a file of its own, without call-outs and light enough for a card. None: no drawing."""
    pen = Pen(without="tf", alone=True)
    body = composed(pen, facts.garment_class, view, shown_of(facts, version), own=facts.silhouettes.get(view, ""))
    if body is None:
        return None
    return alone(pen, body.width, body.height, version.name)
