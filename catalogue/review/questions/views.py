"""Writing a proposal on an open question, and views of it. Every step is a page that works without a script."""

from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.accounts.roles import MAINTAIN_REFERENCE, PROPOSE_CHANGES, REVIEW_REFERENCE, may, required
from catalogue.member_examples.actions import NotDone
from catalogue.reference.addresses import address_of
from catalogue.reference.models import OpenQuestion, QuestionView
from catalogue.reference.nearest import record_or_nearest
from catalogue.review.proposals.actions import begin_on_question
from catalogue.review.proposals.gates import MISSING, proposal_of_author
from catalogue.review.proposals.gathering import title_of
from catalogue.review.proposals.rules import CHANGEABLE
from catalogue.review.proposals.saving import first_of_draft, saved
from catalogue.review.proposals.words import ProposalKind, ProposalState
from catalogue.review.questions import actions
from catalogue.review.questions.forms import DecidedForm, ModeratedForm, ViewForm

WRITING = ["GET", "HEAD", "POST"]
NO_VIEW = "There is no such view."
proposing_required = required(PROPOSE_CHANGES)


@require_http_methods(WRITING)
@proposing_required
def begin(request):
    """A change of `?question=`; the draft is made only by POST."""
    question = question_asked(request)
    fault = ""
    if request.method == "POST":
        try:
            made = begin_on_question(by=request.user, question=question)
        except NotDone as refusal:
            fault = str(refusal)
        else:
            return redirect("questions:edit", made.pk)
    waiting = question.proposals.filter(state=ProposalState.OPEN).select_related("by").order_by("sent_at")
    context = {"question": question, "fault": fault, "waiting": waiting, "address": home_of(question)}
    return render(request, "review/questions/begin.html", context)


@require_http_methods(WRITING)
@proposing_required
def edit(request, number):
    """The question as it is wanted, beside what stands today."""
    found = proposal_of_author(request.user, number)
    if found.kind != ProposalKind.QUESTION:
        raise Http404(MISSING)
    if found.state not in CHANGEABLE:
        return redirect("proposals:proposal", number)
    whole = {**found.base, **found.rows}
    form = DecidedForm(
        request.POST if request.method == "POST" else None,
        question=found.question,
        base=found.base,
        may_maintain=may(request.user, MAINTAIN_REFERENCE),
        initial=whole | first_of_draft(found),
    )
    if request.method == "POST" and form.is_valid() and saved(request, found, form, whole | form.rows()):
        return redirect("proposals:proposal", number)
    context = {"proposal": found, "title": title_of(found, {}), "form": form, "address": home_of(found.question)}
    return render(request, "review/questions/edit.html", context)


@require_http_methods(WRITING)
@proposing_required
def add_view(request):
    """A further view of `?question=`."""
    question = question_asked(request)
    form = ViewForm(request.POST if request.method == "POST" else None, initial={"holder": request.user.username})
    if request.method == "POST" and form.is_valid():
        try:
            actions.add_view(question=question, by=request.user, **given_in(form))
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, "Your view stands beside the others.")
            return redirect(home_of(question))
    context = {"question": question, "form": form, "address": home_of(question)}
    return render(request, "review/questions/view.html", context, status=400 if form.errors else 200)


@require_http_methods(WRITING)
@proposing_required
def change_view(request, pk):
    """One's own view, to be changed or taken back; others' are not there."""
    view = QuestionView.objects.select_related("question").filter(pk=pk, by=request.user).first()
    if view is None:
        raise Http404(NO_VIEW)
    first = {"holder": view.holder, "text": view.text, "revision": view.revision}
    first["cites"] = " ".join(view.sources.order_by("code").values_list("code", flat=True))
    taking_back = "withdraw" in request.POST
    form = ViewForm(request.POST if request.method == "POST" and not taking_back else None, initial=first)
    fault = ""
    try:
        if taking_back:
            actions.withdraw_view(view=view, by=request.user)
            messages.success(request, f"View {view.letter} is taken back.")
            return redirect(home_of(view.question))
        if request.method == "POST" and form.is_valid():
            revision = form.cleaned_data["revision"]
            actions.change_view(
                view=view, by=request.user, revision=-1 if revision is None else revision, **given_in(form)
            )
            messages.success(request, "Your view is changed.")
            return redirect(home_of(view.question))
    except NotDone as refusal:
        fault = str(refusal)
    context = {"question": view.question, "view": view, "form": form, "fault": fault}
    refused = bool(fault or form.errors)
    context["address"] = home_of(view.question)
    return render(request, "review/questions/view.html", context, status=400 if refused else 200)


@require_POST
@proposing_required
def whose_view(request, pk):
    """The member who is named says that a view is not theirs, or takes that back: one step on the question's page."""
    view = QuestionView.objects.held().select_related("question", "by").filter(pk=pk).first()
    if view is None:
        raise Http404(NO_VIEW)
    disowned = "mine" not in request.POST
    try:
        actions.disown_view(view=view, by=request.user, disowned=disowned)
    except NotDone as refusal:
        messages.error(request, str(refusal))
    else:
        words = "as not yours" if disowned else "as yours again"
        messages.success(request, f"View {view.letter} stands {words} from now on.")
    return redirect(f"{home_of(view.question)}#view-{view.letter}")


@require_http_methods(WRITING)
@required(REVIEW_REFERENCE)
def moderate_view(request, pk):
    """Take a view out, or put one back that was."""
    view = QuestionView.objects.select_related("question", "by").filter(pk=pk).first()
    if view is None:
        raise Http404(NO_VIEW)
    form = ModeratedForm(request.POST if request.method == "POST" else None)
    putting_back = "put_back" in request.POST if request.method == "POST" else bool(view.taken_out)
    if request.method == "POST" and form.is_valid():
        act = actions.put_back_view if putting_back else actions.take_out_view
        try:
            act(view=view, moderator=request.user, reason=form.cleaned_data["reason"])
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, f"View {view.letter} is {'put back' if putting_back else 'taken out'}.")
            return redirect(home_of(view.question))
    context = {"question": view.question, "view": view, "form": form, "putting_back": putting_back}
    context["address"] = home_of(view.question)
    return render(request, "review/questions/moderate_view.html", context, status=400 if form.errors else 200)


def given_in(form: ViewForm) -> dict:
    given = form.cleaned_data
    return {"holder": given["holder"], "text": given["text"], "sources": given["cites"]}


def question_asked(request) -> OpenQuestion:
    code = request.GET.get("question", "")[:80]
    return record_or_nearest(OpenQuestion.objects.all(), "open question", "open_question", code, "question")


def home_of(question: OpenQuestion) -> str:
    return address_of("open_question", question.code)
