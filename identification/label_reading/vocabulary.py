"""The words a reading may use: statuses and reasons, each once, in the order in which they are reported."""

from collections.abc import Iterable
from functools import lru_cache

# Weakest first: when several apply to a field, the one further up wins.
STATUSES = ("refused", "invalid", "conflict", "ambiguous", "unconfirmed", "corrected", "read", "absent")

# Each reason with the statuses that it can explain. The order here is the order in an answer.
REASONS: dict[str, tuple[str, ...]] = {
    "too_long": ("refused",),
    "too_many_labels": ("refused",),
    "empty": ("absent",),
    "nothing_recognised": ("absent",),
    "language_not_supported": ("absent",),
    "wrong_digit_count": ("invalid",),
    "bad_grouping": ("invalid",),
    "too_many_repairs": ("invalid",),
    "check_rule_broken": ("invalid",),
    "serial_too_short": ("invalid",),
    "month_out_of_range": ("invalid",),
    "no_such_day": ("invalid",),
    "future_year": ("invalid",),
    "range_runs_backwards": ("invalid",),
    "range_not_plausible": ("invalid",),
    "sum_not_100": ("invalid",),
    "temperature_not_in_standard": ("invalid",),
    "two_labels_differ": ("conflict",),
    "before_stock_number_system": ("conflict",),
    "fsn_after_change_over": ("conflict",),
    "before_contract_year": ("conflict",),
    "outside_years_of_maker": ("conflict",),
    "sizes_differ": ("conflict",),
    "two_wash_temperatures": ("conflict",),
    "two_numbers": ("ambiguous",),
    "two_countries": ("ambiguous",),
    "day_month_order": ("ambiguous",),
    "month_or_quarter": ("ambiguous",),
    "height_span": ("ambiguous",),
    "sources_differ": ("ambiguous",),
    "edition_differs": ("ambiguous",),
    "abbreviation_ambiguous": ("ambiguous",),
    "unknown_country_code": ("unconfirmed",),
    "unknown_supply_class": ("unconfirmed",),
    "unknown_country": ("unconfirmed",),
    "unknown_fibre": ("unconfirmed",),
    "size_not_in_table": ("unconfirmed",),
    "office_of_other_years": ("unconfirmed",),
    "check_rule_not_understood": ("unconfirmed",),
    "letters_in_number": ("corrected", "ambiguous"),
    "digits_in_word": ("corrected",),
    "spelling_repaired": ("corrected",),
    "letter_not_allowed": ("corrected", "ambiguous"),
    "non_latin_digits": ("corrected",),
    "two_digit_year": ("read", "ambiguous"),
    "local_number_not_nsn": ("read",),
    "also_valid_retail_barcode": ("read",),
    "not_a_garment_class": ("read",),
    "solicitation_not_contract": ("read",),
    "no_year_in_number": ("read",),
    "outside_years_in_use": ("read",),
    "sum_rounded": ("read",),
    "added_fibre_outside_sum": ("read",),
    "minimum_declared": ("read",),
    "control_characters_removed": ("read",),
    "bidi_controls_removed": ("read",),
}
ORDER = {reason: place for place, reason in enumerate(REASONS)}


def weakest(statuses: Iterable[str]) -> str:
    """The status that wins where several apply; `read` where there is none."""
    return min(statuses, key=STATUSES.index, default="read")


@lru_cache(maxsize=1024)  # few combinations occur, and a text of many short labels asks for them thousands of times
def in_order(status: str, reasons: frozenset[str]) -> tuple[str, ...]:
    """First the reason that explains the status, then the others in their fixed order."""
    sorted_reasons = sorted(reasons, key=ORDER.__getitem__)
    first = next((reason for reason in sorted_reasons if status in REASONS[reason]), None)
    return (*([first] if first else []), *(reason for reason in sorted_reasons if reason != first))


def field(status: str, reasons: Iterable[str] = (), **keys) -> dict:
    """One field of an answer: its status, the reason where there is one, all of them where there are more, its keys."""
    if not reasons:
        return {"status": status, **keys}
    ordered = in_order(status, frozenset(reasons))
    answer: dict = {"status": status}
    if ordered:
        answer["reason"] = ordered[0]
    if len(ordered) > 1:
        answer["reasons"] = list(ordered)
    return answer | keys
