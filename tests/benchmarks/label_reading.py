"""How long the label reader takes: fuzzed labels, and texts of full length made to be slow. Prints, never fails.

Run from the project's folder: `.venv/bin/python -m tests.benchmarks.label_reading [how many]`.
"""

import csv
import random
import re
import string
import sys
import time
from pathlib import Path

from identification.label_reading import LIMIT, Context, context_from, read_label
from identification.label_reading.fibre_words import fibre_named
from identification.label_reading.reading import MOST_LABELS
from identification.label_reading.tables import folded

LETTERS = string.ascii_uppercase
DEMO = Path(__file__).resolve().parents[2] / "fixtures" / "demo_society"
PIECES = [
    "8415-12-345-6789", "NSN", "8415 O1 394 0215", "DLA100-85-C-0456", "SPM1C1-13-D-1074", "MFD", "12/84", "3/1/1979",
    "MAR 1967", "SIZE", "7080/8494", "180/104", "MEDIUM REGULAR", "M", "100%", "65% POLYESTER", "35% COTTON", "WOOL",
    "CA 100%", "50/50", "OUTER", "LINING", "except 5% nylon added to toe", "MACHINE WASH 40 MILD", "DO NOT BLEACH",
    "MIL-C-43468F", "DATED", "C/14/61", "27-114-06", "27114128", "T/74/208", "CON 94-12", "TRIAL 59 / No. 12",
    "DUNSALLOW", "T.S.C.", "NAME: J. SMITH", "---", "\n", "\n", " ", "  ", "-", "/", "%", "8", "84", "1984", "O", "I",
    "l", "S", "\u2013", "\u0661", "\u0642", "\u202e", "\x00", "\U0001f9e5", "e\u0301", "\xa0", "(", ")", ":", ",",
    "'", "MED\u0131UM IRON", "\u017fEPT 74", "\u212a",
]  # fmt: skip


YARDSTICK = re.compile(r"(?<![0-9A-Za-z])(?:[0-9]{4}-[0-9]{2}|[A-Z]{3,9})(?![0-9A-Za-z])")
LONG = 0.015


def demo_context() -> Context:
    """The demo society's forms and makers, as its spreadsheets have them."""

    def rows(name: str) -> list[dict]:
        with (DEMO / f"{name}.csv").open(encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))

    return context_from({"garment": "jacket", "number_forms": rows("number_forms"), "makers": rows("makers")}, 2026)


def fuzzed(generator: random.Random) -> str:
    """A label of anything from one sign to about the limit, mostly out of pieces of true labels."""
    length = generator.choice([5, 20, 60, 200, 1000, LIMIT])
    if generator.random() < 0.3:
        letters = generator.choice([string.printable, "0123456789OIlBS-/ .", "8415-0/ %\n", "IVXQ /-1984", "XL SMR/\n"])
        return "".join(generator.choices(letters, k=generator.randint(0, length)))
    text = ""
    while len(text) < length:
        text += generator.choice(PIECES) + generator.choice(["", " ", " ", "\n"])
    return text[:length]


TRUE_LABEL = """COAT, RAIN, LIGHT, MEDIUM REGULAR
STOCK NO. 8405-12-345-6789  CONTRACT NO. DLA100-85-C-0456
NATO SIZE 7080/9404  MFD 12/85
OUTER 65% POLYESTER 35% COTTON LINING 100% POLYAMIDE
MACHINE WASH 40 MILD DO NOT BLEACH TUMBLE DRY LOW IRON 2 DOTS
NORTHQUAY CLOTHING WORKS  KEEP AWAY FROM FLAME, DO NOT REMOVE THIS LABEL
27-114-06  8  T/74/208  DUNSALLOW 1974  NAME: ..............
"""


def made_to_be_slow() -> dict[str, str]:
    whole = {
        "a true label, over and over": TRUE_LABEL * 12,
        "figures": "8" * LIMIT,
        "figures and hyphens": "8415-" * (LIMIT // 5),
        "figures and spaces": "8 " * (LIMIT // 2),
        "groups of four": "8415 " * (LIMIT // 5),
        "look-alikes": "OIl0" * (LIMIT // 4),
        "look-alikes apart": "O I l 0 " * (LIMIT // 8),
        "percentages": "5% " * (LIMIT // 3),
        "percentages with unknown words": "5% zorbon " * (LIMIT // 10),
        "near misses": "polyesterr " * (LIMIT // 11),
        "different near misses": " ".join(
            f"5% polyest{c}{d}" for c in string.ascii_lowercase for d in string.ascii_lowercase
        )[:LIMIT],
        "words": "cotton " * (LIMIT // 7),
        "dates": "12/84 " * (LIMIT // 6),
        "years": "1984 " * (LIMIT // 5),
        "sizes": "180/104 " * (LIMIT // 8),
        "lines": "M\n" * (LIMIT // 2),
        "short lines of figures": "84\n" * (LIMIT // 3),
        "care": "WASH 40 " * (LIMIT // 8),
        "not": "DO NOT " * (LIMIT // 7),
        "except": "except 5% nylon " * (LIMIT // 16),
        "spaces": " " * (LIMIT - 1) + "8",
        "marks": "e" + "\u0301" * (LIMIT - 1),
        "stock numbers": "8415-12-345-6789 " * (LIMIT // 17),
        "contracts": "DLA100-85-C-0456 " * (LIMIT // 17),
        "open brackets": "(" * LIMIT,
        "bar numbers": "27114128 " * (LIMIT // 9),
        "months": "MAR " * (LIMIT // 4),
        "months and figures": "1 MAR 84 " * (LIMIT // 9),
        "field words": "SIZE DATE NO. " * (LIMIT // 14),
        "words like makers' marks": " ".join(f"DUNSAL{c}{d}W" for c in LETTERS for d in LETTERS)[:LIMIT],
        "labels": ("1984\n---\n" * MOST_LABELS)[:-5] + "1984 M " * (LIMIT // 7),
        "too many labels": "1984\n---\n" * (LIMIT // 9),
        "names": "NAME: J. SMITH\n" * (LIMIT // 15),
        "ratios": "50/50 " * (LIMIT // 6),
        "nearly stores numbers": "27-114-066 " * (LIMIT // 11),
        "cloths beyond a hundred": "95% WOOL 1984 " * (LIMIT // 14),
        "countries": "MADE IN FRANCE " * (LIMIT // 15),
        "ledger numbers": "C/14/61 " * (LIMIT // 8),
        "Roman": "XVI/" * (LIMIT // 4),
    }
    return {name: text[:LIMIT] for name, text in whole.items()}


def seconds(text: str, context: Context) -> float:
    """CPU of reading a text whose words were never met before."""
    folded.cache_clear()
    fibre_named.cache_clear()
    start = time.process_time()
    read_label(text, context)
    return time.process_time() - start


def bare_pass(text: str) -> float:
    """CPU of one plain pattern over the text: the yardstick, since what else runs on the machine slows both."""
    start = time.process_time()
    for _ in range(10):
        YARDSTICK.findall(text)
    return (time.process_time() - start) / 10


def measured(text: str, context: Context, times: int = 7) -> tuple[float, float]:
    """The least CPU in seconds of several readings, and how many bare passes that is."""
    least = min(seconds(text, context) for _ in range(times))
    return least, least / min(bare_pass(text) for _ in range(times))


def main(how_many: int) -> None:
    context, bare = demo_context(), Context(2026)
    read_label("100% cotten 8415-12-345-6789", context)
    print("4,000 characters made to be slow, least CPU in ms of seven times, and in bare passes of one pattern")
    for name, text in made_to_be_slow().items():
        told, told_bare = measured(text, context), measured(text, bare)
        print(f"  {name:32}{1000 * told[0]:8.1f} ({told[1]:.0f}); without the demo's forms {1000 * told_bare[0]:.1f}")
    generator = random.Random(20261125)
    slowest, total, text_of_slowest = 0.0, 0.0, ""
    for _ in range(how_many):
        text = fuzzed(generator)
        used = context if generator.random() < 0.5 else bare
        taken = seconds(text, used)
        total += taken
        if taken > max(slowest, LONG):  # something else may have run on the processor meanwhile
            taken = min(taken, measured(text, used, 3)[0])
        if taken > slowest:
            slowest, text_of_slowest, used_for_slowest = taken, text, used
    least, passes = measured(text_of_slowest, used_for_slowest)
    print(f"{how_many} fuzzed labels: mean {1000 * total / how_many:.2f} ms, slowest {1000 * slowest:.1f} ms CPU")
    print(f"  the slowest again, least of seven: {1000 * least:.1f} ms, {passes:.0f} bare passes")
    print(f"  the slowest: {text_of_slowest[:120]!r}... ({len(text_of_slowest)} characters)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 50_000)
