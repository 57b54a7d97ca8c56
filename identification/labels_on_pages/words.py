"""What a reading means, in plain words for the person who holds the label."""

import re

from catalogue.reference.uncertain_dates import MONTHS

QUARTERS = {33: "first", 34: "second", 35: "third", 36: "fourth"}
STATUS_WORDS = {
    "invalid": "does not keep its own rule",
    "conflict": "contradicts something else on the label",
    "ambiguous": "can be read in more than one way",
    "unconfirmed": "not in the lists known here",
    "corrected": "read with a repair: please confirm",
}
REASON_WORDS = {
    "too_long": "This is longer than any label: at most 4,000 characters are read.",
    "too_many_labels": "These are more labels than one piece carries: at most 24 are read at once.",
    "empty": "There is nothing to read.",
    "nothing_recognised": "Nothing on it was understood.",
    "language_not_supported": "The fibre names are in a script that is not known here.",
    "wrong_digit_count": "A stock number has 13 figures, or 11 until 1974.",
    "bad_grouping": "The figures are parted in places where a stock number is not.",
    "too_many_repairs": "Too many letters stand where figures should be.",
    "check_rule_broken": "It breaks the rule that numbers of this form keep: misread, or a copy. Look again.",
    "serial_too_short": "The running number at the end is too short.",
    "month_out_of_range": "There is no such month.",
    "no_such_day": "There is no such day.",
    "future_year": "That year is still to come.",
    "range_runs_backwards": "The range runs backwards.",
    "range_not_plausible": "Nobody has that size.",
    "sum_not_100": "The percentages do not make 100.",
    "temperature_not_in_standard": "The standard has no such washing temperature.",
    "two_labels_differ": "The two labels differ: one of them may come from another piece.",
    "before_stock_number_system": "Numbers of 13 figures began on 30 September 1974, after this date.",
    "fsn_after_change_over": "Numbers of 11 figures ended in 1974, long before.",
    "before_contract_year": "The date is before the year of the contract.",
    "outside_years_of_maker": "The maker did not work in that year.",
    "sizes_differ": "Two sizes on the label do not say the same.",
    "two_wash_temperatures": "Two washing temperatures stand on it.",
    "two_countries": "Two countries stand on it, so neither counts.",
    "two_numbers": "Two different ones stand on the label.",
    "day_month_order": "Day and month can change places.",
    "month_or_quarter": "The first figure can be a month or a quarter of the year.",
    "height_span": "The range of heights is wider than sizes are.",
    "sources_differ": "The tables known here do not agree.",
    "edition_differs": "Editions of the standard do not agree on the temperature of a hand wash: 30 or 40 °C.",
    "abbreviation_ambiguous": "The short form is used for more than one fibre.",
    "unknown_country_code": "No country has this code in the list of 2026.",
    "unknown_supply_class": "The list of classes does not have this one.",
    "unknown_country": "No known country, nor one where a known maker worked: it says nothing of a version.",
    "unknown_fibre": "No known fibre has this name.",
    "size_not_in_table": "It needs the table of its time and service, which is not known here.",
    "office_of_other_years": "As far as known, such letters stood in contracts of other years: misread, or a copy. "
    "Its year is not used.",
    "check_rule_not_understood": "The rule that such numbers keep could not be worked out.",
    "letters_in_number": "A letter stands where a figure should be.",
    "digits_in_word": "A figure stands where a letter should be.",
    "spelling_repaired": "One letter is different.",
    "letter_not_allowed": "These numbers never hold the letters I and O.",
    "non_latin_digits": "Figures of another script, taken by their value.",
    "two_digit_year": "The century is not printed.",
    "local_number_not_nsn": "Letters stand in it: a number given locally.",
    "also_valid_retail_barcode": "It could be a retail bar code as well.",
    "not_a_garment_class": "The class is not one of clothing.",
    "solicitation_not_contract": "It is the number of an invitation to offer, not of a contract.",
    "no_year_in_number": "Numbers of this form hold no year.",
    "outside_years_in_use": "Numbers of this form were not in use in that year: used up later, or copied.",
    "sum_rounded": "The percentages are rounded.",
    "added_fibre_outside_sum": "The added fibre is not part of the hundred.",
    "minimum_declared": "Only a least amount is stated.",
    "control_characters_removed": "Invisible control characters were left out.",
    "bidi_controls_removed": "Signs that turn the reading direction were left out.",
}


def date_words(edtf: str) -> str:
    """An EDTF date as people say it: `second quarter of 1984`, `the 1970s`, `about 1960`."""
    if match := re.fullmatch(r"(\d{3})X([~?]?)", edtf):
        return about(match[2], f"the {match[1]}0s")
    if match := re.fullmatch(r"\[(\d{4}),(\d{4})\]", edtf):
        return f"{match[1]} or {match[2]}"
    if match := re.fullmatch(r"\[(\d{4})\.\.(\d{4})\]", edtf):
        return f"{match[1]} to {match[2]}"
    if "/" in edtf:
        return " to ".join(date_words(end) for end in edtf.split("/"))
    match = re.fullmatch(r"(\d{4})(?:-(\d\d))?(?:-(\d\d))?([~?]?)", edtf)
    if not match:
        return edtf
    year, month, day, mark = match.groups()
    if month and int(month) in QUARTERS:
        return about(mark, f"{QUARTERS[int(month)]} quarter of {year}")
    name = f"{MONTHS[int(month) - 1]} " if month else ""
    return about(mark, f"{int(day)} {name}{year}" if day else f"{name}{year}")


def about(mark: str, words: str) -> str:
    return f"about {words}" if mark == "~" else f"{words}, uncertain" if mark == "?" else words


def span_words(low_high: list) -> str:
    low, high = low_high
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


SIZES = (
    ("height_cm", "height", "cm"),
    ("chest_cm", "chest", "cm"),
    ("bust_cm", "bust", "cm"),
    ("waist_cm", "waist", "cm"),
    ("inside_leg_cm", "inside leg", "cm"),
    ("seat_cm", "seat", "cm"),
    ("head_cm", "head", "cm"),
    ("head_in", "head", "inches"),
)


def size_words(size: dict) -> str:
    parts = [f"{name} {span_words(size[key])} {unit}" for key, name, unit in SIZES if size.get(key)]
    if size.get("system") == "inches":
        parts = [f"chest {span_words(size['chest_in'])} inches", f"length {size['length']}"]
    if parts:
        return f"Fits a wearer of {', '.join(parts)}. The body, not the garment."
    if size.get("system") == "society" and size.get("value"):
        return f"Size {size['value']} of the service's own numbers."
    return "A size mark."


def is_open_which(fibres: dict) -> bool:
    """Whether a label gives two whole compositions that differ, and names the part for neither."""
    unnamed = [part["fibres"] for part in fibres["components"] if part["part"] is None and part["fibres"]]
    return any(one != unnamed[0] for one in unnamed[1:])


def fibre_text(component: dict) -> str:
    fibres = ", ".join(f"{fibre['percent']:g} % {fibre['name']}" for fibre in component["fibres"])
    part = component["part"]
    return f"{part}: {fibres}" if part else fibres


def symbol_words(symbol: dict) -> str:
    """One care symbol in words."""
    if symbol.get("allowed") == "none":
        return {"washing": "do not wash", "bleaching": "do not bleach", "ironing": "do not iron"}.get(
            symbol["group"], "no professional cleaning"
        )
    if symbol["group"] == "washing":
        degrees = f"wash at most at {symbol['max_c']} °C" if symbol.get("max_c") else "wash"
        return f"{degrees}, {symbol['process']}" if symbol.get("process") else degrees
    if symbol["group"] == "bleaching":
        return {"oxygen": "oxygen bleach only", "any": "any bleach"}.get(symbol["allowed"], "no chlorine bleach")
    if symbol["group"] == "drying":
        if "natural" in symbol:
            return f"dry {symbol['natural']}{' in the shade' if symbol.get('shade') else ''}"
        return {"no": "do not tumble dry", "low": "tumble dry low", "normal": "tumble dry"}.get(
            symbol["tumble"], "tumble dry"
        )
    if symbol["group"] == "ironing":
        return f"iron, {symbol['dots']} dot{'s' if symbol['dots'] > 1 else ''}" if symbol.get("dots") else "iron"
    return f"professional cleaning{' ' + symbol['solvent'] if symbol.get('solvent') else ''}"
