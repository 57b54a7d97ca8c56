"""Photographs of one's own piece: upload, describe, order, take out and put back, blur; and the files themselves."""

from django.contrib import messages
from django.http import Http404, JsonResponse
from django.shortcuts import redirect

from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.models import Photograph
from catalogue.member_examples.photographs import originals
from catalogue.member_examples.photographs.hiding import Area
from catalogue.member_examples.pictures import picture_of
from catalogue.member_examples.submitting import pictures
from catalogue.member_examples.submitting.answers import altered_on, answers_of, last_looks
from catalogue.member_examples.submitting.forms import PictureForm, TermsForm, plain
from catalogue.member_examples.submitting.sending import known_of
from catalogue.member_examples.submitting.steps import address, own_attribution, saved_words
from catalogue.member_examples.submitting.views.looks import Answered
from catalogue.member_examples.submitting.views.saved import (
    answer_faulty,
    answer_saved,
    facts_of,
    number_of,
    show,
    step,
    step_context,
    wants_quiet,
)
from catalogue.member_examples.submitting.wanted import first_three, next_two, standard_shots
from catalogue.member_examples.words import Shot

ACCEPTED = "image/jpeg,image/png,image/webp,image/heic,image/heif,.jpg,.jpeg,.png,.webp,.heic,.heif"
ACROSS, DOWN = 8, 8


@step("photographs")
def photographs(request, example):
    """What is wanted, what is there. A POST puts pictures in, or says whose they are and who may use them."""
    if request.method == "POST" and "licence" in request.POST:
        return terms(request, example)
    if request.method == "POST":
        return upload(request, example)
    pictures.clear_taken_out(example)
    return show(request, "photographs", page_context(request, example))


def terms(request, example):
    form = TermsForm(request.POST)
    if form.is_valid():
        try:
            pictures.set_terms(example=example, member=request.user, **form.cleaned_data)
            return answer_saved(request, example, address("photographs", example.code) + "#terms")
        except NotDone as problem:
            form.add_error(None, str(problem))
    context = page_context(request, example) | {"terms": form}
    return answer_faulty(request, "photographs", context, form)


def upload(request, example):
    files, arrived = request.FILES.getlist("photographs"), 0
    again: tuple[str, ...] = ()
    view, caption = request.POST.get("view", Shot.OTHER), plain(request.POST.get("caption", ""))
    if not files:
        refused: tuple[str, ...] = ("No picture arrived. Choose one first; if it broke off on the way, send it again.",)
    else:
        try:
            done = pictures.put_in(example=example, member=request.user, files=files, view=view, caption=caption)
        except NotDone as problem:
            refused = (str(problem),)
        else:
            refused, again, arrived = done.refused, done.again, done.arrived
    if wants_quiet(request):
        example.refresh_from_db()
        return JsonResponse({"saved": saved_words(example), "refused": [*refused, *again]})
    if refused:
        context = page_context(request, example) | {"refused": refused + again, "arrived": arrived}
        return show(request, "photographs", context, status=400)
    for words in again:
        messages.info(request, words)
    return redirect(address("photographs", example.code) + "#pictures")


def page_context(request, example) -> dict:
    facts, number = facts_of(example), number_of()
    rows = list(example.photographs.all())
    answers = answers_of(last_looks(example, request.user), facts, altered_on(example)) if facts else {}
    attribution = own_attribution(example)
    held = attribution.version.code if attribution and attribution.version else ""
    known = known_of(example)
    three = first_three(facts, rows, answers, held, known, number)
    there = {row.view for row in rows}
    return step_context(
        example,
        "photographs",
        terms=TermsForm(initial={"credit": rows[0].credit, "licence": rows[0].licence}) if rows else None,
        three=three,
        two=next_two(facts, rows, known, number) if all(one.there for one in three) else [],
        rest=[{"shot": s, "words": Shot(s).label, "there": s in there} for s in shots_for(facts)],
        photographs=[{"row": row, **picture(row)} for row in rows],
        taken_out=list(Photograph.with_taken_out.filter(example=example, taken_out_at__isnull=False)),
        accepted=ACCEPTED,
        originals=originals.are_kept(),
        most=pictures.MOST_PHOTOGRAPHS,
        room=pictures.MOST_PHOTOGRAPHS - len(rows),
        walk=Answered(answers),
    )


def shots_for(facts) -> list[str]:
    return standard_shots(facts.garment_class if facts else "")


def picture(row: Photograph) -> dict:
    """The stored sizes as a page names them, under `at`."""
    return {"at": picture_of(row)}


def own_picture(example, number: int, *, taken_out: bool = False) -> Photograph:
    rows = Photograph.with_taken_out if taken_out else Photograph.objects
    row = rows.filter(pk=number, example=example).first()
    if row is None:
        raise Http404("This picture is not there any more.")
    return row


@step("photographs")
def one(request, example, number):
    """What one picture shows, whose it is, who may use it."""
    row = own_picture(example, number)
    names = ("view", "caption", "credit", "licence")
    form = PictureForm(request.POST or None, initial={name: getattr(row, name) for name in names})
    context = step_context(example, "photographs", form=form, row=row, **picture(row))
    if request.method != "POST":
        return show(request, "picture", context)
    if not form.is_valid():
        return answer_faulty(request, "picture", context, form)
    try:
        pictures.describe(example=example, member=request.user, photograph=row, fields=form.cleaned_data)
    except NotDone as refusal:
        return answer_faulty(request, "picture", context, form, refusal)
    return answer_saved(request, example, address("photographs", example.code) + f"#p{row.pk}")


@step("photographs")
def change(request, example, number):
    """The small buttons under a picture: forward, back, take out, put back. Each may come twice."""
    act = request.POST.get("act", "")
    row = own_picture(example, number, taken_out=act in ("out", "back_in"))
    what = {"example": example, "member": request.user, "photograph": row}
    if request.method == "POST":
        try:
            if act == "forward":
                pictures.move(**what, by=-1)
            elif act == "back":
                pictures.move(**what, by=1)
            elif act == "out":
                pictures.take_out(**what)
            elif act == "back_in":
                pictures.put_back(**what)
        except NotDone as refusal:
            context = page_context(request, example) | {"refused": (str(refusal),), "arrived": 0}
            return show(request, "photographs", context, status=409)
    end = "#taken-out" if act == "out" else f"#p{row.pk}"
    return redirect(address("photographs", example.code) + end)


@step("photographs")
def blur(request, example, number):
    """Choose what of a picture is to be made unreadable: cells of a grid, or an area drawn with the finger."""
    row = own_picture(example, number)
    context = step_context(example, "photographs", row=row, cells=cells(), **picture(row))
    if request.method != "POST":
        return show(request, "blur", context)
    areas = areas_in(request)
    if not areas:
        context["fault"] = "Tick the cells that cover the name, or draw over it."
        return show(request, "blur", context, status=400)
    try:
        pictures.blur(example=example, member=request.user, photograph=row, areas=areas)
    except NotDone as refusal:
        context["fault"] = str(refusal)
        return show(request, "blur", context, status=409)
    return redirect(address("photographs", example.code) + f"#p{row.pk}")


def cells() -> list[dict]:
    """The cells of the grid, row by row, each with its place in words."""
    return [{"value": f"{x},{y}", "words": f"row {y + 1}, column {x + 1}"} for y in range(DOWN) for x in range(ACROSS)]


def areas_in(request) -> list[Area]:
    """The areas that the form names; what is no area is left out."""
    found = []
    for text in request.POST.getlist("cell")[: ACROSS * DOWN]:
        x, _, y = text.partition(",")
        if x.isascii() and x.isdigit() and y.isascii() and y.isdigit() and int(x) < ACROSS and int(y) < DOWN:
            found.append(Area(int(x) / ACROSS, int(y) / DOWN, 1 / ACROSS, 1 / DOWN))
    drawn = request.POST.get("area", "").split(",")
    if len(drawn) == 4:
        try:
            found.append(Area(*(float(part) for part in drawn)))
        except ValueError:
            return found
    return found
