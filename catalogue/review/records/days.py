"""What stood on a day: an address may ask a history for it, for versions and for features alike."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.utils.formats import date_format
from django.utils.timezone import localdate

# As a field for dates sends it, and as people write it here.
FORMS = ("%Y-%m-%d", "%d %B %Y", "%d %b %Y")
LONGEST_TYPED = 30


@dataclass(frozen=True)
class Asked:
    """A day that was asked for. `fault`: in words why nothing can be shown for it; `record`: what stood at its end;
    `others`: what was written on that day as well, before it."""

    typed: str
    day: date | None = None
    fault: str = ""
    record: object | None = None
    others: tuple = ()

    @property
    def is_today(self) -> bool:
        """Whether something else may still stand at the end of the day."""
        return self.day == localdate()

    @property
    def is_a_date(self) -> bool:
        """Whether a field for dates can show again what was typed."""
        return self.day is not None and self.typed == self.day.isoformat()


def asked_day(typed: str, records: Sequence, *, what: str) -> Asked | None:
    """What stood on the day that somebody typed; None where nobody typed one. `records`: newest first, each with
    `number` and `made_at`; `what`: whose they are, as `SMK-61`."""
    typed = typed.strip()[:LONGEST_TYPED]
    if not typed:
        return None
    day = read_day(typed)
    if day is None:
        return Asked(typed, fault=f"“{typed}” is no day: write it as 2026-05-14 or 14 May 2026.")
    if not records:
        return Asked(typed, day, f"Nothing is recorded of {what} yet.")
    if day > localdate():
        newest = records[0]
        return Asked(
            typed, day,
            f"{in_words(day)} is still to come: nobody knows what will stand then. Today it is record {newest.number}, "
            f"of {in_words(newest.made_at)}.",
        )  # fmt: skip
    stood = [one for one in records if localdate(one.made_at) <= day]
    if not stood:
        first = records[-1]
        return Asked(
            typed, day, f"On {in_words(day)} nothing was recorded yet of {what}: its first record is of "
            f"{in_words(first.made_at)}.",
        )  # fmt: skip
    others = tuple(one for one in stood[1:] if localdate(one.made_at) == day)
    return Asked(typed, day, record=stood[0], others=others)


def day_address(history: str, asked: Asked) -> str:
    """Where what stood on that day is read for ever, whatever was written since."""
    return f"{history}?on={asked.day.isoformat()}"


def read_day(typed: str) -> date | None:
    for form in FORMS:
        try:
            return datetime.strptime(typed, form).date()
        except ValueError:
            continue
    return None


def in_words(moment: date | datetime) -> str:
    day = localdate(moment) if isinstance(moment, datetime) else moment
    return date_format(day, "j F Y")
