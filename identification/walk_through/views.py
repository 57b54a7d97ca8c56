"""The pages of the walk-through. Nothing is written and no session is touched: the address is the whole state, but for
the caution, of which the reader's own browser notes that it was read."""

from dataclasses import dataclass, replace

from django.http import JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.csrf import csrf_exempt

from catalogue.reference.contents import contents
from catalogue.reference.facts import TypeFacts
from catalogue.reference.nearest import NoSuchRecord, near_codes
from identification import engine
from identification.labels_on_pages.sewn import sewn_words
from identification.walk_through import caution_read, packs
from identification.walk_through.address import (
    ACCEPTED,
    LABEL_SEWN,
    NUMBER,
    OUTSIDE,
    YES,
    Walk,
    read_measure,
    read_walk,
    shortened,
)
from identification.walk_through.any_garment import ANY_GARMENT
from identification.walk_through.as_data import walk_data
from identification.walk_through.handover import handover_query
from identification.walk_through.label_evidence import label_context, label_words, limits_of_labels, pack_with_label
from identification.walk_through.question_page import answered_rows, question_context, sewn_context, type_rows
from identification.walk_through.steps import Step, cautions_of, may_ask_how_sewn, next_step
from identification.walk_through.verdict_page import verdict_context
from identification.walk_through.views_shown import is_pictures, view_words, views_offered

SHOWN_NOTES = 5
KEPT = "Your other answers are kept."


@dataclass(frozen=True)
class Start:
    """What every page of one walk stands on."""

    facts: TypeFacts
    pack: engine.Pack
    walk: Walk
    number: int


def choose(request):
    """The door: pick a garment type, or say that you do not know."""
    types = [one for one in contents() if one.versions]
    return render(request, "walk_through/choose.html", {"types": types})


@csrf_exempt  # a POST writes nothing here; without cookies the check would refuse it before a word of ours is read
def walk_page(request, type_code):
    """A walk within one garment type. A POST says that the caution was read."""
    return page(request, start_in_type(request, type_code))


@csrf_exempt
def walk_any(request):
    """A walk over all types, until one is clear."""
    start = start_in_any(request)
    if not start.walk.ask and (query := handover_query(start.facts, start.pack, start.walk, start.number)):
        return redirect(query)
    return page(request, start)


def walk_as_data(request, type_code):
    """The same address as data."""
    return data(request, start_in_type(request, type_code, ACCEPTED))


def walk_any_as_data(request):
    return data(request, start_in_any(request, ACCEPTED))


def start_in_type(request, type_code: str, *taken: str) -> Start:
    """`taken`: parameters that are not the walk's, read elsewhere."""
    number = packs.state_number()
    facts = packs.facts_for(type_code, number)
    if facts is None:
        raise no_such_walk(type_code)
    limits = facts.limits
    walk = read_walk(
        pairs_of(request, *taken),
        facts.features,
        makers=limits.makers,
        sizes=limits.sizes,
        views=views_offered(facts),
        **limits_of_labels(number),
    )
    return Start(facts, pack_with_label(facts, walk, number), walk, number)


def no_such_walk(type_code: str) -> NoSuchRecord:
    """The exception to raise; it leads to the walks of garment types that are spelled nearly so."""
    names = {one.code: one.name for one in contents()}
    near = [
        {"address": reverse("walk_through:type", args=[code]), "words": f"{code}: {names[code]}"}
        for code in near_codes(type_code, names)
    ]
    return NoSuchRecord(f"There is no garment type {shortened(type_code)}.", near)


def start_in_any(request, *taken: str) -> Start:
    number = packs.state_number()
    garments = packs.garments_for(number)
    walk = read_walk(pairs_of(request, *taken), garments.facts.features, **limits_of_labels(number))
    return Start(garments.facts, pack_with_label(garments.facts, walk, number), walk, number)


def pairs_of(request, *taken: str) -> list[tuple[str, str]]:
    """Names and values as they stand in the address, a form's several ticks or measure put into one answer first."""
    given = request.GET
    target = given.get("_for", "")
    pairs = [
        (name, value)
        for name, values in given.lists()
        for value in values
        if name not in ("_for", "_one_of", "_value", "_unit", *taken)
    ]
    if target and given.getlist("_one_of"):
        pairs.append((target, ",".join(given.getlist("_one_of"))))
    elif target and given.get("_value") and not typed_wrong(request):
        pairs.append((target, given["_value"].strip() + given.get("_unit", "")))
    return pairs


def typed_wrong(request) -> str:
    """What was typed as a measure and cannot be read as one, else nothing."""
    typed = request.GET.get("_value", "").strip()
    unit = request.GET.get("_unit", "")
    is_measure = NUMBER.fullmatch(typed.lower()) and read_measure(typed + unit)
    return typed if "_value" in request.GET and not is_measure else ""


def form_fault(request, facts: TypeFacts) -> str:
    """What is wrong with what one of a question's own forms sent, in words; nothing where it can be taken."""
    given = request.GET
    if given.get("_for") not in facts.features:
        return ""
    if (typed := typed_wrong(request)) and NUMBER.fullmatch(typed.lower()):
        return f"“{typed}” is not a length of a piece: it is over 0 and at most 10 metres. Look at the unit too. {KEPT}"
    if typed:
        return f"“{typed}” is not a length that can be read. Write a number, as 64 or 6.4. {KEPT}"
    if "_value" in given and not given["_value"].strip():
        return f"No length was written. Write a number, as 64 or 6.4, or choose an answer below. {KEPT}"
    if "_value" not in given and not given.getlist("_one_of"):
        return f"Nothing was ticked under “One of several”. Tick all that it may be, or choose one answer. {KEPT}"
    return ""


def page(request, start: Start):
    """The caution or what stands behind it."""
    walk = replace(start.walk, accepted=caution_read.is_read(request, start.facts))
    response = page_of(request, replace(start, walk=walk))
    return caution_read.noted(request, response, start.facts, here=request.path + walk.query())


def page_of(request, start: Start):
    """The caution, a question or the verdict, whichever this address leads to; or that nothing is recorded yet."""
    facts, walk = start.facts, start.walk
    fault = form_fault(request, facts)
    if "_for" in request.GET and not fault:
        return redirect(request.path + walk.query())
    if fault:
        walk = replace(walk, ask=request.GET["_for"])
    step = next_step(facts, start.pack, walk)
    context = common_context(request, facts, walk, step, start.number)
    if step.page == "caution":
        return render(request, "walk_through/caution.html", context)
    if not facts.versions:
        return render(request, "walk_through/nothing_yet.html", context)
    if step.page == "label_sewn":
        return render(request, "walk_through/label_sewn.html", context | sewn_context(walk))
    if step.page == "question":
        context |= question_context(facts, start.pack, walk, step, start.number)
        context |= {"typed": typed_wrong(request), "fault": fault, "fault_in_ticks": "_value" not in request.GET}
        return render(request, "walk_through/question.html", context)
    if step.page == "types":
        context |= {
            "candidates": type_rows(facts, start.pack, walk, start.number),
            "answered": answered_rows(facts, walk, {}),
        }
        return render(request, "walk_through/types_left.html", context)
    context |= verdict_context(facts, start.pack, walk, start.number)
    verdict = context["verdict"]
    context["label"] = label_context(facts, walk, verdict.leader, verdict.second, start.number)
    return render(request, "walk_through/verdict.html", context)


def common_context(request, facts: TypeFacts, walk: Walk, step: Step, number: int) -> dict:
    """What every page of a walk shows: its garment, its notes, its ways on and back."""
    notes = [*walk.notes, *([step.refusal] if step.refusal else [])]
    here = request.path + walk.query()
    last = list(walk.answers)[-1:]
    return {
        "facts": facts,
        "walk": walk,
        "path": request.path,
        "here": here,
        "data_address": data_address(facts, walk),
        "notes": notes[:SHOWN_NOTES],
        "more_notes": max(0, len(notes) - SHOWN_NOTES),
        "cautions": cautions_of(facts),
        "without_cookies": caution_read.keeps_no_cookies(request, facts),
        "hidden_all": walk.pairs(),
        "label_said": label_words(facts, walk, number),
        "label_sewn": sewn_words(walk.label_sewn),
        "ask_sewn": replace(walk, ask=LABEL_SEWN, stop=False).query() if may_ask_how_sewn(facts, walk) else "",
        "without_label": walk.without_label().query(),
        "undo": walk.without(last[0]).query() if last else "",
        "undo_asks": replace(walk, ask=last[0], stop=False).query() if last else "",
        "stop_query": replace(walk, stop=True, ask="").query(),
        "go_on_query": replace(walk, stop=False, ask="").query(),
        "outside_query": replace(walk, views=(OUTSIDE,), stop=False, ask="").query(),
        "everything_query": replace(walk, views=(), stop=False, ask="").query(),
        "views": view_ticks(facts, walk),
        "pictures": " and ".join(view_words(view).lower() for view in walk.views) if is_pictures(walk.views) else "",
        "hidden_of_views": [(name, v) for name, v in walk.pairs() if name not in ("_views", "_stop", "_ask")],
        "is_any": facts.code == ANY_GARMENT,
        "limits": facts.limits,
    }


def view_ticks(facts: TypeFacts, walk: Walk) -> list[dict]:
    """The views that pictures may show, to be ticked; none in the walk over all types."""
    if facts.code == ANY_GARMENT:
        return []
    return [{"code": v, "words": view_words(v), "given": v in walk.views} for v in views_offered(facts)]


def data_address(facts: TypeFacts, walk: Walk) -> str:
    accepted = f"&{ACCEPTED}={YES}" if walk.accepted and cautions_of(facts) else ""
    if facts.code == ANY_GARMENT:
        return reverse("walk_through:any_data") + walk.query() + accepted
    return reverse("walk_through:type_data", args=[facts.code]) + walk.query() + accepted


def data(request, start: Start) -> JsonResponse:
    """A program has no cookie to keep: it says in the address that the caution was read."""
    walk = replace(start.walk, accepted=request.GET.get(ACCEPTED) == YES)
    told = walk_data(start.facts, start.pack, walk, start.number)
    response = JsonResponse(told, json_dumps_params={"ensure_ascii": False})
    response["Cache-Control"] = "no-cache"
    return response
