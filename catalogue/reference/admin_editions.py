"""Two people at one record: what a form showed, what stands there now, and what was typed, held beside each other.

A sheet is what a browser would send of a form and its rows: by group ("" the record itself, "states/12" a row) the
values by field. A form carries the sheet that it showed; at its return that sheet is compared with the one of now.
"""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from django import forms
from django.http import QueryDict

Values = tuple[str, ...]
Group = dict[str, Values]
Sheet = dict[str, Group]
RECORD = ""
DELETED = ("on",)
TAKEN, YOURS = "taken", "yours"


@dataclass
class Read:
    """A form with its rows as it is shown: its sheet, and the fields by the part that they stand in."""

    sheet: Sheet
    fields: dict[str, dict[str, forms.Field]]
    names: dict[str, str] = field(default_factory=dict)
    labels: dict[str, dict[str, str]] = field(default_factory=dict)

    def field(self, group: str, name: str) -> forms.Field | None:
        return self.fields.get(part_of(group), {}).get(name)

    def words(self, group: str, name: str, values: Values | None) -> str:
        return in_words(self.field(group, name), values or ())

    def what(self, group: str, name: str, titles: Mapping[str, Group]) -> str:
        label = self.labels.get(part_of(group), {}).get(name, name)
        return label if group == RECORD else f"{self.title(group, titles)}: {label}"

    def title(self, group: str, values: Mapping[str, Group]) -> str:
        """A row by what stands first in it."""
        said = [self.words(group, name, one) for name, one in values.get(group, {}).items() if name != "position"]
        return f"{self.names.get(part_of(group), '')} “{', '.join([one for one in said if one][:2])}”"

    def whole(self, group: str, values: Group) -> str:
        """All that a row says."""
        labels = self.labels.get(part_of(group), {})
        said = [
            f"{labels.get(name, name)} {text}"
            for name, one in values.items()
            if name != "position" and (text := self.words(group, name, one))
        ]
        return "; ".join(said)


def part_of(group: str) -> str:
    return group.partition("/")[0]


def read_form(form: forms.BaseForm, formsets: Iterable = (), *, without: Sequence[str] = ()) -> Read:
    """The sheet of an unbound form and its rows. `without`: fields that are no part of the record."""
    read = Read({RECORD: {}}, {})
    read.fields[RECORD] = {name: one for name, one in form.fields.items() if name not in without}
    read.labels[RECORD] = {name: label_of(form, name) for name in read.fields[RECORD]}
    read.sheet[RECORD] = {name: sent(form[name]) for name in read.fields[RECORD]}
    for formset in formsets:
        hidden = {formset.model._meta.pk.name, getattr(getattr(formset, "fk", None), "name", ""), "DELETE"}
        empty = formset.empty_form
        own = {name: one for name, one in empty.fields.items() if name not in hidden}
        read.fields[formset.prefix] = own
        read.names[formset.prefix] = str(formset.model._meta.verbose_name).capitalize()
        read.labels[formset.prefix] = {name: label_of(empty, name).lower() for name in own}
        for row in formset.initial_forms:
            read.sheet[f"{formset.prefix}/{row.instance.pk}"] = {name: sent(row[name]) for name in own}
    return read


def label_of(form: forms.BaseForm, name: str) -> str:
    words = str(form[name].label)
    return words[:1].upper() + words[1:]


def sent(bound: forms.BoundField) -> Values:
    """What a browser would send of a field that nobody has touched."""
    value = bound.value()
    if value is None or value is False or value == "":
        return ()
    if value is True:
        return DELETED
    several = isinstance(value, list | tuple | set)
    return plain(str(getattr(one, "pk", one)) for one in (value if several else [value]))


def plain(values: Iterable[str]) -> Values:
    """Values as they are compared: without empty ones, with one kind of line end, in one order."""
    return tuple(sorted(one for text in values if (one := text.replace("\r\n", "\n").strip())))


def in_words(one: forms.Field | None, values: Values) -> str:
    """The values of a field as a person reads them; empty where there is none."""
    if isinstance(one, forms.ModelChoiceField):
        known = [int(value) for value in values if value.isascii() and value.isdigit()]
        return ", ".join(sorted(titled(row) for row in one.queryset.filter(pk__in=known)))
    if isinstance(one, forms.BooleanField):
        return "yes" if values else "no"
    if isinstance(one, forms.ChoiceField):
        known = dict(
            pair for key, words in one.choices for pair in (words if isinstance(words, list) else [(key, words)])
        )
        return ", ".join(str({str(key): words for key, words in known.items()}.get(value, value)) for value in values)
    return ", ".join(values)


def titled(row) -> str:
    code = getattr(row, "code", "")
    return f"{row} ({code})" if code and code != str(row) else str(row)


# ---- what was changed


def lines_between(before: Sheet, after: Sheet, read: Read) -> list[list[str]]:
    """[what, before, after] in words, of every field and row that differs."""
    lines = []
    for group in dict.fromkeys((*before, *after)):
        old, new = before.get(group), after.get(group)
        if group != RECORD and (old is None or new is None):
            what = read.names.get(part_of(group), "")
            lines.append([what, read.whole(group, old) if old else "", read.whole(group, new) if new else ""])
            continue
        old, new = old or {}, new or {}
        for name in dict.fromkeys((*old, *new)):
            if old.get(name, ()) != new.get(name, ()):
                what = read.what(group, name, before if group in before else after)
                lines.append([what, read.words(group, name, old.get(name)), read.words(group, name, new.get(name))])
    return lines


# ---- three editions


@dataclass(frozen=True)
class Difference:
    """Something that others changed meanwhile. `outcome`: TAKEN into the form, or YOURS stands in it instead."""

    group: str
    name: str
    what: str
    opened: str
    now: str
    typed: str
    outcome: str


def merged(opened: Sheet, now: Sheet, typed: Sheet, read: Read) -> tuple[Sheet, list[Difference]]:
    """What the form is to hold after others changed the record, and everything that they changed.

    What was not touched in the form follows the record; what was, stays as it was typed. A row that others took away
    is gone, unless it was written to: then it is a new row.
    """
    result: Sheet = {}
    found: list[Difference] = []
    for group in dict.fromkeys((*now, *opened, *typed)):
        was, is_, own = opened.get(group), now.get(group), typed.get(group)
        if own is not None and was is None and is_ is None:
            result[group] = own
        elif was is not None and is_ is None:
            kept = own is not None and own.get("DELETE") != DELETED and without_mark(own) != was
            if kept:
                result[f"{part_of(group)}/+gone{group.partition('/')[2]}"] = without_mark(own)
            words = read.whole(group, own) if kept else ""
            found.append(
                Difference(
                    group, "", read.title(group, opened), read.whole(group, was), "taken away", words, outcome(kept)
                )
            )
        elif was is None and is_ is not None:
            result[group] = is_
            found.append(Difference(group, "", read.title(group, now), "", read.whole(group, is_), "", TAKEN))
        elif is_ is not None:
            result[group], differences = merged_fields(group, was or {}, is_, own, read, now)
            found += differences
    return result, found


def merged_fields(
    group: str, was: Group, is_: Group, own: Group | None, read: Read, titles: Sheet
) -> tuple[Group, list[Difference]]:
    """One group that is still there; `own` is None where the form did not send it."""
    own = was if own is None else own
    kept = {"DELETE": own["DELETE"]} if "DELETE" in own else {}
    found = []
    for name in is_:
        before, here, typed = was.get(name, ()), is_[name], own.get(name, ())
        touched = typed != before
        kept[name] = typed if touched or before == here else here
        if before != here and typed != here:
            what = read.what(group, name, titles)
            words = [read.words(group, name, values) for values in (before, here, typed)]
            found.append(Difference(group, name, what, *words, outcome(touched or "DELETE" in own)))
    return kept, found


def outcome(kept: bool) -> str:
    return YOURS if kept else TAKEN


def without_mark(own: Group) -> Group:
    return {name: values for name, values in own.items() if name != "DELETE"}


# ---- a sheet as it travels


def typed_sheet(data: QueryDict, read: Read) -> Sheet:
    """What was sent, as a sheet; new rows are `prefix/+N`."""
    sheet: Sheet = {RECORD: {name: plain(data.getlist(name)) for name in read.fields[RECORD]}}
    for prefix, fields in read.fields.items():
        if prefix == RECORD:
            continue
        for place in range(whole_number(data.get(f"{prefix}-TOTAL_FORMS"))):
            row = f"{prefix}-{place}-"
            own = {name: plain(data.getlist(row + name)) for name in fields}
            if data.get(f"{row}DELETE"):
                own["DELETE"] = DELETED
            if place < whole_number(data.get(f"{prefix}-INITIAL_FORMS")):
                sheet[f"{prefix}/{data.get(f'{row}id', '')}"] = own
            elif any(own.values()):
                sheet[f"{prefix}/+{place}"] = own
    return sheet


def whole_number(text: str | None) -> int:
    return min(int(text), 5_000) if text and text.isascii() and text.isdigit() else 0


def as_sent(sheet: Sheet, data: QueryDict, parent: object, formsets: Iterable) -> QueryDict:
    """The sheet as a browser would send it; what it does not speak of stays as in `data`."""
    made = QueryDict(mutable=True)
    prefixes = tuple(f"{formset.prefix}-" for formset in formsets)
    for name in data:
        if not name.startswith(prefixes) and name not in sheet[RECORD]:
            made.setlist(name, data.getlist(name))
    for name, values in sheet[RECORD].items():
        set_values(made, name, values)
    for formset in formsets:
        rows = [group for group in sheet if group and part_of(group) == formset.prefix]
        old = [group for group in rows if "/+" not in group]
        for place, group in enumerate([*old, *(group for group in rows if group not in old)]):
            row = f"{formset.prefix}-{place}-"
            for name, values in sheet[group].items():
                set_values(made, row + name, values)
            made[row + formset.fk.name] = str(parent)
            if group in old:
                made[f"{row}id"] = group.partition("/")[2]
        made[f"{formset.prefix}-TOTAL_FORMS"] = str(len(rows))
        made[f"{formset.prefix}-INITIAL_FORMS"] = str(len(old))
        made[f"{formset.prefix}-MIN_NUM_FORMS"], made[f"{formset.prefix}-MAX_NUM_FORMS"] = "0", "1000"
    return made


def set_values(data: QueryDict, name: str, values: Values) -> None:
    if values:
        data.setlist(name, list(values))


def folded_sheet(sheet: Sheet, last: int) -> str:
    """The sheet, and the number of the last correction that it knows of, as the form carries them."""
    return json.dumps({"last": last, "sheet": sheet}, separators=(",", ":"))


def unfolded_sheet(text: str) -> tuple[Sheet, int] | None:
    """The same read again; None where it is not what a form carries."""
    try:
        held = json.loads(text)
        sheet = {
            str(group): {str(name): tuple(map(str, values)) for name, values in fields.items()}
            for group, fields in held["sheet"].items()
        }
        return sheet, int(held["last"])
    except (ValueError, TypeError, KeyError, AttributeError):
        return None
