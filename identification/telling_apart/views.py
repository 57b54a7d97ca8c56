"""The pages of telling apart. Nothing is written and no session is touched."""

from django.shortcuts import render
from django.urls import reverse

from catalogue.reference.models import GarmentType
from catalogue.reference.nearest import no_such_record
from identification.telling_apart.key_page import key_context
from identification.walk_through import packs


def key_page(request, type_code):
    """The printable key of a garment type."""
    number = packs.state_number()
    facts = packs.facts_for(type_code, number)
    if facts is None:
        raise no_such_record("garment type", "type", type_code, GarmentType.objects.values_list("code", "name"))
    permanent = request.build_absolute_uri(reverse("telling_apart:key", args=[type_code]))
    return render(request, "telling_apart/key.html", key_context(facts, number=number) | {"permanent": permanent})
