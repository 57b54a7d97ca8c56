"""What must be known of a piece so that its pictures can be drawn, and which view each standard shot shows."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from catalogue.figures.composing import Shown
from catalogue.figures.profiles import shown_of, shown_of_answers
from catalogue.reference.facts import TypeFacts, VersionFacts

# The view of each standard shot, and the place it goes near to; no place: the whole view.
SHOTS = {
    "front": ("front", ()), "back": ("back", ()), "inside": ("inside", ()), "palm": ("palm", ()),
    "side": ("side_left", ()), "top": ("top", ()), "crown_inside": ("inside", ()),
    "neck_inside": ("inside", ("collar_inside", "neck_inside", "neck", "label")),
    "waistband_inside": ("inside", ("waistband_inside", "waistband", "waist")),
    "sweatband": ("inside", ("sweatband",)),
    "closure": ("front", ("centre_front", "front_edge", "fly")), "button": ("front", ("throat", "centre_front")),
    "pocket": ("front", ("chest_left", "chest_centre", "skirt_left", "thigh_left", "pocket_left")),
    "cuff": ("front", ("cuff_left",)), "fly": ("front", ("fly", "centre_front")),
    "leg_end": ("front", ("ankle_left", "leg_end_left", "hem_left")),
    "seam": ("back", ("side_seam_left", "armhole_left", "elbow_left")),
    "weave": ("back", ("shoulder_blades", "yoke", "seat")), "daylight": ("front", ("chest_flap_left", "chest_left")),
    "print_repeat": ("back", ()), "defect": ("back", ("hem_centre", "elbow_left", "seat")),
}  # fmt: skip
# How much of the piece a close shot shows, in units of the drawing; and beside what a rule lies.
USUAL_NEARNESS = 150.0
NEARNESS = {"weave": 26.0, "seam": 44.0, "daylight": 110.0, "button": 90.0, "closure": 190.0, "defect": 110.0}
WITH_RULE = ("weave", "seam", "print_repeat")
LABEL_SHOTS = ("main_label", "size_label", "treatment_label", "property_mark", "label_back")


@dataclass(frozen=True)
class DemoPiece:
    """`seen`: state by feature as somebody recorded it; `version`: the one whose record fills what nobody looked at.

    `label_text`: letter by letter, ` / ` a new line, ` // ` another label; in round brackets what is said of it.
    """

    code: str
    facts: TypeFacts
    seen: Mapping[str, str]
    version: VersionFacts | None = None
    condition: str = "good"
    label_text: str = ""

    @property
    def shown(self) -> dict[str, Shown]:
        """What is drawn: the record's states, and over them what was seen on this piece."""
        version = self.version or self.likest
        filled = shown_of(self.facts, version) if version else {}
        found = filled | shown_of_answers(self.facts, self.seen)
        return {code: replace(one, own="", how_often="always") for code, one in found.items() if self.applies(code)}

    @property
    def likest(self) -> VersionFacts | None:
        """Of the type's versions the one whose record agrees with most of what was seen."""

        def agreeing(version: VersionFacts) -> int:
            return sum(
                state in {cell.state for cell in version.cells.get(feature, ())} for feature, state in self.seen.items()
            )

        return max(self.facts.versions.values(), key=agreeing, default=None)

    @property
    def states(self) -> dict[str, str]:
        return {code: one.state for code, one in self.shown.items()}

    def applies(self, code: str) -> bool:
        """A detail is not drawn where its part was seen to be otherwise."""
        feature = self.facts.features[code]
        parent = self.seen.get(feature.parent or "")
        return parent is None or parent in feature.shown_when
