"""The society's fixed words for the reference, with what each means. Everything else is data."""

from dataclasses import dataclass

from django.db import models

# Behind a name in the spreadsheets: no such garment was issued under it.
NEVER_ISSUED = "(never issued)"


class VersionKind(models.TextChoices):
    ISSUE = "issue", "Issue"
    TRIAL = "trial", "Trial"
    TRANSITIONAL = "transitional", "Transitional"
    DEPOT_MODIFICATION = "depot_modification", "Depot modification"
    CONVERSION = "conversion", "Conversion"
    COMMERCIAL_COPY = "commercial_copy", "Commercial copy"
    REPRODUCTION = "reproduction", "Reproduction"
    UNPLACED = "unplaced", "Unplaced"


KIND_MEANING = {
    VersionKind.ISSUE: "A pattern that the service ordered and gave out.",
    VersionKind.TRIAL: "A small lot made for a trial, then rejected or changed.",
    VersionKind.TRANSITIONAL: "New parts on an old body while stock was used up, by order.",
    VersionKind.DEPOT_MODIFICATION: "An ordered change to garments already in stock.",
    VersionKind.CONVERSION: "Turned into something else later; never issued in this form.",
    VersionKind.COMMERCIAL_COPY: "Made for sale to look alike; never issued.",
    VersionKind.REPRODUCTION: "Openly sold as new; a problem once its label is gone.",
    VersionKind.UNPLACED: "Real pieces or papers that fit no settled version.",
}


class FeatureKind(models.TextChoices):
    CHOICE = "choice", "Choice"
    COUNT = "count", "Count"
    MEASUREMENT = "measurement", "Measurement"


class Seen(models.TextChoices):
    """How a feature is looked at, easiest first."""

    OUTSIDE = "outside", "Seen from outside"
    HANDLED = "handled", "Touch or lift it"
    DAYLIGHT = "daylight", "Needs good light"
    OPENED = "opened", "Open the garment"
    MEASURED = "measured", "Measure or count closely"


class ServiceChange(models.TextChoices):
    """How easily a part changes while the garment is worn."""

    EASILY = "easily", "Often replaced or lost"
    WEAR = "wear", "Changes with wear"
    REPAIR = "repair", "Changed in repair"
    DELIBERATE = "deliberate", "Only changed on purpose"
    NO = "no", "Does not change"


REPLACEABLE = {ServiceChange.EASILY, ServiceChange.WEAR, ServiceChange.REPAIR}


class HowOften(models.TextChoices):
    """How often a state occurs among the pieces of one version."""

    ALWAYS = "always", "always"
    USUALLY = "usually", "usually"
    SOMETIMES = "sometimes", "sometimes"
    SELDOM = "seldom", "seldom"


class Certainty(models.TextChoices):
    DOCUMENTED = "documented", "Documented"
    OBSERVED = "observed", "Observed on pieces"
    INFERRED = "inferred", "Inferred"


class Grade(models.TextChoices):
    """How good a piece of evidence is (the society's own scale)."""

    A = "A", "A: official dated paper that names the feature"
    B = "B", "B: dated label or piece, seen and photographed"
    C = "C", "C: contemporary print or photograph"
    D = "D", "D: recollection"
    E = "E", "E: seller's description"


class SourceKind(models.TextChoices):
    """What a source is. A ledger and a seller's word are kept apart from the others, since neither is as good."""

    SPECIFICATION = "specification", "Specification"
    TENDER = "tender", "Tender or contract"
    ORDER = "order", "Regulation or dress instruction"
    LEDGER = "ledger", "Ledger or book of a works"
    LABEL = "label", "Dated label"
    PHOTOGRAPH = "photograph", "Period photograph"
    PUBLICATION = "publication", "Publication or report"
    TESTIMONY = "testimony", "Testimony"
    SELLER = "seller", "Seller's word"


# What else people write for a kind, each offered where it is typed. Common practice, no source.
CALLED_KIND = {
    "contract": SourceKind.TENDER,
    "regulation": SourceKind.ORDER,
    "dress instruction": SourceKind.ORDER,
    "instruction": SourceKind.ORDER,
    "safety notice": SourceKind.ORDER,
    "dye record": SourceKind.LEDGER,
    "photo": SourceKind.PHOTOGRAPH,
    "album": SourceKind.PHOTOGRAPH,
    "book": SourceKind.PUBLICATION,
    "newsletter": SourceKind.PUBLICATION,
    "report": SourceKind.PUBLICATION,
    "newspaper": SourceKind.PUBLICATION,
    "recollection": SourceKind.TESTIMONY,
    "observation": SourceKind.TESTIMONY,
    "interview": SourceKind.TESTIMONY,
    "letter": SourceKind.TESTIMONY,
    "advertisement": SourceKind.SELLER,
    "seller description": SourceKind.SELLER,
    "listing": SourceKind.SELLER,
    "price list": SourceKind.SELLER,
}


@dataclass(frozen=True)
class FindAgain:
    """What `date`, `holder` and `shelf_mark` of a source are called for its kind, and which it cannot do without."""

    date: str
    holder: str
    shelf_mark: str
    needed: tuple[str, ...]


PAPER = FindAgain("Its date", "Who keeps it", "Number of the file or page, or shelf mark", ("holder",))
# What it takes to find a source again, by its kind. Common practice, no source.
FIND_AGAIN = {
    SourceKind.SPECIFICATION: PAPER,
    SourceKind.TENDER: PAPER,
    SourceKind.ORDER: PAPER,
    SourceKind.LEDGER: FindAgain("Years it covers", "Who keeps it", "Volume and page, or shelf mark", ("holder",)),
    SourceKind.LABEL: FindAgain(
        "Date on the label", "On which piece, or where the record of it is", "Number of the record", ("date", "holder")
    ),
    SourceKind.PHOTOGRAPH: FindAgain(
        "When it was taken", "Where it is held", "Number of the print, or page of the album", ("holder",)
    ),
    SourceKind.PUBLICATION: FindAgain(
        "When it came out", "Who brought it out, or where it can be read", "Issue, chapter or page", ("date",)
    ),
    SourceKind.TESTIMONY: FindAgain(
        "When it was told", "Who told it, or where it is kept", "Number of the recording or letter", ("date", "holder")
    ),
    SourceKind.SELLER: FindAgain(
        "When it was offered", "Where it was offered, or who kept it", "Number of the offer or page", ("date", "holder")
    ),
}


class Stance(models.TextChoices):
    SUPPORTS = "supports", "supports"
    CONTRADICTS = "contradicts", "contradicts"


class HazardKind(models.TextChoices):
    DO_NOT_OPEN = "do_not_open", "Do not open or handle"
    TREATED = "treated", "Treated cloth"
    OLD_INSECTICIDE = "old_insecticide", "Old insecticide possible"
    STICKY = "sticky", "Sticky coating"
    UNKNOWN_FINISH = "unknown_finish", "Unknown finish"


class Restriction(models.TextChoices):
    """What the law of some places may restrict; the words that are shown. Never a statement of what the law is."""

    WEARING = "wearing", "Collecting is not wearing. Follow local law; never use a piece to pass as someone."
    EMBLEM = "emblem", "It may bear an emblem that the law protects. Follow local law before you wear, show or sell it."
    EXPORT = "export", "Export may need a licence. Ask before posting abroad."


# Where on the page of cautions each is explained.
RESTRICTION_PLACES = {Restriction.WEARING: "uniforms", Restriction.EMBLEM: "emblems", Restriction.EXPORT: "abroad"}


class NameBy(models.TextChoices):
    MEMBERS = "members", "used by members"
    SELLERS = "sellers", "used by sellers"


class GoesWith(models.TextChoices):
    """How a version goes with one of another garment type."""

    FITS = "fits", "fits"
    WORN_WITH = "worn_with", "was worn with"


class AncestorRole(models.TextChoices):
    CONTINUES = "continues", "continues or imitates"
    MADE_FROM = "made_from", "made from"


# Answers and parameters that an address may hold beside the society's own codes, which therefore may not use them.
CANNOT_TELL, PART_MISSING, ALTERED, NO_SUCH_PART = "cannot-tell", "part-missing", "altered", "no-such-part"
RESERVED_ANSWERS = (CANNOT_TELL, PART_MISSING, ALTERED, NO_SUCH_PART)


# How far a version's record was looked at, by its standing; PASSED is one that was not proposed, but looked through.
PASSED = "passed"
STANDING_WORDS = {
    "imported": "imported, not reviewed",
    "written": "written by hand, not reviewed",
    PASSED: "looked through by a moderator",
    "approved": "approved",
}
UNREVIEWED = ("imported", "written")


# A length of a garment in millimetres is at most this; a size mark has at most so many characters.
LONGEST_MM = 3_000
LONGEST_MARK = 40


class Measured(models.TextChoices):
    """What is measured, garment laid flat and fastened. Names: common practice, no source."""

    PIT_TO_PIT = "pit_to_pit", "Pit to pit"
    BACK_LENGTH = "back_length", "Back length"
    SLEEVE = "sleeve", "Sleeve"
    SHOULDER = "shoulder", "Shoulder"
    WAIST = "waist", "Waist"
    INSIDE_LEG = "inside_leg", "Inside leg"
    RISE = "rise", "Rise"
    HEM = "hem", "Hem or leg width"
    HEAD = "head", "Inside circumference"
    BRIM = "brim", "Brim at the side"


MEASURED_FROM = {
    Measured.PIT_TO_PIT: "armhole seam to armhole seam; double it for the girth",
    Measured.BACK_LENGTH: "neck seam at centre back to hem",
    Measured.SLEEVE: "shoulder seam to cuff end; of a raglan sleeve neck seam to cuff end",
    Measured.SHOULDER: "seam to seam",
    Measured.WAIST: "waistband edge to edge",
    Measured.INSIDE_LEG: "crotch to leg end",
    Measured.RISE: "crotch to the top of the waistband",
    Measured.HEM: "edge to edge",
    Measured.HEAD: "round the inside of the sweatband",
    Measured.BRIM: "crown to brim edge at the side",
}


class NamesOnScan(models.TextChoices):
    """Whether names or faces of private persons are to be seen on a scan of a source, which is personal data."""

    NONE = "none", "None is to be seen"
    MASKED = "masked", "Made unreadable"
    TO_MASK = "to_mask", "To be seen; the moderators make them unreadable"
