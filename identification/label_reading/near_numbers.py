"""What is nearly a number of the society's: right but for a count of figures, or but for what parts them.

It is said what is wrong, and what it may have been; nothing is taken for a number. Only the form decides what is near,
never the numbers on record: a misreading that was pulled towards a known number would seem to confirm it.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from identification.label_reading.check_rules import NotUnderstood, keeps_rule
from identification.label_reading.context import Context, Form
from identification.label_reading.number_patterns import TOKEN, Compiled, bounded, groups_of
from identification.label_reading.page import Page
from identification.label_reading.vocabulary import field

# One figure more or fewer than the form has is a slip of a pen or of an eye; two more only a year written in full.
MOST_AWAY = 1
LONGEST = 8
FEWEST_FIGURES = 4
MOST_FOUND = 12
ANY_PARTING = r"(?: ?[-/.,:_] ?| )?"
# Of these a wrong count may be told: what parts their figures is right.
ROLES = ("stock number", "contract", "serial")


@dataclass(frozen=True)
class Part:
    """A piece of a pattern: figures, at least and at most so many; or a sign. `literal`: it stands for itself alone."""

    sign: str = ""
    least: int = 0
    most: int = 0
    literal: bool = False

    @property
    def parts_figures(self) -> bool:
        return bool(self.sign) and not self.literal and self.sign in "-/. "

    @property
    def is_letter(self) -> bool:
        """Whether any capital may stand there."""
        return self.sign == "A" and not self.literal


@dataclass(frozen=True)
class Near:
    """A form's pattern with the counts of figures left open, and with the parting signs left open: its parts with the
    figures in runs as printed, for the one, and in the form's groups for the other."""

    counts: re.Pattern
    partings: re.Pattern
    runs: tuple[Part, ...]
    groups: tuple[Part, ...]


def read_near_numbers(page: Page, context: Context, *, lettered: bool) -> list[dict]:
    """Each place that no field claims where a number of one of the society's forms nearly stands; it is claimed.

    `lettered`: of forms with letters of their own, before dates are read, since `CON 1994-12` names no month; or of
    figures alone, after all else, since such a run may be anything.
    """
    if sum(map(str.isdigit, page.free)) < FEWEST_FIGURES:
        return []
    folded = page.folded()
    found: dict[tuple[int, int], list[dict]] = {}
    for form, ready in context.ready_forms:
        if form.role not in ROLES or bool(ready.needed) != lettered or ready.needed not in folded:
            continue
        for match, reading in nearly(page, form, ready, near_of(form.pattern)):
            found.setdefault(match.span(), []).append(reading)
    answer, end = [], 0
    for place in sorted(found, key=lambda place: (place[0], -place[1]))[:MOST_FOUND]:
        if place[0] < end:
            continue
        end = place[1]
        page.claim(*place)
        readings = found[place]
        answer.append(field("invalid", {one["reason"] for one in readings}, readings=readings) | page.printed(*place))
    return answer


def nearly(page: Page, form: Form, ready: Compiled, near: Near | None) -> Iterator[tuple[re.Match, dict]]:
    if near is None:
        return
    bare = not any(part.sign for part in near.runs)
    for match in near.partings.finditer(page.free):
        # A run of bare figures may be anything, unless it stands alone.
        if match.group().isdigit() and not page.alone_on_line(*match.span()):
            continue
        if candidates := those_that_keep(form, ready, [written(near.groups, match.groups())]):
            yield match, reading_of(form, "bad_grouping", candidates)
    for match in near.counts.finditer(page.free):
        if bare and not page.alone_on_line(*match.span()):
            continue
        if reading := miscounted(form, ready, near.runs, match.groups()):
            yield match, reading


def those_that_keep(form: Form, ready: Compiled, candidates: Iterable[str]) -> list[str]:
    """Those that keep the form's check rule, in order; a rule that cannot be worked out rules nothing out."""
    found = []
    for candidate in candidates:
        match = ready.exact.fullmatch(candidate)
        try:
            if match and keeps_rule(form.check_rule, ready.own_groups(match.groups())):
                found.append(candidate)
        except NotUnderstood:
            found.append(candidate)
    return sorted(set(found))


def reading_of(form: Form, reason: str, candidates: list[str], **keys) -> dict:
    return {"form": form.code, "name": form.name, "role": form.role, "reason": reason, "candidates": candidates} | keys


def miscounted(form: Form, ready: Compiled, parts: tuple[Part, ...], runs: tuple[str, ...]) -> dict | None:
    """The reading where exactly one run of figures has too many or too few."""
    wanted = [part for part in parts if part.least]
    wrong = [place for place, run in enumerate(wanted) if not run.least <= len(runs[place]) <= run.most]
    if len(wrong) != 1:
        return None
    place = wrong[0]
    run, printed, group = wanted[place], runs[place], group_of_run(form, place, len(wanted))
    year_in_full = group and group == form.year_group and run.most == 2 and re.fullmatch(r"(?:19|20)\d\d", printed)
    away = max(len(printed) - run.most, run.least - len(printed))
    if away > MOST_AWAY and not year_in_full:
        return None
    likely = [printed[:at] + printed[at + 1 :] for at in range(len(printed))] if len(printed) > run.most else []
    if year_in_full:
        likely = [printed[2:]]
    candidates = [written(parts, (*runs[:place], one, *runs[place + 1 :])) for one in likely]
    keys = {"group": group, "digits_found": len(printed), "digits_of_form": [run.least, run.most]}
    return reading_of(form, "wrong_digit_count", those_that_keep(form, ready, candidates), **keys)


def group_of_run(form: Form, place: int, runs: int) -> int | None:
    """Which of the form's groups, from 1, a run of figures is; None where several groups are printed in one run."""
    of_figures = [number for number, group in enumerate(groups_of(form.pattern), 1) if group.startswith("9")]
    return of_figures[place] if len(of_figures) == runs else None


def written(parts: tuple[Part, ...], groups: tuple[str, ...]) -> str:
    left = iter(groups)
    return "".join(part.sign or next(left) for part in parts)


@lru_cache(maxsize=512)
def near_of(pattern: str) -> Near | None:
    """None for a form that is too short, or too free, to be nearly met."""
    grouped = tuple(parts_of(pattern))
    parts = tuple(in_one_run(grouped))
    if sum(part.least for part in parts) < FEWEST_FIGURES or any(part.is_letter for part in parts):
        return None
    counts = "".join(rf"([0-9]{{1,{max(LONGEST, part.most + 1)}}})" if part.least else as_it_is(part) for part in parts)
    partings = ""
    for place, part in enumerate(grouped):
        if not part.least:
            partings += ANY_PARTING if part.parts_figures else as_it_is(part)
            continue
        between = ANY_PARTING if place and grouped[place - 1].least else ""
        partings += f"{between}([0-9]{{{part.least},{part.most}}})"
    return Near(
        re.compile(bounded(counts, "0-9"), re.I | re.A),
        re.compile(bounded(partings, "0-9"), re.I | re.A),
        parts,
        grouped,
    )


def as_it_is(part: Part) -> str:
    if part.sign == " / ":
        return r"(?: ?\n ?| ?/ ?)"
    if part.sign == " ":
        return " ?"
    return rf" ?{re.escape(part.sign)} ?" if part.parts_figures else re.escape(part.sign)


def parts_of(pattern: str) -> Iterator[Part]:
    """The pattern as runs of figures, one for each group, and signs."""
    least = most = 0
    for literal, low, high, new_line, sign in TOKEN.findall(pattern):
        if low or sign == "9":
            least, most = least + int(low or 1), most + int(high or 1)
            continue
        if least:
            yield Part(least=least, most=most)
            least = most = 0
        if literal or new_line or sign not in "()":
            yield Part(sign=literal or new_line or sign, literal=bool(literal))
    if least:
        yield Part(least=least, most=most)


def in_one_run(grouped: Iterable[Part]) -> Iterator[Part]:
    """Groups of figures that are printed in one are counted in one."""
    before: Part | None = None
    for part in grouped:
        if before and before.least and part.least:
            before = Part(least=before.least + part.least, most=before.most + part.most)
            continue
        if before:
            yield before
        before = part
    if before:
        yield before
