"""Care marking in words (ISO 3758, as reproduced for 2012 and summarised for 2023; the standard itself not read).

Only what is printed becomes a value: `wash 40` names no process, `tumble dry` no heat.
"""

import re

from identification.label_reading.page import Page, near
from identification.label_reading.vocabulary import field, weakest

WASH_FIGURES = (95, 70, 60, 50, 40, 30)
# The hand-wash limit is 40 by one reproduction and 30 by another: neither is stated.
HAND_WASH_LIMITS = [30, 40]
IRON_DOTS = {"1": 1, "one": 1, "2": 2, "two": 2, "3": 3, "three": 3, "low": 1, "cool": 1, "medium": 2, "warm": 2}
IRON_DOTS |= {"high": 3, "hot": 3, "110": 1, "150": 2, "200": 3}
TUMBLE = {
    "low": "low",
    "cool": "low",
    "1": "low",
    "one": "low",
    "normal": "normal",
    "medium": "normal",
    "high": "normal",
}
TUMBLE |= {"hot": "normal", "2": "normal", "two": "normal", "warm": "normal"}
NOT = r"(?:DO NOT|DON'T|NEVER|NO|NOT TO BE|NICHT|NE PAS)"
DEGREES = r"(?: ?(?:°|º|DEG(?:REES)?\.?))?(?: ?C(?:ELSIUS)?\b)?"
PROCESS = r"(?P<{0}>VERY (?:MILD|GENTLE|DELICATE)|MILD|GENTLE|DELICATE|NORMAL|REGULAR|SCHONGANG)"
PROCESSES = {"normal": "normal", "regular": "normal"}
NEEDED = (
    *("wash", "launder", "bleach", "tumble", "iron", "clean", "dry", "wasch", "lav", "bleich", "blanch", "bügel"),
    *("repass", "wäsche", "chlorin"),
)
PATTERN = re.compile(
    r"(?<![A-Za-z0-9])(?:"
    rf"(?P<no_wash>{NOT} (?:MACHINE )?(?:WASH|LAUNDER|WASHED)\b|NICHT WASCHEN|NE PAS LAVER)"
    rf"|(?P<no_bleach>{NOT} (?:USE )?(?:BLEACH|BLEACHED)\b|NICHT BLEICHEN|NE PAS BLANCHIR)"
    rf"|(?P<no_chlorine>{NOT} (?:USE )?CHLORINE(?: BLEACH)?\b)"
    rf"|(?P<oxygen>(?:ONLY )?(?:OXYGEN|NON-?CHLORINE|NON CHLORINE)(?: BLEACH)?(?: ONLY)?(?: WHEN NEEDED)?\b)"
    rf"|(?P<no_tumble>{NOT} TUMBLE(?: DRY| DRIED)?\b|NICHT (?:IM TROCKNER|TROMMEL)[A-Z ]{{0,12}})"
    rf"|(?P<no_iron>{NOT} (?:IRON|IRONED)\b|NICHT BÜGELN|NE PAS REPASSER)"
    rf"|(?P<no_clean>{NOT} (?:DRY ?-?CLEAN|DRY ?-?CLEANED)\b|NICHT CHEMISCH REINIGEN|NE PAS NETTOYER À SEC)"
    rf"|(?P<no_wet>{NOT} WET ?-?CLEAN\b)"
    r"|(?P<hand>HAND ?-?WASH(?: ONLY)?|WASH BY HAND|HANDWÄSCHE)"
    rf"(?:,? ?(?:AT |MAX\.? ?)?(?P<hand_c>\d{{2}})(?![0-9]| ?%){DEGREES})?"
    rf"|(?P<wash>(?:MACHINE )?(?:WASH(?:ABLE)?|LAUNDER|WASCHEN|LAVER)(?! ?-?(?:ED|ING) )(?: (?:WARM|HOT|COLD|COOL))?)"
    rf"(?:,? {PROCESS.format('before')}(?: (?:CYCLE|PROCESS))?)?"
    rf"(?:,? ?(?:AT |MAX\.? ?|BEI |À )?(?P<wash_c>\d{{2,3}})(?![0-9/]| ?%){DEGREES})?"
    rf"(?:,? {PROCESS.format('after')}(?: (?:CYCLE|PROCESS))?\b)?"
    rf"|(?P<degrees>\d{{2}}) ?(?:°|º) ?C?,? (?:MACHINE )?WASH(?:,? {PROCESS.format('late')})?"
    r"|(?P<bleach>(?:ANY |CHLORINE )?BLEACH(?: ALLOWED| WHEN NEEDED)?\b)"
    r"|(?P<tumble>TUMBLE ?-?DRY)"
    r"(?:,? (?:AT )?(?P<tumble_how>LOW|COOL|NORMAL|MEDIUM|HIGH|WARM|HOT|[12] DOTS?|ONE DOT|TWO DOTS))?"
    r"(?: HEAT| TEMPERATURE)?"
    r"|(?P<natural>DRIP LINE DRY|DRIP DRY FLAT|DRIP FLAT DRY|DRIP DRY|LINE DRY|(?:DRY FLAT|FLAT DRY)|HANG(?: TO)? DRY)"
    r"(?P<shade> IN (?:THE )?SHADE)?"
    r"|(?P<how_iron>COOL|WARM|HOT|LOW|MEDIUM|HIGH) IRON\b"
    r"|(?P<iron>IRON|BÜGELN|REPASSER)(?:,? (?:AT |ON |MAX\.? ?)?"
    r"(?P<iron_how>LOW|COOL|MEDIUM|WARM|HIGH|HOT|[123] DOTS?|ONE DOT|TWO DOTS|THREE DOTS|(?:110|150|200)"
    rf"{DEGREES}))?(?: HEAT| SETTING)?(?P<no_steam>,? (?:WITHOUT|NO) STEAM)?"
    r"|(?P<pro>(?:PROFESSIONAL(?:LY)? )?(?:DRY|WET) ?-?CLEAN(?:ABLE|ING)?|CHEMISCH REINIGEN)(?: ONLY)?"
    r"(?: \(?(?P<solvent>[PFWA])\)?(?![A-Za-z]))?(?: ONLY)?"
    rf"(?:,? {PROCESS.format('pro_process')})?"
    r")(?![A-Za-z0-9])",
    re.IGNORECASE,
)

# Where any of it may begin, in small letters: most words are passed over at once.
BEGINS = re.compile(
    r"[abcdfhilmnoprtw\d](?<![a-z0-9].)(?:(?<=a)ny |(?<=b)[lü]|(?<=c)(?:h[el]|ool)|(?<=d)(?:o |on't|r[iy])"
    r"|(?<=f)lat|(?<=h)(?:a[nl]|ot|igh)|(?<=i)ron|(?<=l)(?:a[uv]|ow|ine)|(?<=m)(?:ach|ed)|(?<=n)[eoi]|(?<=o)[nx]"
    r"|(?<=p)ro|(?<=r)ep|(?<=t)umb|(?<=w)(?:a|et)|(?<=\d)\d)"
)


def read_care(page: Page) -> dict:
    """Care symbols in the order printed, each with what the words say and nothing more."""
    symbols, statuses, reasons, bad, first, last = [], [], set(), None, None, None
    remarks, figures, candidates = [], set(), None
    if not page.may_say(NEEDED):
        return field("absent", symbols=[])
    for match in near(PATTERN, page.free, [begin.start() for begin in BEGINS.finditer(page.folded())]):
        symbol = symbol_of(match)
        # A word that could be the trade's own, as in `iron grey`, is care only where it says something or stands alone.
        if symbol is None or (
            match.group().lower() in ("iron", "bleach", "wash") and not beside_care(page, match, symbols)
        ):
            continue
        page.claim(*match.span())
        first, last = first if first is not None else match.start(), match.end()
        figure = symbol.get("max_c")
        if symbol["group"] == "washing" and figure is not None and figure not in WASH_FIGURES:
            bad = bad or match.span("wash_c" if match["wash_c"] else "hand_c" if match["hand_c"] else "degrees")
            statuses.append("invalid")
            reasons.add("temperature_not_in_standard")
            continue
        if symbol.get("process") == "hand" and figure is None:
            statuses.append("ambiguous")
            reasons.add("edition_differs")
            candidates = HAND_WASH_LIMITS
        if figure is not None:
            figures.add(figure)
        if match["no_chlorine"]:
            remarks.append("Chlorine is forbidden; of oxygen bleach nothing is said.")
        if symbol not in symbols:
            symbols.append(symbol)
    if first is None:
        return field("absent", symbols=[])
    if len(figures) > 1:
        statuses.append("conflict")
        reasons.add("two_wash_temperatures")
    keys: dict = {"symbols": symbols} | ({"candidates": candidates} if candidates else {})
    if remarks:
        keys["remark"] = " ".join(remarks)
    return field(weakest(statuses), reasons, **keys) | page.printed(*(bad or (first, last)))


def beside_care(page: Page, match: re.Match, symbols: list) -> bool:
    return bool(symbols) or page.alone_on_line(*match.span())


def process_of(*words: str | None) -> str | None:
    word = next((word.lower() for word in words if word), None)
    if word is None:
        return None
    return "very mild" if word.startswith("very") else PROCESSES.get(word, "mild")


def symbol_of(match: re.Match) -> dict | None:
    if match["no_wash"]:
        return {"group": "washing", "max_c": None, "process": None, "allowed": "none"}
    if match["hand"]:
        return {"group": "washing", "max_c": int(match["hand_c"]) if match["hand_c"] else None, "process": "hand"}
    if match["wash"] or match["degrees"]:
        figure = match["wash_c"] or match["degrees"]
        process = process_of(match["before"], match["after"], match["late"])
        return {"group": "washing", "max_c": int(figure) if figure else None, "process": process}
    if match["no_bleach"] or match["oxygen"] or match["bleach"] or match["no_chlorine"]:
        allowed = "none" if match["no_bleach"] else "oxygen" if match["oxygen"] else "any" if match["bleach"] else None
        return {"group": "bleaching", "allowed": allowed}
    if match["no_tumble"]:
        return {"group": "drying", "tumble": "no"}
    if match["tumble"]:
        how = (match["tumble_how"] or "").lower().split()
        return {"group": "drying", "tumble": TUMBLE[how[0]] if how else None}
    if match["natural"]:
        return {"group": "drying", "natural": natural(match["natural"].lower())} | (
            {"shade": True} if match["shade"] else {}
        )
    if match["no_iron"]:
        return {"group": "ironing", "dots": None, "allowed": "none"}
    if match["how_iron"]:
        return {"group": "ironing", "dots": IRON_DOTS[match["how_iron"].lower()]}
    if match["iron"]:
        how = re.match(r"[a-z0-9]+", (match["iron_how"] or "").lower())
        symbol = {
            "group": "ironing",
            "dots": IRON_DOTS[how.group()[:3] if how.group().isdigit() else how.group()] if how else None,
        }
        return symbol | ({"steam": False} if match["no_steam"] else {})
    if match["no_clean"] or match["no_wet"]:
        return {"group": "professional", "solvent": "W" if match["no_wet"] else None, "allowed": "none"}
    if match["pro"]:
        solvent = match["solvent"].upper() if match["solvent"] else "W" if "wet" in match["pro"].lower() else None
        process = process_of(match["pro_process"])
        return {"group": "professional", "solvent": solvent} | ({"process": process} if process else {})
    return None


def natural(words: str) -> str:
    drip, flat = "drip" in words, "flat" in words
    return ("drip " if drip else "") + ("flat" if flat else "line")
