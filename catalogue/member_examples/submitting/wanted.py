"""Which photographs are asked for: three first, then the two that would tell most; and the long list, as an offer."""

from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.member_examples.models import Photograph
from catalogue.member_examples.submitting.advice import Answers, Known, adviser
from catalogue.member_examples.words import Shot
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.regions import OPENED_VIEWS, VIEW_WORDS

FRONT, LABEL = "front", "label"
# Which standard photograph shows a view as a whole.
SHOT_OF_VIEW = {
    "front": Shot.FRONT,
    "back": Shot.BACK,
    "inside": Shot.INSIDE,
    "label": Shot.MAIN_LABEL,
    "side_left": Shot.SIDE,
    "top": Shot.TOP,
    "palm": Shot.PALM,
    "cuff": Shot.GLOVE_CUFF,
    "flap": Shot.FLAP,
    "strap": Shot.STRAP,
}
VIEW_OF_SHOT = {
    **{shot: view for view, shot in SHOT_OF_VIEW.items()},
    Shot.LABEL_BACK: "label",
    Shot.SIZE_LABEL: "label",
    Shot.TREATMENT_LABEL: "label",
}
# Which standard photograph shows a part, by a word of its place; the first that fits.
SHOT_OF_REGION = (
    ("pocket", Shot.POCKET),
    ("flap", Shot.POCKET),
    ("cuff", Shot.CUFF),
    ("fly", Shot.FLY),
    ("leg_end", Shot.LEG_END),
    ("centre_front", Shot.CLOSURE),
    ("front_edge", Shot.CLOSURE),
    ("seam", Shot.SEAM),
)
HOW_TO = {
    Shot.FRONT: "Fasten it, lay it flat, hold the phone straight above. The whole piece, nothing cut off.",
    Shot.MAIN_LABEL: "Whole and sharp, no flash, so that every letter can be read.",
    Shot.BACK: "Laid flat, straight from above.",
    Shot.INSIDE: "Opened and laid flat.",
}
CLOSE = "Close, sharp, in daylight; a coin or a ruler beside it gives the size."
EVERYTHING = (
    Shot.FRONT, Shot.BACK, Shot.INSIDE, Shot.NECK_INSIDE, Shot.MAIN_LABEL, Shot.LABEL_BACK, Shot.SIZE_LABEL,
    Shot.TREATMENT_LABEL, Shot.PROPERTY_MARK, Shot.CLOSURE, Shot.BUTTON, Shot.CUFF, Shot.POCKET, Shot.SEAM,
    Shot.WEAVE, Shot.PRINT_REPEAT, Shot.DAYLIGHT, Shot.DEFECT, Shot.SET,
)  # fmt: skip
NOT_OF_LEGS = (Shot.NECK_INSIDE, Shot.CUFF)
OF_LEGS = (Shot.FLY, Shot.WAISTBAND_INSIDE, Shot.LEG_END)
NOT_OF_HEADGEAR = (Shot.NECK_INSIDE, Shot.CUFF, Shot.POCKET, Shot.INSIDE)
OF_HEADGEAR = (Shot.SIDE, Shot.TOP, Shot.CROWN_INSIDE, Shot.SWEATBAND)
NOT_OF_GLOVES = (Shot.NECK_INSIDE, Shot.CUFF, Shot.POCKET)
NOT_OF_BAGS = (Shot.NECK_INSIDE, Shot.CUFF)
# The society's working list of standard photographs; common practice, no source.
BY_CLASS = {
    "trousers": (NOT_OF_LEGS, OF_LEGS),
    "over-trousers": (NOT_OF_LEGS, OF_LEGS),
    "cap": (NOT_OF_HEADGEAR, OF_HEADGEAR),
    "hat": (NOT_OF_HEADGEAR, OF_HEADGEAR),
    "hood": ((Shot.CUFF, Shot.POCKET, Shot.NECK_INSIDE), (Shot.SIDE,)),
    "glove": (NOT_OF_GLOVES, (Shot.PALM, Shot.GLOVE_CUFF)),
    "bag": (NOT_OF_BAGS, (Shot.FLAP, Shot.STRAP)),
}


@dataclass(frozen=True)
class Wanted:
    """One photograph that is asked for. `view` and `feature`: what its drawn guide shows; `there`: it has been sent."""

    shot: str
    title: str
    how: str
    view: str
    why: str = ""
    feature: FeatureFacts | None = None
    caption: str = ""
    there: bool = False


def standard_shots(garment_class: str) -> list[str]:
    """The long list for a class of garment, in the order of taking."""
    without, beside = BY_CLASS.get(garment_class, ((), ()))
    shots = [shot for shot in EVERYTHING if shot not in without]
    place = shots.index(Shot.BACK) + 1
    return [*shots[:place], *beside, *shots[place:]]


def shot_of_feature(feature: FeatureFacts) -> str:
    """The standard photograph in which a part is seen close by."""
    for place in feature.places:
        for word, shot in SHOT_OF_REGION:
            if word in place.region:
                return shot
    views = [place.view for place in feature.places]
    return SHOT_OF_VIEW.get(views[0], Shot.OTHER) if views and views[0] not in (FRONT, "any") else Shot.OTHER


def first_three(
    facts: TypeFacts | None, photographs: Sequence[Photograph], answers: Answers, held: str, known: Known, number: int
) -> list[Wanted]:
    """Front, label, and the detail that proves most for this type and what it is held to be. No label of a garment
    that must stay closed."""
    there = {photograph.view for photograph in photographs}
    front = Wanted(Shot.FRONT, "The front", HOW_TO[Shot.FRONT], FRONT, there=Shot.FRONT in there)
    label = Wanted(
        Shot.MAIN_LABEL,
        "The label",
        HOW_TO[Shot.MAIN_LABEL],
        LABEL,
        why="One dated label dates the piece. Cut out? The place where it was tells something, too.",
        there=bool(there & {Shot.MAIN_LABEL, Shot.SIZE_LABEL, Shot.LABEL_BACK}),
    )
    wanted = [front] if facts and facts.must_stay_closed else [front, label]
    code = adviser().best_detail(facts, answers, held, known, number) if facts else ""
    if code:
        feature = facts.features[code]
        shot = shot_of_feature(feature)
        seen = any(p.view == shot and (shot != Shot.OTHER or feature.name in p.caption) for p in photographs)
        wanted.append(
            Wanted(
                shot,
                feature.name,
                CLOSE,
                feature.places[0].view,
                why=f"{feature.place_words}. Of this garment type, it proves most."
                if not held
                else f"{feature.place_words}. It would soonest show whether this is {held}.",
                feature=feature,
                caption=feature.name,
                there=seen,
            )
        )
    return wanted


def next_two(facts: TypeFacts | None, photographs: Sequence[Photograph], known: Known, number: int) -> list[Wanted]:
    """The views that would tell most beside those that the pictures show already."""
    if facts is None:
        return []
    seen = {VIEW_OF_SHOT.get(photograph.view, "") for photograph in photographs} - {""}
    views = tuple(view for view in VIEW_WORDS if view in seen | {FRONT, *(() if facts.must_stay_closed else (LABEL,))})
    found = []
    for one in adviser().further_views(facts, views, known, number):
        shot = SHOT_OF_VIEW.get(one.view, Shot.OTHER)
        how = HOW_TO.get(shot, f"{one.words}, laid flat, whole and sharp.")
        why = f"It shows: {', '.join(name.lower() for name in one.features)}." if one.features else ""
        caption = one.words if shot == Shot.OTHER else ""
        there = shot == Shot.OTHER and any(p.view == shot and p.caption == caption for p in photographs)
        if not there and not (facts.must_stay_closed and one.view in OPENED_VIEWS):
            found.append(Wanted(shot, one.words, how, one.view, why=why, caption=caption))
    return found
