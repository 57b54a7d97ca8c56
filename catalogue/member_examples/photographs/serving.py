"""Stored pictures, handed out only while they may be seen by whoever asks."""

from hashlib import sha256

from django.core.files.storage import default_storage
from django.http import Http404, HttpResponse
from django.utils.cache import get_conditional_response, patch_cache_control

from catalogue.member_examples import gates
from catalogue.member_examples.models import Photograph

NOT_THERE = "There is no such photograph."


def photograph_answer(request, number: int, longer: int) -> HttpResponse:
    """One size as WebP. Raises Http404 where it is not there or not for this person: a hidden one is for its owner and
    the moderators, one that was taken out for its owner only.
    """
    row = Photograph.with_taken_out.select_related("example").filter(pk=number).first()
    if row is None:
        raise Http404(NOT_THERE)
    example = gates.example_for_reader(request.user, row.example.code)
    if row.hidden and not gates.sees_unmasked(request.user, example):
        raise Http404(NOT_THERE)
    if row.taken_out_at and not gates.owns(request.user, example):
        raise Http404(NOT_THERE)
    size = next((size for size in row.files if size.get("longer") == longer and size.get("name")), None)
    if size is None:
        raise Http404(NOT_THERE)
    return stored_picture(request, size["name"])


def stored_picture(request, name: str) -> HttpResponse:
    """A stored file as WebP, for whoever may see it now. Raises Http404 where it cannot be read.

    No cache hands it out without asking again: it may be blurred, hidden or gone.
    """
    etag = f'"{sha256(name.encode()).hexdigest()[:32]}"'
    response = get_conditional_response(request, etag=etag) or HttpResponse(contents(name), content_type="image/webp")
    response["ETag"] = etag
    response["X-Content-Type-Options"] = "nosniff"
    patch_cache_control(response, private=True, no_cache=True)
    return response


def contents(name: str) -> bytes:
    try:
        with default_storage.open(name) as file:
            return file.read()
    except OSError as missing:
        raise Http404("The file of this picture cannot be read.") from missing
