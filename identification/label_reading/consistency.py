"""The fields of a label compared with one another. What contradicts is kept as printed; only the weaker is marked."""

from collections.abc import Mapping

from identification.label_reading.context import KnownMaker
from identification.label_reading.contracts import signed_in
from identification.label_reading.date_forms import Reading
from identification.label_reading.vocabulary import field, in_order, weakest

NSN_BEGINS = (1974, 9, 30)
# Labels may lag the change of numbers by two years before it counts as a contradiction (the project's own figure).
FSN_LATEST = (1976, 9, 30)


def as_day(iso: str) -> tuple[int, ...]:
    return tuple(map(int, iso.split("-")))


def date_field(dates: list[Reading], page) -> dict:
    """The label's date. Several different dates, or several readings of one, are listed and none is chosen."""
    if not dates:
        return field("absent", edtf=None)
    sound = [reading for reading in dates if not reading.fault] or dates[:1]
    first = sound[0]
    different = {tuple(reading.edtfs) for reading in sound}
    reasons = set().union(*(reading.reasons for reading in sound)) if len(different) > 1 else set(first.reasons)
    keys: dict = {"edtf": None}
    if changed := first.changed:
        keys["characters_changed"] = changed
    place = page.printed(first.start, first.end)
    if first.fault:
        return field("invalid", reasons | {first.fault}, **keys) | place
    listed = sorted({edtf for reading in sound for edtf in reading.edtfs})
    if len(different) > 1:
        others = [page.printed(other.start, other.end) for other in sound[1:]]
        return field("ambiguous", reasons | {"two_numbers"}, **keys, candidates=listed, others=others) | place
    if len(listed) > 1 or first.guessed:
        return field("ambiguous", reasons, **keys, candidates=listed) | place
    keys["edtf"] = listed[0]
    statuses = ["corrected"] if first.changed or "non_latin_digits" in reasons else ["read"]
    return field(weakest(statuses), reasons, **keys) | place


def counts(reading: dict, said: Mapping[int, bool]) -> bool:
    """Whether anything may be concluded from it: never from what a person set aside, and from an open one only once
    somebody has confirmed it."""
    start = reading["span"][0] if "span" in reading else -1
    return said.get(start, reading["status"] != "ambiguous")


def compare(
    answer: dict, dates: list[Reading], makers: list[KnownMaker], numbers: list[dict], said: Mapping[int, bool]
) -> dict:
    """Fill `consistency`; a date that a bound excludes is marked in the answer itself."""
    found: list[tuple[str, set[str]]] = []
    stock, contract = (answer[key] if counts(answer[key], said) else {} for key in ("stock_number", "contract"))
    size, care = answer["size"], answer["care"]
    sound = [reading for reading in dates if not reading.fault]
    earliest = min((low for r in sound for _, low, _ in r.candidates), default=None)
    latest = max((high for r in sound for _, _, high in r.candidates), default=None)
    date_faults = set()
    if latest and stock.get("kind") == "NSN" and latest < NSN_BEGINS:
        date_faults.add("before_stock_number_system")
        found.append(("before_stock_number_system", {"date", "stock_number"}))
    if earliest and stock.get("kind") == "FSN" and earliest > FSN_LATEST:
        date_faults.add("fsn_after_change_over")
        found.append(("fsn_after_change_over", {"date", "stock_number"}))
    if stock.get("kind") == "FSN" and contract.get("award_from") and as_day(contract["award_from"]) > FSN_LATEST:
        found.append(("fsn_after_change_over", {"contract", "stock_number"}))
    if latest and contract.get("award_from") and latest < as_day(contract["award_from"]):
        date_faults.add("before_contract_year")
        found.append(("before_contract_year", {"contract", "date"}))
    contracts = [one for one in numbers if one["role"] == "contract" and counts(one, said)]
    contract_years = [year for one in contracts if (year := signed_in(one))]
    if latest and contract_years and latest[0] < min(contract_years):
        date_faults.add("before_contract_year")
        found.append(("before_contract_year", {"numbers", "date"}))
    if earliest and latest and len(makers) == 1 and outside(makers[0], earliest[0], latest[0]):
        found.append(("outside_years_of_maker", {"date", "maker"}))
    if "sizes_differ" in (size.get("reason"), *size.get("reasons", ())):
        found.append(("sizes_differ", {"size"}))
    if "two_wash_temperatures" in (care.get("reason"), *care.get("reasons", ())):
        found.append(("two_wash_temperatures", {"care"}))
    if date_faults:
        mark_date(answer["date"], date_faults, settled=all(reading.settled for reading in sound))
    return consistency(found)


def outside(maker: KnownMaker, earliest: int, latest: int) -> bool:
    return bool((maker.first_year and latest < maker.first_year) or (maker.last_year and earliest > maker.last_year))


def mark_date(date: dict, faults: set[str], settled: bool) -> None:
    """A conflict keeps a date that is settled in itself; one with two figures keeps its candidates only."""
    reasons = faults | set(date.pop("reasons", ())) | ({date.pop("reason")} if date.get("reason") else set())
    ordered = in_order("conflict", frozenset(reasons))
    date |= {"status": "conflict", "reason": ordered[0]}
    if len(ordered) > 1:
        date["reasons"] = list(ordered)
    if not settled and date.get("edtf"):
        date["candidates"] = [date["edtf"]]
        date["edtf"] = None


def consistency(found: list[tuple[str, set[str]]]) -> dict:
    if not found:
        return field("read")
    reasons = in_order("conflict", frozenset(reason for reason, _ in found))
    first = reasons[0]
    between = sorted(set().union(*(fields for reason, fields in found if reason == first)))
    return field("conflict", reasons, between=between)
