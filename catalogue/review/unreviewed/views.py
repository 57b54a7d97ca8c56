"""Records that nobody proposed, by garment type, for authors; looking them through in batches, for moderators."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode
from django.views.decorators.http import require_http_methods

from catalogue.accounts.roles import MAINTAIN_REFERENCE, REVIEW_REFERENCE, may, required
from catalogue.long_lists import page_of
from catalogue.reference.plurals import counted
from catalogue.review.unreviewed.actions import Done, NotDone, pass_records, take_passes_back
from catalogue.review.unreviewed.forms import LookForm
from catalogue.review.unreviewed.gathering import LISTS, PASSED, WAITING, listed, row_of, types

A_PAGE, MOST_NAMED = 50, 20


@require_http_methods(["GET", "HEAD", "POST"])
@required(MAINTAIN_REFERENCE)
def unreviewed(request):
    """Every garment type, or with `?type=` its records; `?state=passed` those that were looked through."""
    if request.method == "POST":
        return look_through(request)
    return shown(request)


@required(REVIEW_REFERENCE)
def look_through(request):
    form = LookForm(request.POST)
    ticked = [int(one) for one in request.POST.getlist("record") if one.isascii() and one.isdigit() and len(one) < 10]
    if form.is_valid():
        act = take_passes_back if chosen_list(request) == PASSED else pass_records
        try:
            done = act(records=ticked, by=request.user, **form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, told(done, act is take_passes_back))
            asked = urlencode({"type": request.GET.get("type", ""), "state": chosen_list(request)})
            return redirect(f"{reverse('unreviewed:list')}?{asked}")
    return shown(request, form=form, ticked=ticked)


def chosen_list(request) -> str:
    which = request.GET.get("state", "")
    return which if which in LISTS else WAITING


def told(done: Done, back: bool) -> str:
    """What became of all that was ticked, in one sentence each."""
    words = "put back among those not reviewed" if back else "looked through"
    more = f"; and {len(done.left) - MOST_NAMED} more" if len(done.left) > MOST_NAMED else ""
    left = f" Left out: {'; '.join(done.left[:MOST_NAMED])}{more}." if done.left else ""
    return f"{counted(len(done.codes), 'record')} {words}.{left}"


def shown(request, form: LookForm | None = None, ticked=()):
    every, which = types(), chosen_list(request)
    home = next((one for one in every if one["code"] == request.GET.get("type")), None)
    context = {"types": every, "home": home, "lists": LISTS.items(), "chosen": which, "waiting": WAITING}
    if home:
        page, odd_page = page_of(request.GET.get("page"), listed(home["code"], which), A_PAGE)
        keep = urlencode({"type": home["code"], "state": which}) + "&"
        rows = [row_of(one) | {"ticked": one.current_record_id in ticked} for one in page]
        context |= {"page": page, "odd_page": odd_page, "keep": keep, "rows": rows}
        if may(request.user, REVIEW_REFERENCE):
            context["form"] = form or LookForm()
    return render(request, "review/unreviewed/list.html", context)
