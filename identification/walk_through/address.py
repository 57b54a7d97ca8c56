"""The whole state of a walk is its address: read here, and written here.

`?front_closure=zip&waist_draw=cannot-tell&print_repeat=410mm&_views=front,label`

A parameter named like a feature holds an answer: a state's code, several states with commas between, a measurement
with its unit, or one of the reserved words. A second value of the same parameter is the answer given when the
question was read back. Names that begin with `_` are the site's own. What is not understood is dropped and named.
"""

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from urllib.parse import urlencode

from catalogue.reference.facts import FeatureFacts
from catalogue.reference.words import ALTERED, CANNOT_TELL, PART_MISSING
from identification.engine.label_witness import SEWN
from identification.label_reading.context import EARLIEST_YEAR

PLAIN_ANSWERS = (CANNOT_TELL, PART_MISSING, ALTERED)
MILLIMETRES = {"mm": 1.0, "cm": 10.0, "in": 25.4}
NUMBER = re.compile(r"(\d{1,5}(?:[.,]\d{1,3})?)\s*(mm|cm|in)?", re.ASCII)
LONGEST_MEASURE = 10_000
SHOWN_OF_A_NAME = 40
LONGEST_LABEL_NUMBER = 120
YES = "yes"
# How the label is sewn in: a question of the site's own, about no version, so it stands beside the features.
LABEL_SEWN = "_label_sewn"
LAST_YEAR = 9999
LABEL_SERIAL = "_label_serial"
# States that the label shows by what it says: `size_system:cm`, with commas between.
LABEL_SAYS = "_label_says"
# Only where the address gives data: the program that asks has read the caution.
ACCEPTED = "_accepted"
# In place of the views that pictures show: the piece itself, looked at from outside only.
OUTSIDE = "outside"


@dataclass(frozen=True)
class Walk:
    """Answers by feature (one text, or two after reading back) and what else the address says.

    `views`: what alone can be seen of the piece, either OUTSIDE or views that pictures show; none for all of it.
    `accepted`, that the caution was read, is never in the address of a page: who gets a copy of it has read nothing.
    """

    answers: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    ask: str = ""
    accepted: bool = False
    views: tuple[str, ...] = ()
    stop: bool = False
    came_from_any: bool = False
    maker: str = ""
    size: str = ""
    year: int | None = None
    label_number: str = ""
    label_year: int | None = None
    label_maker: str = ""
    label_repair: str = ""
    label_serial: str = ""
    label_contract: int | None = None
    label_country: str = ""
    label_sewn: str = ""
    label_says: tuple[tuple[str, tuple[str, ...]], ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def label_key(self) -> tuple:
        """What the address says of the label; all empty where it says nothing."""
        return (
            self.label_number, self.label_year, self.label_maker, self.label_repair, self.label_contract,
            self.label_country, self.label_serial, self.label_sewn, self.label_says,
        )  # fmt: skip

    @property
    def label_makers(self) -> tuple[str, ...]:
        """The codes of all makers on the label, or the labels, of the piece."""
        return codes_in(self.label_maker)

    @property
    def label_repairs(self) -> tuple[str, ...]:
        """The codes of those whose mark of a repair stands on it."""
        return codes_in(self.label_repair)

    @property
    def label_serials(self) -> tuple[str, ...]:
        """The forms of the serials on it that tell a kind of version."""
        return codes_in(self.label_serial)

    @property
    def says_of_label(self) -> bool:
        """Whether the address says what stands on the label; how it is sewn in alone tells nothing."""
        said = (self.label_number, self.label_year, self.label_maker, self.label_repair, self.label_contract)
        return any(said) or bool(self.label_country or self.label_serial or self.label_says)

    def without_label(self) -> "Walk":
        texts = ("label_number", "label_maker", "label_repair", "label_country", "label_serial", "label_sewn")
        return replace(self, **dict.fromkeys(texts, ""), label_year=None, label_contract=None, label_says=(), ask="")

    def with_answer(self, feature: str, *texts: str) -> "Walk":
        return replace(self, answers={**self.answers, feature: texts}, ask="", stop=False)

    def without(self, feature: str) -> "Walk":
        return replace(self, answers={code: a for code, a in self.answers.items() if code != feature}, ask="")

    def pairs(self) -> list[tuple[str, str]]:
        """Names and values in the order in which they were given, the site's own last."""
        own = [
            ("_maker", self.maker),
            ("_size", self.size),
            ("_year", str(self.year or "")),
            ("_label_number", self.label_number),
            ("_label_year", str(self.label_year or "")),
            ("_label_maker", self.label_maker),
            ("_label_repair", self.label_repair),
            ("_label_contract", str(self.label_contract or "")),
            ("_label_country", self.label_country),
            (LABEL_SERIAL, self.label_serial),
            (LABEL_SAYS, label_says_text(self.label_says)),
            (LABEL_SEWN, self.label_sewn),
            ("_views", ",".join(self.views)),
            ("_from", "any-garment" if self.came_from_any else ""),
            ("_stop", YES if self.stop else ""),
            ("_ask", self.ask),
        ]
        given = [(feature, text) for feature, texts in self.answers.items() for text in texts]
        return given + [(name, value) for name, value in own if value]

    def query(self) -> str:
        """The address behind the question mark, with the question mark; `?` alone for a new walk."""
        return "?" + urlencode(self.pairs(), safe=",")


def codes_in(text: str) -> tuple[str, ...]:
    """Codes with commas between, each once."""
    return tuple(dict.fromkeys(one.strip() for one in text.split(",") if one.strip()))


def read_walk(
    pairs: Iterable[tuple[str, str]],
    features: Mapping[str, FeatureFacts],
    *,
    makers: Iterable[str] = (),
    sizes: Iterable[str] = (),
    views: Iterable[str] = (),
    labelled_by: Collection[str] | None = None,
    serials: Collection[str] | None = None,
    this_year: int = LAST_YEAR,
) -> Walk:
    """The walk that an address describes. Never raises: what it cannot use is named in `notes`. `labelled_by`: codes of
    all makers on record, and `serials` of the forms that tell a kind of version, where that is known; no label is of a
    year after `this_year`."""
    answers: dict[str, tuple[str, ...]] = {}
    own: dict[str, str] = {}
    notes: list[str] = []
    for name, value in pairs:
        if name in features:
            note_or_answer(features[name], value, answers, notes)
        elif name == "_views":
            own[name] = f"{own[name]},{value}" if name in own else value
        elif name.startswith("_"):
            own[name] = value
        else:
            notes.append(f"“{shortened(name)}” is not a feature of this garment type: left out.")
    for name in ("_label_maker", "_label_repair") if labelled_by is not None else ():
        own[name] = known_codes(own.get(name, ""), labelled_by, "maker on record", notes)
    if serials is not None:
        words = "serial that tells a kind of version"
        own[LABEL_SERIAL] = known_codes(own.get(LABEL_SERIAL, ""), serials, words, notes)
    known = own_parameters(own, features, set(makers), set(sizes), notes, this_year)
    known["views"] = read_views(own.get("_views", ""), tuple(views), notes)
    return Walk(answers=answers, notes=tuple(notes), **known)


def note_or_answer(feature: FeatureFacts, value: str, answers: dict[str, tuple[str, ...]], notes: list[str]) -> None:
    """Take the value up as the feature's answer, or say why not."""
    text = read_answer(feature, value)
    if text is None:
        notes.append(f"“{shortened(value)}” is not an answer to “{feature.name}”: left out.")
    elif len(answers.get(feature.code, ())) >= 2:
        notes.append(f"“{feature.name}” is answered more than twice: only the first two count.")
    else:
        answers[feature.code] = (*answers.get(feature.code, ()), text)


def own_parameters(
    own: Mapping[str, str],
    features: Mapping[str, FeatureFacts],
    makers: set[str],
    sizes: set[str],
    notes: list[str],
    this_year: int,
) -> dict:
    """The site's own parameters, each checked against what it may be."""
    known = {
        "ask": own.get("_ask", "") if own.get("_ask") in (*features, LABEL_SEWN) else "",
        "stop": own.get("_stop") == YES,
        "came_from_any": own.get("_from") == "any-garment",
        "maker": own.get("_maker", "") if own.get("_maker") in makers else "",
        "size": own.get("_size", "") if own.get("_size") in sizes else "",
        "year": read_year(own.get("_year", ""), this_year),
        "label_number": read_label_number(own.get("_label_number", "")),
        "label_year": read_year(own.get("_label_year", ""), this_year),
        "label_maker": read_label_number(own.get("_label_maker", "")),
        "label_repair": read_label_number(own.get("_label_repair", "")),
        "label_contract": read_year(own.get("_label_contract", ""), this_year),
        "label_country": read_label_number(own.get("_label_country", "")),
        "label_serial": read_label_number(own.get(LABEL_SERIAL, "")),
        "label_says": read_label_says(own.get(LABEL_SAYS, ""), features, notes),
        "label_sewn": own.get(LABEL_SEWN, "") if own.get(LABEL_SEWN) in (*SEWN, CANNOT_TELL) else "",
    }
    for name, value in own.items():
        meaning = name.removeprefix("_")
        if (
            value
            and name not in ("_views", LABEL_SAYS)
            and not known.get("came_from_any" if meaning == "from" else meaning)
        ):
            notes.append(
                f"“{shortened(value)}” {no_year_words(value, this_year)}: the label’s year is left out."
                if name == "_label_year"
                else f"“{shortened(name)}={shortened(value)}” says nothing here: left out."
            )
    return known


def label_says_text(said: Iterable[tuple[str, tuple[str, ...]]]) -> str:
    """The states that a label shows, as an address keeps them."""
    return ",".join(f"{feature}:{state}" for feature, states in said for state in states)


def read_label_says(
    value: str, features: Mapping[str, FeatureFacts], notes: list[str]
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The states that a label shows, in the features' own order; what is no state of a feature is noted."""
    named = {one for one in value.split(",") if one}
    known = {f"{code}:{state.code}" for code, feature in features.items() for state in feature.states}
    notes.extend(f"“{shortened(one)}” is nothing that a label says: left out." for one in sorted(named - known))
    found = {
        code: tuple(state.code for state in feature.states if f"{code}:{state.code}" in named)
        for code, feature in features.items()
    }
    return tuple((code, states) for code, states in found.items() if states)


def read_views(value: str, known: tuple[str, ...], notes: list[str]) -> tuple[str, ...]:
    """OUTSIDE alone, or the named views in the type's own order; what is neither is noted."""
    named = [name for name in value.split(",") if name]
    notes.extend(f"“{shortened(name)}” is not a view: left out." for name in named if name not in (*known, OUTSIDE))
    return (OUTSIDE,) if OUTSIDE in named else tuple(view for view in known if view in named)


def read_label_number(text: str) -> str:
    """Numbers of a label, or codes of its makers, with commas between; nothing where it can be neither."""
    return text.strip() if len(text) <= LONGEST_LABEL_NUMBER and any(c.isalnum() for c in text) else ""


def no_year_words(text: str, this_year: int) -> str:
    if len(text) == 4 and text.isascii() and text.isdigit():
        return f"lies outside {EARLIEST_YEAR}–{this_year}"
    return "is not a year of four figures, such as 1974"


def known_codes(text: str, known: Collection[str], what: str, notes: list[str]) -> str:
    """The codes that are known; each other one is noted as no such thing."""
    codes = codes_in(text)
    notes.extend(f"“{shortened(one)}” is no {what}: left out." for one in codes if one not in known)
    return ",".join(one for one in codes if one in known)


def read_year(text: str, this_year: int = LAST_YEAR) -> int | None:
    if not (text.isascii() and text.isdigit() and len(text) == 4):
        return None
    return int(text) if EARLIEST_YEAR <= int(text) <= this_year else None


def read_answer(feature: FeatureFacts, value: str) -> str | None:
    """The answer in the form in which addresses keep it, or None for what the feature cannot take.

    States come out in the feature's order; of a count the state whose band holds the number.
    """
    if value in PLAIN_ANSWERS or value in feature.state_by_code:
        return value
    if feature.is_measured:
        return read_measure(value)
    if (band := band_of(feature, value)) is not None:
        return band
    wanted = set(value.split(","))
    if wanted <= set(feature.state_by_code):
        return ",".join(state.code for state in feature.states if state.code in wanted)
    return None


def read_measure(value: str) -> str | None:
    """`55`, `55mm`, `5.5 cm`, `2,2in` as whole or tenth millimetres: `55mm`; None for anything else."""
    match = NUMBER.fullmatch(value.strip().lower())
    if not match:
        return None
    millimetres = float(match[1].replace(",", ".")) * MILLIMETRES[match[2] or "mm"]
    return f"{millimetres:.1f}".rstrip("0").rstrip(".") + "mm" if 0 < millimetres <= LONGEST_MEASURE else None


def band_of(feature: FeatureFacts, value: str) -> str | None:
    """The state of a count in whose band the number lies."""
    match = NUMBER.fullmatch(value.strip())
    if not match or match[2]:
        return None
    number = float(match[1].replace(",", "."))
    for state in feature.states:
        if state.low is not None and state.low <= number and (state.high is None or number < state.high):
            return state.code
    return None


def shortened(text: str) -> str:
    return text if len(text) <= SHOWN_OF_A_NAME else text[: SHOWN_OF_A_NAME - 1] + "…"
