"""What is to be seen of each state on a flat: in which views, on which of the wearer's sides.

Written down a second time, by what a garment laid flat shows, so that the drawings are held against something that
they were not made from (common practice, no source). A part that lies at both sides of the body is seen twice in a
front or back view, once on a sleeve. A state that is not in the table is a fault of the table, and is told.
"""

UPPER = ("jacket", "pullover", "shirt", "coat", "liner", "waistcoat")
LEGS = ("trousers", "over-trousers")
HEADS = ("cap", "hat", "hood")
ALL = (*UPPER, *LEGS, *HEADS)

# What is too small for a flat, or is its cloth: told by words, close-ups and fills.
TOO_SMALL = {
    *("button_fix", "button_material", "zip_teeth", "trade_name", "stud_material"),
    *("weave", "cloth_pattern", "colour", "print_repeat", "hand", "main_seam", "stitch_density"),
    *("label_kind", "label_thread", "needle_holes", "stock_no", "property_mark", "size_system", "treatment_label"),
}
FRONT, INSIDE = {"front": "centre"}, {"inside": "centre"}
ALL_ROUND = {"front": "centre", "back": "centre"}
BOTH_SIDES = {"front": "both", "back": "both"}
ON_SLEEVES = {"sleeve_left": "left", "sleeve_right": "right"}
NAMED, AT_THE_SIDE = {"front": "named"}, {"side_left": "left"}
NOTHING: dict[str, str] = {}
OTHER = "*"

# Of each feature, by garment classes: of each state where it is seen; OTHER stands for every state not named.
SEEN: dict[str, list[tuple[tuple[str, ...], dict[str, dict[str, str]]]]] = {
    "collar": [(UPPER, {OTHER: ALL_ROUND | INSIDE})],
    "front_closure": [(UPPER, {OTHER: FRONT})],
    "closure_cover": [(UPPER, {"exposed": NOTHING, OTHER: FRONT})],
    "front_buttons": [(UPPER, {OTHER: FRONT})],
    "throat_tab": [(UPPER, {"none": NOTHING, OTHER: FRONT})],
    "hanger": [(UPPER, {"none": NOTHING, OTHER: INSIDE})],
    "shoulder_strap": [(UPPER, {"none": NOTHING, "chest_tab": FRONT, OTHER: BOTH_SIDES})],
    "back_fullness": [(UPPER, {"plain": NOTHING, "bellows": {"back": "both"}, OTHER: {"back": "centre"}})],
    "hem_vent": [(UPPER, {"none": NOTHING, "centre": {"back": "centre"}, OTHER: {"back": "both"}})],
    "underarm_vent": [(UPPER, {"none": NOTHING, OTHER: {"front": "both"} | ON_SLEEVES})],
    "waist_draw": [(UPPER, {"none": NOTHING, OTHER: ALL_ROUND})],
    "hem_finish": [(UPPER, {"plain": NOTHING, OTHER: ALL_ROUND})],
    "lining": [
        (
            ("liner",),
            {"none": NOTHING, "quilt": {"front": "both", "back": "centre", "inside": "both and centre"}, OTHER: INSIDE},
        ),
        (ALL, {"none": NOTHING, OTHER: INSIDE}),
    ],
    "liner_fixing": [(UPPER, {"none": NOTHING, OTHER: {"inside": "both"}})],
    "reinforcement": [
        (UPPER, {"none": NOTHING, OTHER: {"back": "both"} | ON_SLEEVES}),
        (LEGS, {"none": {"front": "both"}, OTHER: {"front": "both", "back": "centre"}}),
    ],
    "chest_pockets": [(UPPER, {"none": NOTHING, OTHER: NAMED})],
    "chest_pocket_form": [(UPPER, {OTHER: NAMED})],
    "flap_shape": [(UPPER, {"none": NOTHING, OTHER: NAMED})],
    "flap_fastening": [(UPPER, {"open": NOTHING, OTHER: NAMED})],
    "lower_pockets": [(UPPER, {"none": NOTHING, OTHER: {"front": "both"}})],
    "sleeve_pocket": [
        (UPPER, {"none": NOTHING, "right": {"sleeve_right": "right"}, OTHER: {"sleeve_left": "left"}}),
    ],
    "inside_pocket": [(UPPER, {"none": NOTHING, OTHER: {"inside": "named"}})],
    "sleeve_set": [(UPPER, {OTHER: BOTH_SIDES})],
    "cuff": [(UPPER, {OTHER: BOTH_SIDES | ON_SLEEVES})],
    "bartack": [(LEGS, {"none": NOTHING, OTHER: {"front": "both"}}), (UPPER, {"none": NOTHING, OTHER: NAMED})],
    "fly": [(LEGS, {OTHER: FRONT})],
    "waist_fix": [(LEGS, {"side_tabs": FRONT, OTHER: ALL_ROUND})],
    "thigh_pocket": [(LEGS, {"none": NOTHING, OTHER: NAMED})],
    "ankle": [(LEGS, {OTHER: BOTH_SIDES})],
    "peak_rows": [(HEADS, {OTHER: FRONT})],
    "ear_flaps": [(HEADS, {"none": NOTHING, OTHER: AT_THE_SIDE | BOTH_SIDES})],
    "crown_vents": [(HEADS, {"none": NOTHING, OTHER: AT_THE_SIDE})],
    "brim": [(HEADS, {OTHER: AT_THE_SIDE})],
    "chin_strap": [(HEADS, {"none": NOTHING, OTHER: AT_THE_SIDE})],
    "label_place": [
        (
            ALL,
            {
                "left_front": {"inside": "left"},
                "right_front": {"inside": "right"},
                "pocket_bag": {"inside": "left"},
                OTHER: INSIDE,
            },
        )
    ],
}

SIDES = {
    "left": {"left"},
    "pen_left": {"left"},
    "right": {"right"},
    "both": {"left", "right"},
    "both and centre": {"left", "right", "centre"},
    "centre": {"centre"},
    "none": set(),
}
ON_THE_BREAST = ("chest_pocket_form", "flap_shape", "flap_fastening")


def sides_on_record(feature: str, profile: dict[str, str]) -> set[str]:
    """The wearer's sides that a record names for a feature that does not lie everywhere alike."""
    on_the_breast = SIDES[profile.get("chest_pockets", "none")]
    if feature in ON_THE_BREAST:
        return on_the_breast
    if feature == "bartack":  # it holds the mouths of the pockets that are there
        below = SIDES["both" if profile.get("lower_pockets", "none") != "none" else "none"]
        told = {"chest_pockets", "lower_pockets"} & profile.keys()
        return on_the_breast | below if told else SIDES["both"]
    return SIDES[profile[feature]]


def is_seen(garment_class: str, feature: str, state: str) -> bool:
    """Whether a state leaves anything to be seen on a flat."""
    if feature in TOO_SMALL:
        return False
    states = next(states for classes, states in SEEN[feature] if garment_class in classes)
    return bool(states.get(state, states.get(OTHER)))


def seen(garment_class: str, feature: str, profile: dict[str, str]) -> dict[str, set[str]]:
    """Of a feature that is on record: by view the sides on which its part is to be seen."""
    if feature in TOO_SMALL:
        return {}
    if feature == "reinforcement" and profile.get("ankle") == "cut":
        return {}  # trousers cut short have no knees, and what was left of their seat is not on record
    states = next(states for classes, states in SEEN[feature] if garment_class in classes)
    if feature == "reinforcement" and profile.get("sleeve_set") == "removed" and profile[feature] != "none":
        return {"sleeve_left": {"left"}, "sleeve_right": {"right"}}  # where the sleeve was
    places = states.get(profile[feature], states.get(OTHER))
    assert places is not None, f"{feature}:{profile[feature]} is not in the table"
    found = {
        view: sides_on_record(feature, profile) if sides == "named" else SIDES[sides] for view, sides in places.items()
    }
    return {view: sides for view, sides in found.items() if sides}


def to_be_seen(garment_class: str, profile: dict[str, str]) -> dict[str, dict[str, set[str]]]:
    """All that a record asks for: by view the parts (`feature:state`), each with its sides."""
    found: dict[str, dict[str, set[str]]] = {}
    for feature, state in profile.items():
        for view, sides in seen(garment_class, feature, profile).items():
            found.setdefault(view, {})[f"{feature}:{state}"] = sides
    return found
