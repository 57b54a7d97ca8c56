"""Steps that write into the record of the piece: garment, size, condition, labels, alterations."""

from django.http import Http404
from django.shortcuts import redirect

from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.models import Alteration, Label, ShadePair
from catalogue.member_examples.shades import pair_of, shade_feature
from catalogue.member_examples.submitting.drafting import (
    drop,
    put_alteration,
    put_label,
    put_lengths,
    put_shades,
)
from catalogue.member_examples.submitting.forms import (
    MEASURED_PLACES,
    AlterationForm,
    ConditionForm,
    GarmentForm,
    LabelForm,
    PaperForm,
    SizeForm,
)
from catalogue.member_examples.submitting.lengths import lengths_for
from catalogue.member_examples.submitting.shown_before import opened
from catalogue.member_examples.submitting.steps import address
from catalogue.member_examples.submitting.views.begin import type_rows
from catalogue.member_examples.submitting.views.saved import (
    answer_faulty,
    answer_saved,
    facts_of,
    saved_fields,
    show,
    step,
    step_context,
)
from catalogue.member_examples.titles import altered_at
from catalogue.reference.models import Feature
from catalogue.reference.uncertain_dates import in_words


@step("garment")
def garment(request, example):
    """Type, what it was sold as, when and where it was seen."""
    initial = {
        "garment_type": example.garment_type.code if example.garment_type else "",
        "sold_as": example.sold_as,
        "seen_on": in_words(example.seen_on),
        "venue": example.venue,
    }
    form = opened(GarmentForm, request, initial=initial)
    context = step_context(example, "garment", form=form, types=type_rows(form))
    return saved_fields(request, example, "garment", form, context, lambda: form.cleaned_data)


@step("condition")
def condition(request, example):
    """Condition, history as it was told, repairs."""
    initial = {name: getattr(example, name) for name in ("condition", "provenance", "repairs", "note")}
    for name in ("complete", "label_legible", "mould"):
        initial[name] = {True: "yes", False: "no", None: ""}[getattr(example, name)]
    shade = shade_feature(facts_of(example))
    pair = pair_of(example)
    initial |= shades_before(pair)
    form = opened(ConditionForm, request, initial=initial, shade=shade)
    context = step_context(example, "condition", form=form)

    def write_shades():
        if shade:
            shades = form.shades(before=initial, measured_before=pair.labs if pair else None)
            put_shades(example=example, member=request.user, shade=shade.code, **shades)

    return saved_fields(request, example, "condition", form, context, lambda: form.fields_of_piece, beside=write_shades)


def shades_before(pair: ShadePair | None) -> dict[str, str]:
    if pair is None:
        return {}
    figures = [" ".join(f"{one:g}" for one in place) for place in pair.labs or ()]
    seen = {"exposed": pair.exposed.code if pair.exposed else "", "protected": pair.protected}
    return seen | dict(zip(MEASURED_PLACES, figures, strict=False))


@step("size")
def size(request, example):
    """The size mark, and lengths laid flat."""
    facts = facts_of(example)
    lengths = lengths_for(facts.garment_class if facts else "")
    mine = {row.what: row for row in example.measurements.filter(by=request.user)}
    unit = "in" if any(row.typed.endswith(" in") for row in mine.values()) else "cm"
    initial = {"size_mark": example.size_mark, "unit": unit}
    initial |= {what: typed_before(mine[what], unit) for what in lengths if what in mine}
    initial["method"] = next((row.method for row in mine.values() if row.method), "")
    form = opened(SizeForm, request, initial=initial, lengths=lengths)
    context = step_context(example, "size", form=form)

    def write_lengths():
        method = form.cleaned_data.get("method", initial["method"])
        put_lengths(example=example, member=request.user, lengths=form.measured_lengths, method=method)

    return saved_fields(request, example, "size", form, context, lambda: form.fields_of_piece, beside=write_lengths)


def typed_before(row, unit: str) -> str:
    """A length as it was typed, in the unit of the form; else from the millimetres."""
    typed, _, typed_unit = row.typed.rpartition(" ")
    if typed and typed_unit == unit:
        return typed
    number = row.mm / (25.4 if unit == "in" else 10)
    return f"{number:.1f}".removesuffix(".0")


@step("labels")
def labels(request, example):
    """What the labels say in figures, and the list of labels."""
    initial = {
        "maker": example.maker.code if example.maker else "",
        "label_year": example.label_year,
        "contract": example.contract,
    }
    form = opened(PaperForm, request, initial=initial)
    context = step_context(example, "labels", form=form, labels=list(example.labels.all()))
    return saved_fields(request, example, "labels", form, context, lambda: form.cleaned_data)


@step("labels")
def label(request, example, number=None):
    """One label, new or known."""
    row, form = row_and_form(request, example, Label, LabelForm, number)
    context = step_context(example, "labels", form=form, row=row)
    if request.method == "POST" and form.is_valid():
        try:
            put_label(example=example, member=request.user, fields=form.cleaned_data, label=row)
            return answer_saved(request, example, address("labels", example.code), form)
        except NotDone as refusal:
            return answer_faulty(request, "label", context, form, refusal)
    if request.method == "POST":
        return answer_faulty(request, "label", context, form)
    return show(request, "label", context)


@step("alterations")
def alterations(request, example):
    """The list of what was done to the piece."""
    rows = [(row, altered_at(example, row)) for row in owners_rows(Alteration, example).prefetch_related("features")]
    return show(request, "alterations", step_context(example, "alterations", rows=rows))


@step("alterations")
def alteration(request, example, number=None):
    """One alteration, new or known."""
    row, form = row_and_form(request, example, Alteration, AlterationForm, number, facts=facts_of(example))
    context = step_context(example, "alterations", form=form, row=row)
    if request.method == "POST" and form.is_valid():
        try:
            put_alteration(
                example=example,
                member=request.user,
                fields=form.fields_of_row,
                features=list(Feature.objects.filter(code__in=form.cleaned_data["features"])),
                alteration=row,
            )
            return answer_saved(request, example, address("alterations", example.code), form)
        except NotDone as refusal:
            return answer_faulty(request, "alteration", context, form, refusal)
    if request.method == "POST":
        return answer_faulty(request, "alteration", context, form)
    return show(request, "alteration", context)


@step("labels")
def drop_label(request, example, number):
    return dropped(request, example, Label, number, "labels")


@step("alterations")
def drop_alteration(request, example, number):
    return dropped(request, example, Alteration, number, "alterations")


def dropped(request, example, model, number: int, then: str):
    """Take a row out; one that is gone already is no fault."""
    row = owners_rows(model, example).filter(pk=number).first()
    if request.method == "POST" and row:
        drop(example=example, member=request.user, row=row)
    return redirect(address(then, example.code))


def owners_rows(model, example):
    """What stands in the owner's record; alterations that others added are not theirs to change."""
    rows = model.objects.filter(example=example)
    return rows.filter(added_by__isnull=True) if model is Alteration else rows


TAKEN_OUT = "It was taken out elsewhere meanwhile. Keep it, and it is written down anew."


def row_and_form(request, example, model, form_class, number: int | None, **given):
    """A label or alteration of the owner's, none where it is to be new, and its form.

    One that was taken out while it was open here is offered as a new one, with what was typed.
    """
    row = owners_rows(model, example).filter(pk=number).first() if number else None
    if row:
        return row, opened(form_class, request, initial=form_class.of(row), **given)
    is_sent = request.method == "POST"
    if number and not is_sent:
        raise Http404("It is not there any more.")
    form = form_class(request.POST if is_sent else None, **given)
    if number:
        form.add_error(None, TAKEN_OUT)
    return None, form
