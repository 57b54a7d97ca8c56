"""What spreadsheets proposed: every import, and the proposals of one, which moderators decide together."""

from django.contrib import messages
from django.http import QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.accounts.roles import PROPOSE_CHANGES, REVIEW_REFERENCE, may, required
from catalogue.long_lists import page_of
from catalogue.reference.models import ReferenceState
from catalogue.review.importing.deciding import Decided, NotDone, decide_together
from catalogue.review.importing.forms import TogetherForm
from catalogue.review.importing.gathering import imports, proposals_of, rows_of
from catalogue.review.models import ReferenceImport

A_PAGE = 50
# Each stays open on its page and can be asked for there; more do not fit above it.
MOST_NAMED = 20


@require_safe
@required(PROPOSE_CHANGES)
def imported(request):
    """Every import that became proposals, the newest first."""
    page, odd_page = page_of(request.GET.get("page"), imports(), A_PAGE)
    return render(request, "review/importing/imports.html", {"page": page, "odd_page": odd_page, "keep": ""})


@require_http_methods(["GET", "HEAD", "POST"])
@required(PROPOSE_CHANGES)
def together(request, number):
    """The proposals of one import; by POST one decision on those that are ticked."""
    one = get_object_or_404(ReferenceImport.objects.select_related("by"), pk=number)
    return decide(request, one) if request.method == "POST" else shown(request, one)


@required(REVIEW_REFERENCE)
def decide(request, one: ReferenceImport):
    form, sendings = TogetherForm(request.POST), sendings_of(request.POST)
    if form.is_valid():
        try:
            decided = decide_together(of=one, sendings=sendings, decider=request.user, **form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, told(decided))
            return redirect("imports:together", one.pk)
    return shown(request, one, form=form, ticked={number for number, _ in sendings})


def sendings_of(given: QueryDict) -> list[tuple[int, int]]:
    """The proposals that were ticked, as NUMBER:SENDING; what is not of this form was not offered."""
    pairs = [value.partition(":")[::2] for value in given.getlist("proposal")]
    read = [pair for pair in pairs if all(part.isascii() and part.isdigit() and len(part) < 10 for part in pair)]
    return list(dict.fromkeys((int(number), int(sending)) for number, sending in read))


def told(decided: Decided) -> str:
    """How many of each, and every one that was left out with why."""
    made = "; ".join(f"{words}: {count}" for words, count in decided.made.items()) or "nothing was decided"
    more = f" And {len(decided.left) - MOST_NAMED} more." if len(decided.left) > MOST_NAMED else ""
    left = f" Left out: {' '.join(decided.left[:MOST_NAMED])}{more}" if decided.left else ""
    return f"{made.capitalize()}.{left}"


def shown(request, one: ReferenceImport, form: TogetherForm | None = None, ticked=frozenset()):
    page, odd_page = page_of(request.GET.get("page"), proposals_of(one), A_PAGE)
    rows = rows_of(page, request.user, ticked, number=ReferenceState.current_number())
    context = {"one": one, "page": page, "odd_page": odd_page, "keep": "", "rows": rows}
    if may(request.user, REVIEW_REFERENCE) and any(row["decidable"] for row in rows):
        context["form"] = form or TogetherForm()
    elif form:
        context["form"] = form
    return render(request, "review/importing/together.html", context)
