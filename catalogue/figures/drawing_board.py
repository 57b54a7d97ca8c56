"""The drawing board: how a record would be drawn, while its author is still choosing. Nothing is stored.

What was chosen stands in the address, as a walk's answers do: a feature's code with its leading state, or with nothing
for "not recorded". Only what differs from the version that one began with is written. Names that begin with `_` belong
to the site: `_version`, `_view`, `_region`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from html import escape
from urllib.parse import urlencode

from catalogue.figures.composing import box_of, composed, with_counterpart
from catalogue.figures.figure import WHOLE, drawn_views, pen_for_cloth, whole
from catalogue.figures.parts import all_parts
from catalogue.figures.pen import Box, Pen, number
from catalogue.figures.profiles import shown_of, shown_of_answers
from catalogue.figures.silhouettes import Silhouette, silhouette_for
from catalogue.figures.spots import mark_spot
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.regions import VIEW_WORDS, all_regions, region_words

# Where on the page the states of a chosen place are.
STATES = "#states"


@dataclass(frozen=True)
class Board:
    """What the address says: the version one began with, the place chosen, and the states chosen so far.

    `states`: "" stands for not recorded. `dropped`: what was not understood.
    """

    facts: TypeFacts
    version: str = ""
    view: str = ""
    region: str = ""
    states: Mapping[str, str] = field(default_factory=dict)
    dropped: tuple[str, ...] = ()

    @property
    def recorded(self) -> dict[str, str]:
        """The leading states of the version that one began with."""
        if not self.version:
            return {}
        return {code: one.state for code, one in shown_of(self.facts, self.facts.versions[self.version]).items()}

    @property
    def profile(self) -> dict[str, str]:
        """The leading states with what was chosen put in."""
        return {code: state for code, state in (self.recorded | self.states).items() if state}

    def changed(self) -> dict[str, str]:
        recorded = self.recorded
        return {code: state for code, state in self.states.items() if state != recorded.get(code, "")}

    def query(self, **places: str) -> str:
        """The address of the board with another place, beginning with `?`."""
        named = {"_version": self.version, "_view": self.view, "_region": self.region} | places
        pairs = [(name, value) for name, value in named.items() if value]
        return "?" + urlencode([*pairs, *self.changed().items()])


def read_board(facts: TypeFacts, values: Mapping[str, str]) -> Board:
    """The board that an address or a form asks for; what it does not understand is dropped and named."""
    known_views = drawn_views(facts)
    board = Board(facts, view=known_views[0] if known_views else "")
    dropped, states = [], {}
    for name, value in values.items():
        if name == "_version" and value in facts.versions:
            board = replace(board, version=value)
        elif name == "_view" and value in known_views:
            board = replace(board, view=value)
        elif name == "_region":
            board = replace(board, region=value)
        elif name in facts.features and (not value or value in facts.features[name].state_by_code):
            states[name] = value
        elif name != "csrfmiddlewaretoken" and value:
            dropped.append(f"{name}={value}"[:80])
    board = replace(board, states=states)
    if board.region and board.region not in dict(regions_of(facts, board.view)):
        dropped.append(f"_region={board.region}"[:80])
        board = replace(board, region="")
    return replace(board, dropped=tuple(dropped))


def regions_of(facts: TypeFacts, view: str) -> list[tuple[str, str]]:
    """The named regions of a view, each with its words, in the order of the reference list."""
    body = silhouette_for(facts.garment_class, view, facts.silhouettes.get(view, ""))
    listed = [code for garment, where, code in all_regions() if (garment, where) == (facts.garment_class, view)]
    own = [code for code in (body.regions if body else ()) if code not in listed and code != "quilting"]
    return [(code, region_words(facts.garment_class, view, code)) for code in [*listed, *own]]


def board_context(board: Board) -> dict:
    """Everything that the page shows."""
    facts, view = board.facts, board.view
    places = regions_of(facts, view) if view else []
    version = facts.versions.get(board.version)
    return {
        "board": board,
        "facts": facts,
        "version": version,
        "views": [(VIEW_WORDS[one], board.query(_view=one, _region=""), one == view) for one in drawn_views(facts)],
        "places": [(words, board.query(_region=code) + STATES, code == board.region) for code, words in places],
        "place_words": dict(places).get(board.region, ""),
        "map": region_map(board) if view else "",
        "features": [feature_row(board, feature) for feature in features_at(board)],
        "hidden": hidden_pairs(board),
        "figures": [(VIEW_WORDS[one], drawn_view(board, one)) for one in drawn_views(facts)],
        "changes": [change_row(board, code) for code in board.changed()],
        "undo": Board(facts, board.version, view, board.region).query(),
    }


def features_at(board: Board) -> list[FeatureFacts]:
    """The features of the type that are looked at or drawn in the chosen place, or in its like on the other side."""
    if not board.region:
        return []
    body = silhouette_for(board.facts.garment_class, board.view, board.facts.silhouettes.get(board.view, ""))
    like = {name for name, _ in with_counterpart(board.region, board.facts.garment_class, board.view, body)}
    like.add(board.region)
    return [f for f in board.facts.features.values() if is_looked_at(f, board.view, like) or is_drawn(f, board, like)]


def is_looked_at(feature: FeatureFacts, view: str, regions: set[str]) -> bool:
    return any(place.region in regions and place.view in (view, "any") for place in feature.places)


def is_drawn(feature: FeatureFacts, board: Board, regions: set[str]) -> bool:
    """A cuff is looked at on its sleeve, and drawn on the front too."""
    parts = [part for state in feature.states for part in all_parts().get((feature.code, state.code), ())]
    fitting = [part for part in parts if not part.classes or board.facts.garment_class in part.classes]
    return any(regions & set(part.views.get(board.view, ())) for part in fitting)


def feature_row(board: Board, feature: FeatureFacts) -> dict:
    chosen = board.profile.get(feature.code, "")
    return {"feature": feature, "chosen": chosen, "states": feature.states}


def hidden_pairs(board: Board) -> list[tuple[str, str]]:
    """What the form of one place carries along: all that was chosen at other places."""
    here = {feature.code for feature in features_at(board)}
    places = [("_version", board.version), ("_view", board.view), ("_region", board.region)]
    return [(n, v) for n, v in places if v] + [(c, s) for c, s in board.changed().items() if c not in here]


def change_row(board: Board, code: str) -> dict:
    feature = board.facts.features[code]
    before, after = board.recorded.get(code, ""), board.states[code]
    return {
        "name": feature.name,
        "before": feature.label_of(before) if before else "not recorded",
        "after": feature.label_of(after) if after else "not recorded",
    }


def composed_view(board: Board, pen: Pen, view: str) -> Silhouette:
    shown = shown_of_answers(board.facts, board.profile)
    return composed(pen, board.facts.garment_class, view, shown, own=board.facts.silhouettes.get(view, ""))


def drawn_view(board: Board, view: str) -> str:
    """One view of the record as chosen so far, in its cloth."""
    pen = pen_for_cloth(shown_of_answers(board.facts, board.profile), f"cloth-{view}", view)
    body = composed_view(board, pen, view)
    name = f"{board.facts.name}, {VIEW_WORDS[view].lower()}, as chosen so far"
    return whole(pen, Box(0, 0, body.width, body.height), name, side_words=view)


def region_map(board: Board) -> str:
    """The chosen view with its regions as links, small ones above large ones; the list beside it says them in words."""
    pen = Pen()
    body = composed_view(board, pen, board.view)
    boxes = [
        (code, words, box_of(board.facts.garment_class, board.view, code, body))
        for code, words in regions_of(board.facts, board.view)
        if code != WHOLE
    ]
    with pen.group(class_="places", aria_hidden="true"):
        for code, words, box in sorted(boxes, key=lambda one: -one[2].w * one[2].h):
            pen.written.append(place_link(board.query(_region=code) + STATES, words, box))
    if board.region and board.region != WHOLE:
        with pen.group(class_="spot"):
            mark_spot(pen, box_of(board.facts.garment_class, board.view, board.region, body))
    name = f"{VIEW_WORDS[board.view]} with its named places"
    return whole(pen, Box(0, 0, body.width, body.height), name, side_words=board.view)


def place_link(address: str, words: str, box: Box) -> str:
    x, y, w, h = (number(value) for value in (box.x, box.y, box.w, box.h))
    # Out of the keyboard's way and of a screen reader's, who have the list.
    return (
        f'<a href="{escape(address)}" tabindex="-1"><title>{escape(words)}</title>'
        f'<rect x="{x}" y="{y}" width="{w}" height="{h}"/></a>'
    )
