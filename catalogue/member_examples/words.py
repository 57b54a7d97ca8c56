"""The society's fixed words for members' pieces, with what each means. Everything else is data."""

from django.db import models


class ExampleState(models.TextChoices):
    """Where an example stands between its owner and the moderators."""

    DRAFT = "draft", "Draft"
    SUBMITTED = "submitted", "Waiting for a moderator"
    RETURNED = "returned", "Returned with a question"
    ACCEPTED = "accepted", "Accepted"
    DECLINED = "declined", "Declined"
    WITHDRAWN = "withdrawn", "Withdrawn"


class Condition(models.TextChoices):
    """The society's own scale. Completeness and alteration are not condition."""

    UNISSUED = "unissued", "Unissued"
    VERY_GOOD = "very_good", "Very good"
    GOOD = "good", "Good"
    WORN = "worn", "Worn"
    POOR = "poor", "Poor"


CONDITION_MEANING = {
    Condition.UNISSUED: "No wear, labels crisp.",
    Condition.VERY_GOOD: "Little wear, everything there.",
    Condition.GOOD: "Worn, complete.",
    Condition.WORN: "Faded or repaired, complete.",
    Condition.POOR: "Damaged, or parts missing.",
}


class NameOnLabel(models.TextChoices):
    """Whether a label carries a wearer's name, which is personal data."""

    NOT_LOOKED = "not_looked", "Not looked for"
    NONE = "none", "No name"
    MASKED = "masked", "A name, masked"
    TO_MASK = "to_mask", "A name, not yet masked"


class NamePlace(models.TextChoices):
    """Where a wearer's name was made unreadable."""

    TEXT = "text", "In a text"
    PHOTOGRAPH = "photograph", "In a photograph"


class LabelKind(models.TextChoices):
    MAIN = "main", "Main label"
    SIZE = "size", "Size label"
    CONTRACT = "contract", "Contract label"
    TREATMENT = "treatment", "Treatment label"
    CARE = "care", "Care label"
    STAMP = "stamp", "Stamp"
    PROPERTY_MARK = "property_mark", "Property mark"
    OTHER = "other", "Another label"


class Attachment(models.TextChoices):
    """How a label is fixed to the cloth."""

    NOT_KNOWN = "not_known", "Not recorded"
    SEWN = "sewn", "Sewn on"
    INK = "ink", "Stamped or printed on the cloth"
    WRITTEN = "written", "Written by hand"
    GLUED = "glued", "Glued or heat-sealed"
    LOOSE = "loose", "Loose, kept with the piece"


class LabelOrigin(models.TextChoices):
    NOT_KNOWN = "not_known", "Not recorded"
    ORIGINAL = "original", "There from the beginning"
    ADDED = "added", "Added or moved later"
    TRACE = "trace", "Only a trace: needle holes or a paler patch"


class AlterationKind(models.TextChoices):
    """What was done to a piece after it was issued."""

    CUT_OFF = "cut_off", "Cut off"
    REMOVED = "removed", "Taken off"
    OPENED = "opened", "Opened"
    CLOSED = "closed", "Closed"
    SHORTENED = "shortened", "Shortened"
    TAKEN_IN = "taken_in", "Taken in"
    LET_OUT = "let_out", "Let out"
    REPLACED = "replaced", "Replaced"
    ADDED = "added", "Added"
    RE_LABELLED = "re_labelled", "Re-labelled"
    DYED = "dyed", "Dyed or bleached"


class AlteredBy(models.TextChoices):
    NOT_KNOWN = "not_known", "Not known"
    SERVICE = "service", "The service or its depot"
    WEARER = "wearer", "A wearer"
    LATER = "later", "A later owner or seller"


class ProtectedShade(models.TextChoices):
    """The shade under a flap or inside a pocket, held beside that where light falls."""

    SAME = "same", "The same"
    DEEPER = "deeper", "The same colour, deeper"
    PALER = "paler", "The same colour, paler"
    OTHER = "other", "Another colour"
    CANNOT_TELL = "cannot_tell", "Cannot tell"


class Shot(models.TextChoices):
    """The standard photographs, in the order of taking."""

    FRONT = "front", "Front, fastened, flat"
    BACK = "back", "Back"
    SIDE = "side", "Side"
    TOP = "top", "Top"
    PALM = "palm", "Palm side"
    INSIDE = "inside", "Opened flat, inside"
    NECK_INSIDE = "neck_inside", "Neck inside with the label in place"
    WAISTBAND_INSIDE = "waistband_inside", "Waistband inside with the label in place"
    CROWN_INSIDE = "crown_inside", "Inside of the crown"
    SWEATBAND = "sweatband", "Sweatband"
    MAIN_LABEL = "main_label", "Main label, whole and sharp"
    LABEL_BACK = "label_back", "Back of the label and its stitching"
    SIZE_LABEL = "size_label", "Size label"
    TREATMENT_LABEL = "treatment_label", "Treatment or care label"
    PROPERTY_MARK = "property_mark", "Property mark, light from the side"
    CLOSURE = "closure", "Closure closed and open"
    FLY = "fly", "Fly"
    BUTTON = "button", "One button, front and back"
    CUFF = "cuff", "Cuff"
    GLOVE_CUFF = "glove_cuff", "Cuff of a glove"
    LEG_END = "leg_end", "Leg end"
    POCKET = "pocket", "Pocket and flap, flap lifted"
    FLAP = "flap", "Flap"
    STRAP = "strap", "Strap and its anchors"
    SEAM = "seam", "Seam from inside with a ruler over 3 cm"
    WEAVE = "weave", "Cloth with a ruler"
    PRINT_REPEAT = "print_repeat", "Print with a tape over one repeat"
    DAYLIGHT = "daylight", "Under a flap in daylight with a colour card"
    DEFECT = "defect", "Repair, alteration or defect"
    SET = "set", "All pieces of a set together"
    OTHER = "other", "Another view"


class Answer(models.TextChoices):
    """What one look gave. Only the first names a state or a value."""

    SEEN = "seen", "Seen"
    CANNOT_TELL = "cannot_tell", "Looked, could not tell"
    PART_MISSING = "part_missing", "The part was there and is gone"
    ALTERED = "altered", "Altered, says nothing of the version"
    NO_SUCH_PART = "no_such_part", "This piece has no such part"


class AttributedBy(models.TextChoices):
    MEMBER = "member", "A member"
    SOCIETY = "society", "The society, by decision"
    ENGINE = "engine", "The site's own identification"


class Held(models.TextChoices):
    """What somebody holds an example to be."""

    VERSION = "version", "A version"
    NOT_IN_REFERENCE = "not_in_reference", "Not in the reference"
    CANNOT_SAY = "cannot_say", "Cannot say"


class DecisionKind(models.TextChoices):
    ACCEPTED = "accepted", "Accepted"
    RETURNED = "returned", "Returned with a question"
    DECLINED = "declined", "Declined"
    ATTRIBUTED_ANEW = "attributed_anew", "Attributed anew"
    REOPENED = "reopened", "Opened again"


class Together(models.TextChoices):
    """Whether the pieces of a set were issued or worn together. Not known is a fact of its own."""

    YES = "yes", "Yes"
    NO = "no", "No"
    UNKNOWN = "unknown", "Not known"
