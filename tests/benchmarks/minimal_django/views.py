"""Three pages: nothing, a list, a list with facets. Each row links to a page of its own, as lists do."""

from django.core.paginator import Paginator
from django.db.models import Count
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render

from tests.benchmarks.minimal_django.models import Piece

PIECES = Piece.objects.all()


def empty(request):
    return HttpResponse("ok")


def plain_list(request):
    """One query, fifty rows, one template."""
    return render(request, "list.html", {"pieces": PIECES[:50]})


def facets(request):
    """Four queries under one filter that all rows pass: how many, the page, and how many of each kind and maker."""
    pieces = PIECES.filter(name__icontains="second pattern")
    return render(
        request,
        "facets.html",
        {
            "pieces": Paginator(pieces, 50).get_page(request.GET.get("page")),
            "kinds": pieces.order_by("kind").values("kind").annotate(number=Count("id")),
            "makers": pieces.order_by("maker__name").values("maker_id", "maker__name").annotate(number=Count("id")),
        },
    )


def piece(request, code):
    return HttpResponse(get_object_or_404(PIECES, code=code).name)
