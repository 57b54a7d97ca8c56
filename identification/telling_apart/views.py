"""The pages of telling apart. Nothing is written and no session is touched: the address is the whole state, but for the
caution, of which the reader's own browser notes that it was read."""

from dataclasses import replace

from django.http import JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.csrf import csrf_exempt

from catalogue.reference.facts import TypeFacts
from catalogue.reference.models import GarmentType
from catalogue.reference.nearest import no_such_record
from identification.telling_apart.claim_page import LABEL_FIELDS, claim_context, claim_data, claim_query
from identification.telling_apart.claimed_version import Claimed, claimed_version
from identification.telling_apart.key_page import key_context
from identification.walk_through import caution_read, packs
from identification.walk_through.address import ACCEPTED, Walk, read_walk, shortened
from identification.walk_through.label_evidence import limits_of_labels
from identification.walk_through.steps import cautions_of
from identification.walk_through.views import SHOWN_NOTES, pairs_of
from identification.walk_through.views_shown import views_offered

CLAIM = "v"
# The form's other button: into the walk-through, with the answers that are ticked.
WALK_ON = "_walk"


def key_page(request, type_code):
    """The printable key of a garment type."""
    number = packs.state_number()
    facts = packs.facts_for(type_code, number)
    if facts is None:
        raise no_such_record("garment type", "type", type_code, GarmentType.objects.values_list("code", "name"))
    permanent = request.build_absolute_uri(reverse("telling_apart:key", args=[type_code]))
    return render(request, "telling_apart/key.html", key_context(facts, number=number) | {"permanent": permanent})


@csrf_exempt  # a POST says that the caution was read and writes nothing; see walk_page
def claim_page(request):
    """What would show that a piece is not what it is said to be, and what the answers given say of that."""
    number = packs.state_number()
    typed = request.GET.get(CLAIM, "")
    claimed = claimed_version(typed, number=number) if typed.strip() else Claimed("")
    if claimed.facts is None:
        return render(request, "telling_apart/claim_door.html", {"claimed": claimed})
    walk = walk_of(request, claimed.facts)
    if WALK_ON in request.GET and not label_typed(request, walk)["year_wrong"]:
        return redirect(reverse("walk_through:type", args=[claimed.facts.code]) + walk.query())
    if typed != claimed.code or (left_empty(request) and not walk.notes):
        return redirect(request.path + claim_query(claimed.code, walk))
    walk = replace(walk, accepted=caution_read.is_read(request, claimed.facts))
    here = request.path + claim_query(claimed.code, walk)
    response = claim_or_caution(request, claimed, walk, here, number)
    return caution_read.noted(request, response, claimed.facts, here=here)


def claim_or_caution(request, claimed: Claimed, walk: Walk, here: str, number: int):
    context = {
        "facts": claimed.facts,
        "walk": walk,
        "path": request.path,
        "here": here,
        "without_cookies": caution_read.keeps_no_cookies(request, claimed.facts),
        "notes": walk.notes[:SHOWN_NOTES],
        "more_notes": max(0, len(walk.notes) - SHOWN_NOTES),
    }
    if (cautions := cautions_of(claimed.facts)) and not walk.accepted:
        return render(request, "walk_through/caution.html", context | {"cautions": cautions})
    context |= claim_context(claimed.facts, claimed.code, walk, number)
    context["label_typed"] = label_typed(request, walk)
    return render(request, "telling_apart/claim.html", context)


def claim_as_data(request):
    """The same address as data."""
    number = packs.state_number()
    claimed = claimed_version(request.GET.get(CLAIM, ""), number=number)
    if claimed.facts is None:
        near = [row["code"] for row in (*claimed.meant, *claimed.near)]
        return JsonResponse({"fault": "There is no version of this code.", "near": near}, status=404)
    found = claim_data(claimed.facts, claimed.code, walk_of(request, claimed.facts, ACCEPTED), number)
    response = JsonResponse(found, json_dumps_params={"ensure_ascii": False})
    response["Cache-Control"] = "no-cache"
    return response


def left_empty(request) -> bool:
    """Whether the form's own fields were sent without a word, as a browser does: the address is kept short."""
    return any(name in request.GET and not request.GET[name].strip() for name in LABEL_FIELDS)


def label_typed(request, walk: Walk) -> dict:
    """The label's fields as they were typed; `year_wrong` where the year counts for nothing."""
    year = request.GET.get("_label_year", "").strip()
    number = request.GET.get("_label_number", "").strip()
    return {
        "number": walk.label_number or shortened(number),
        "year": walk.label_year or shortened(year),
        "year_wrong": bool(year) and not walk.label_year,
    }


def walk_of(request, facts: TypeFacts, *taken: str) -> Walk:
    """The answers that the address holds, as the walk-through reads them."""
    pairs = [(name, value) for name, value in pairs_of(request, *taken) if name not in (CLAIM, WALK_ON)]
    limits = facts.limits
    return read_walk(
        pairs,
        facts.features,
        makers=limits.makers,
        sizes=limits.sizes,
        views=views_offered(facts),
        **limits_of_labels(packs.state_number()),
    )
