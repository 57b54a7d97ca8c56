"""A record that versions rest on as a proposal sees it: its rows, what it may become, and the writing of what was
approved. One declaration for each table; everything else is the same for all of them."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.core.exceptions import ValidationError
from django.db import models

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.actions.refusals import refuse
from catalogue.reference.backing_rows import BACKINGS, Backing
from catalogue.reference.codes import validate_code
from catalogue.reference.models import Correction, ReferenceState
from catalogue.reference.uncertain_dates import in_words
from catalogue.reference.words import Grade, SourceKind, VersionKind

Rows = dict[str, object]
DATES = ("date", "years")
STAYS = "{} is named by {} already: it does not go. Propose a change of it instead."


@dataclass(frozen=True)
class Written:
    """What a decision wrote: the table and the code of the record."""

    table: str
    code: str

    def __str__(self) -> str:
        return f"{self.table}:{self.code}"


def backing_of(table: str) -> Backing:
    return BACKINGS[table]


def found(table: str, code: str) -> models.Model | None:
    """The record itself, if it is there."""
    return BACKINGS[table].model.objects.filter(code=code).first()


def rows_of(table: str, code: str) -> Rows:
    """Every row of it as the tables have it now; none of one that is not there."""
    held = found(table, code)
    return {name: row_value(held, name) for name in BACKINGS[table].fields} if held else {}


def reason_not_to_touch(table: str, code: str, *, new: bool) -> str | None:
    """Why nothing can come of a proposal any more: the record went, or is there already."""
    if new:
        return reason_not_to_call_it(table, code)
    return None if found(table, code) else f"The {BACKINGS[table].sort} {code} is not there any more."


def reason_not_to_call_it(table: str, code: str) -> str | None:
    try:
        validate_code(code)
    except ValidationError as fault:
        return " ".join(fault.messages)
    there = BACKINGS[table].model.objects.filter(code__iexact=code).values_list("code", flat=True).first()
    if there:
        return f"There is a {BACKINGS[table].sort} {there} already. Propose a change of it, or choose another code."
    return None


def row_value(held: models.Model, name: str):
    """A field as a row has it: other records by their codes."""
    value = getattr(held, name)
    return value.code if isinstance(value, models.Model) else "" if value is None else value


def row_name(table: str, key: str) -> str:
    return BACKINGS[table].fields[key]


def row_in_words(key: str, value) -> str:
    if key in DATES:
        return in_words(str(value)) if value else ""
    if key == "grade":
        return Grade(value).label if value in Grade.values else str(value)
    for called in (SourceKind,) if key == "kind" else (VersionKind,) if key == "of_kind" else ():
        if value in called.values:
            return called(value).label
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def as_record(table: str, code: str, whole: Mapping[str, object]) -> models.Model:
    """The record with these rows, not written yet. Raises NotDone in words where it names what is not there."""
    backing = BACKINGS[table]
    made = found(table, code) or backing.model(code=code)
    for name in backing.fields:
        field, value = backing.model._meta.get_field(name), whole.get(name, "")
        if field.is_relation:
            other = field.related_model.objects.filter(code=value).first() if value else None
            if value and other is None:
                raise NotDone(f"The {backing.fields[name].lower()} {value}, which this names, is not there any more.")
            setattr(made, name, other)
        else:
            setattr(made, name, None if value == "" and field.null else value)
    return made


def check_rows(table: str, code: str, rows: Rows, base: Rows) -> None:
    """Raises NotDone in words where the record could not be so."""
    made = as_record(table, code, {**base, **rows})
    try:
        made.full_clean()
    except ValidationError as fault:
        fields = BACKINGS[table].fields
        told = [f"{fields[name]}: {' '.join(words)}" if name in fields else " ".join(words)
                for name, words in fault.message_dict.items()]  # fmt: skip
        raise NotDone(" ".join(told)) from None


def write_rows(table: str, code: str, rows: Rows, *, author: Member, why: str) -> Written:
    """The record with these rows changed, or made; no row at all: it was made by what is revoked, and goes. Its history
    in the back office says who, when and why; the reference has moved on."""
    backing, before = BACKINGS[table], rows_of(table, code)
    if not rows:
        return take_away(table, code, author=author, why=why)
    check_rows(table, code, rows, before)
    made = as_record(table, code, {**before, **rows})
    made.save()
    deed = Correction.Deed.CHANGED if before else Correction.Deed.ADDED
    lines = [
        [backing.fields[key], row_in_words(key, before.get(key, "")), row_in_words(key, value)]
        for key, value in rows.items()
    ]
    note(table, made, deed, author, why, lines)
    ReferenceState.mark_changed()
    return Written(table, code)


def take_away(table: str, code: str, *, author: Member, why: str) -> Written:
    refuse(reason_not_to_take_away(table, code))
    held = found(table, code)
    note(table, held, Correction.Deed.DELETED, author, why, [])
    held.delete()
    ReferenceState.mark_changed()
    return Written(table, code)


def reason_not_to_take_away(table: str, code: str) -> str | None:
    """Why a record that a proposal made does not go when that is revoked."""
    held = found(table, code)
    if held is None:
        return f"The {BACKINGS[table].sort} {code} is not there any more."
    resting = named_by(held)
    return STAYS.format(code, " and ".join(resting)) if resting else None


def named_by(held: models.Model) -> list[str]:
    """What names the record, each sort counted in words."""
    told = []
    for relation in held._meta.related_objects:
        rows = relation.related_model._default_manager.filter(**{relation.field.name: held})
        if number := rows.count():
            names = relation.related_model._meta
            told.append(f"{number} {names.verbose_name if number == 1 else names.verbose_name_plural}")
    return told


def note(table: str, held: models.Model, deed: str, author: Member, why: str, lines: list) -> None:
    title = f"{held} ({held.code})"[:300]
    Correction.objects.create(
        table=table, row=held.pk, title=title, deed=deed, member=author, why=why[:500], lines=lines
    )
