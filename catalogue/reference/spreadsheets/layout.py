"""The society's files and their columns: the one description that import, export and documentation share."""

from dataclasses import dataclass

from catalogue.reference.codes import FEATURE, TYPE
from catalogue.reference.regions import View
from catalogue.reference.spreadsheets.columns import (
    LONGEST_TEXT,
    Column,
    alternatives,
    code,
    drawing,
    label_says,
    mark_list,
    names,
    number,
    places,
    reference,
    several_words,
    text,
    uncertain_date,
    whole,
    words,
    year,
    yes_no,
)
from catalogue.reference.words import (
    CALLED_KIND,
    LONGEST_MARK,
    LONGEST_MM,
    Certainty,
    FeatureKind,
    GoesWith,
    Grade,
    HazardKind,
    HowOften,
    Measured,
    Restriction,
    Seen,
    ServiceChange,
    SourceKind,
    VersionKind,
)

# Fields of a state that its columns give as they are.
STATE_FIELDS = ("label", "explained", "label_says", "low", "high", "drawing")


@dataclass(frozen=True)
class Sheet:
    """One file. `key` names the columns that together stand once."""

    name: str
    about: str
    key: tuple[str, ...]
    columns: tuple[Column, ...]

    @property
    def file(self) -> str:
        return f"{self.name}.csv"

    @property
    def header(self) -> list[str]:
        return [column.name for column in self.columns]


def note(meaning: str = "note") -> Column:
    return text("note", meaning, longest=LONGEST_TEXT)


SHEETS: tuple[Sheet, ...] = (
    Sheet(
        "issuers",
        "Services that gave clothing out.",
        ("issuer",),
        (
            code("issuer", "code of the service"),
            text("name", "its name", required=True),
            uncertain_date("date", "how long it existed"),
            text("place", "where"),
            reference("predecessor", "service before it", "issuers"),
            reference("successor", "service after it", "issuers"),
            note(),
            reference("sources", "sources for it", "sources", many=True),
        ),
    ),
    Sheet(
        "makers",
        "Works, contractors, depots and copyists.",
        ("maker",),
        (
            code("maker", "code of the maker"),
            text("name", "its name", required=True),
            text("place", "where"),
            year("first_year", "first year of work"),
            year("last_year", "last year of work"),
            text("kind", "what it was", longest=80),
            text("mark", "what stands on its labels"),
            text("habits", "habits of making; never a version of their own", longest=LONGEST_TEXT),
        ),
    ),
    Sheet(
        "sources",
        "What claims rest on.",
        ("source",),
        (
            code("source", "number of the source"),
            words("kind", "what it is", SourceKind, called=CALLED_KIND),
            text("title", "title", required=True, longest=300),
            uncertain_date("date", "its date"),
            text("holder", "who keeps it; of a testimony who told it"),
            text("shelf_mark", "number of file, page, print or recording where it is kept"),
            words("grade", "how good it is, A official paper to E seller's word", Grade),
            yes_no("personal_data", "names or faces of private persons", default=False),
            note(),
        ),
    ),
    Sheet(
        "cuts",
        "Cuts: made for a climate or a wearer.",
        ("cut",),
        (code("cut", "code of the cut"), text("name", "its name", required=True, longest=100), note()),
    ),
    Sheet(
        "colourways",
        "Prints and dye groups.",
        ("colourway",),
        (code("colourway", "code"), text("name", "its name", required=True, longest=100), note()),
    ),
    Sheet(
        "types",
        "Garment types.",
        ("type",),
        (
            code("type", "code of the garment type", TYPE),
            text("name", "its name", required=True),
            names("other_names", "names used by members"),
            text("garment_class", "outline it is drawn with: a garment of the region list, or empty", longest=40),
            reference("issuer", "who issued it", "issuers"),
            text("description", "in one or two sentences", longest=LONGEST_TEXT),
            text("caution", "shown before anything is asked", longest=LONGEST_TEXT),
            reference("features", "features that apply, in reading order", "features", many=True),
        ),
    ),
    Sheet(
        "silhouettes",
        "The society's own outlines of garment types, where the site's do not fit.",
        ("type", "view"),
        (
            reference("type", "the garment type", "types", required=True),
            words("view", "the view", View),
            drawing("drawing", "the outline", required=True),
        ),
    ),
    Sheet(
        "features",
        "Diagnostic features.",
        ("feature",),
        (
            code("feature", "code of the feature", FEATURE),
            text("name", "short name", required=True),
            text("group", "heading it stands under", longest=80),
            text("question", "the question that is asked", required=True, longest=300),
            words("kind", "how it is answered", FeatureKind),
            text("unit", "unit of bands and measures", longest=20),
            number("spread", "standard deviation of a measure, in its unit", "a number over 0", 1e-6, 1e6, default=5.0),
            words("seen", "how it is looked at", Seen),
            number("effort", "effort of looking", "a number over 0", 1e-6, 1e6, default=1.0),
            number("error", "chance that an answer is wrong", "a chance from 0 to 0.999", 0, 0.999, default=0.05),
            text("error_note", "why people get it wrong", longest=LONGEST_TEXT),
            words("service_change", "how easily the part changes in service", ServiceChange),
            text("change_note", "what happens to it in service", longest=LONGEST_TEXT),
            text("absent", "state that a lost part leaves; empty: cannot be lost", longest=80),
            number("loss", "chance that an issued part is gone", "a chance from 0 to 1", 0, 1, default=0.0),
            number("gain", "chance that a part was added", "a chance from 0 to 1", 0, 1, default=0.0),
            reference("parent", "feature without which this one does not exist", "features"),
            alternatives("shown_when", "states of the parent under which it exists"),
            places("places", "where to look; any:cloth is the whole cloth"),
            text("basis", "standard or paper behind the term", longest=300),
        ),
    ),
    Sheet(
        "states",
        "States of the features, in their order.",
        ("feature", "state"),
        (
            reference("feature", "the feature", "features", required=True),
            code("state", "code of the state"),
            text("label", "the answer in words", required=True),
            text("explained", "what the trade word means", longest=300),
            label_says("label_says", "what a label says whose piece shows it"),
            number("low", "least of the band, included", "a number, or empty", -1e9, 1e9),
            number("high", "end of the band, not included; empty has no limit", "a number, or empty", -1e9, 1e9),
            drawing("drawing", "the society's own drawing, where the site's does not fit"),
        ),
    ),
    Sheet(
        "versions",
        "Issue versions, and what is taken for one.",
        ("version",),
        (
            code("version", "code of the version"),
            reference("type", "garment type", "types", required=True),
            text("name", "its name", required=True),
            names("other_names", "names used by members"),
            names("sellers_names", "names used by sellers; (never issued) behind one of a garment that never was"),
            words("kind", "kind of version", VersionKind),
            reference("cut", "cut", "cuts"),
            reference("colourway", "colourway", "colourways"),
            reference("issuer", "who issued it; empty for what nobody issued", "issuers"),
            uncertain_date("date", "span of issue or making"),
            reference(
                "continues", "versions it continues or imitates; its profile follows the first", "versions", many=True
            ),
            reference("made_from", "versions that altered pieces were made from", "versions", many=True),
            reference("makers", "makers", "makers", many=True),
            whole("rarity", "author's judgement", "1 common to 5 rare", 1, 5, default=3),
            number("abundance", "relative number of pieces; wins over rarity", "a number from 0, or empty", 0, 1e12),
            words("certainty", "how well the record is founded", Certainty),
            yes_no("piece_seen", "has a member seen a piece", default=True),
            reference("sources", "sources that support it", "sources", many=True),
            reference("contradicting_sources", "sources that contradict it", "sources", many=True),
            text("reason", "why it was made or changed", longest=LONGEST_TEXT),
            note(),
            reference("passes_for", "other types it may be taken for", "types", many=True),
            words("hazard_kind", "kind of hazard", HazardKind, required=False),
            text("hazard", "the hazard in words"),
            several_words("restrictions", "what the law of some places may restrict", Restriction),
            text("retired", "why it is held to be no version any more; empty while it is one", longest=LONGEST_TEXT),
            reference("became", "of a retired version, what it became; its page leads there", "versions", many=True),
        ),
    ),
    Sheet(
        "profiles",
        "How versions look, a row for each state that occurs. A feature without a row is not recorded.",
        ("version", "feature", "state"),
        (
            reference("version", "the version; its rows here are its whole profile", "versions", required=True),
            reference("feature", "the feature", "features", required=True),
            text("state", "a state of the feature", required=True, longest=80),
            words("how_often", "how often it occurs", HowOften),
            number("share", "counted share of pieces; wins over the word", "over 0 to 1, or empty", 1e-9, 1),
            words(
                "certainty", "empty: carried over from the version it continues, or asserted", Certainty, required=False
            ),
            mark_list("sizes", "only on these size marks"),
            reference("makers", "only from these makers", "makers", many=True),
            year("first_year", "only from this year"),
            year("last_year", "only until this year"),
            reference("sources", "sources for this state", "sources", many=True),
            reference("contradicting_sources", "sources against it", "sources", many=True),
            note(),
        ),
    ),
    Sheet(
        "number_forms",
        "How stock, contract and size numbers are written.",
        ("form",),
        (
            code("form", "code of the form"),
            text("name", "what it is", required=True),
            text("groups", "what each group means", longest=LONGEST_TEXT),
            text(
                "pattern",
                "9 a figure, 9{a-b} a to b figures, A a capital, ( ) groups, \\ the next sign itself",
                required=True,
                longest=120,
            ),
            whole("year_group", "group that holds the year", "a group number, or empty", 1, 20),
            text("check_rule", "rule over the groups"),
            uncertain_date("years", "in use"),
            words("of_kind", "the kind of version whose pieces alone carry it", VersionKind, required=False),
            text("example", "one number that fits", longest=80),
            note(),
        ),
    ),
    Sheet(
        "stock_numbers",
        "Which number labels of a version carry, and when.",
        ("number", "version"),
        (
            text("number", "number as printed", required=True, longest=80),
            reference("version", "the version", "versions", required=True),
            reference("form", "form of the number", "number_forms"),
            year("first_year", "first year on labels"),
            year("last_year", "last year on labels"),
            text("misprint_of", "the right number, if this one is a misprint", longest=80),
            reference("sources", "sources for it", "sources", many=True),
            note(),
        ),
    ),
    Sheet(
        "sizes",
        "Documented size tables: a row for each length of each size mark, garment laid flat.",
        ("version", "mark", "length"),
        (
            reference("version", "the version", "versions", required=True),
            text("mark", "size mark as on labels", required=True, longest=LONGEST_MARK),
            words("length", "which length", Measured),
            whole("mm", "how long it is to be", f"whole millimetres, 1 to {LONGEST_MM}", 1, LONGEST_MM, required=True),
            reference("source", "the paper that gives it", "sources", required=True),
        ),
    ),
    Sheet(
        "companions",
        "Which versions fit each other, or were worn together; said once, whichever is named first.",
        ("version", "other", "goes_with"),
        (
            reference("version", "the version", "versions", required=True),
            reference("other", "the version that it goes with", "versions", required=True),
            words("goes_with", "how it goes with it", GoesWith),
            reference("joined_by", "of what fits, the feature of both that shows what joins them", "features"),
            reference("sources", "sources for it", "sources", many=True),
            note(),
        ),
    ),
    Sheet(
        "open_questions",
        "Disputed matters.",
        ("question",),
        (
            code("question", "number of the question"),
            text("text", "the question", required=True, longest=300),
            reference("versions", "versions it touches", "versions", many=True),
            reference("features", "features whose rows of those versions it is about", "features", many=True),
            text("would_settle", "the piece or paper that would settle it", longest=LONGEST_TEXT),
            yes_no("settled", "has it been settled", default=False),
            text("moderator_note", "the standing decision", longest=LONGEST_TEXT),
        ),
    ),
    Sheet(
        "question_views",
        "The views that are held on open questions.",
        ("question", "letter"),
        (
            reference("question", "the question", "open_questions", required=True),
            text("letter", "letter of the view; A to Z, then AA, AB …", required=True, longest=2),
            text("holder", "who holds it", required=True, longest=80),
            text("text", "the view", required=True, longest=LONGEST_TEXT),
            reference("sources", "sources it names", "sources", many=True),
            yes_no("stands", "the question is settled for this view", default=False),
            yes_no("disowned", "the member named as its holder says that it is not theirs", default=False),
            text("taken_out", "why moderators took it out; empty while it is one of them", longest=LONGEST_TEXT),
        ),
    ),
)
SHEET_BY_NAME = {sheet.name: sheet for sheet in SHEETS}
