"""The queue and the screen of one piece, for moderators."""

from dataclasses import dataclass

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.accounts.roles import moderator_required
from catalogue.long_lists import page_of
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.gates import example_for_moderator
from catalogue.member_examples.models import NameRequest
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import DecisionKind, ExampleState
from catalogue.reference.models import GarmentType, IssueVersion, ReferenceState
from catalogue.reference.snapshots import type_facts
from catalogue.review.deputies.standing_in import away_today
from catalogue.review.examples_queue.actions import decide_on_piece, keep_as_something_else, open_again
from catalogue.review.examples_queue.doubts import DOUBTFUL, keep_as_it_is, open_doubts
from catalogue.review.examples_queue.forms import AttributeForm, DecisionForm, KeepForm, ReasonForm
from catalogue.review.examples_queue.gathering import rows
from catalogue.review.examples_queue.looking import look_at
from catalogue.review.examples_queue.piece_page import laid_beside, piece_context

A_PAGE = 30
STATES = [
    (ExampleState.SUBMITTED, "Waiting"),
    (ExampleState.RETURNED, "Returned"),
    (ExampleState.DECLINED, "Declined"),
    (ExampleState.ACCEPTED, "Accepted"),
    (DOUBTFUL, "Doubtful"),
]


@dataclass(frozen=True)
class Chosen:
    """What the address of the list asks for; whatever it does not know is left out."""

    state: str
    type_code: str
    weighs: bool

    @property
    def address(self) -> str:
        pairs = [("state", self.state), ("type", self.type_code), ("weighs", "yes" if self.weighs else "")]
        return "".join(f"{name}={value}&" for name, value in pairs if value)


def chosen(given) -> Chosen:
    state = given.get("state", "")
    types = set(GarmentType.objects.values_list("code", flat=True)) if given.get("type") else set()
    return Chosen(
        state=state if state in dict(STATES) else ExampleState.SUBMITTED,
        type_code=given.get("type", "") if given.get("type") in types else "",
        weighs=given.get("weighs") == "yes",
    )


@require_safe
@moderator_required
def queue(request):
    """Pieces that wait, the weightiest and oldest first; with `?state=` those that were decided."""
    want, now = chosen(request.GET), timezone.now()
    found = rows(
        request.user, state=want.state, type_code=want.type_code, number=ReferenceState.current_number(), now=now
    )
    if want.weighs:
        found = [row for row in found if row.rank.weighs]
    page, odd_page = page_of(request.GET.get("page"), found, A_PAGE)
    context = {
        "page": page,
        "odd_page": odd_page,
        "keep": want.address,
        "chosen": want,
        "states": STATES,
        "types": GarmentType.objects.order_by("name").values_list("code", "name"),
        "waits": want.state == ExampleState.SUBMITTED,
        "doubtful": open_doubts().values("example").distinct().count(),
        "away": away_today(),
        "asked": NameRequest.objects.filter(settled_at__isnull=True).select_related("example"),
    }
    return render(request, "review/examples_queue/queue.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@moderator_required
def piece(request, code):
    """One piece with everything that bears on the decision; the decision itself by POST, then the next piece."""
    found = example_for_moderator(request.user, code)
    now, number = timezone.now(), ReferenceState.current_number()
    other = look_at(example=found, moderator=request.user, now=now) if found.state == ExampleState.SUBMITTED else None
    beside = laid_beside(
        found, considered=request.GET.get("as", ""), type_code=request.GET.get("type", ""), number=number
    )
    form = decision_form(request, found, beside)
    if request.method == "POST" and form.is_valid():
        try:
            made = decide(found, request.user, form, beside.facts)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
            found = example_for_moderator(request.user, code)
        else:
            messages.success(request, f"{found.code}: {DecisionKind(made.decision).label.lower()}. Its owner is told.")
            return redirect(next_after(request.user, found.code))
    context = piece_context(request.user, found, beside, number=number, now=now)
    more = {
        "form": form,
        "other": other,
        "reopening": ReasonForm(),
        "keeping": KeepForm(initial={"believed": found.held_as.code if found.held_as else ""}),
        "types": GarmentType.objects.order_by("name").values_list("code", "name") if not found.garment_type else [],
    }
    return render(request, "review/examples_queue/piece.html", context | more)


def decision_form(request, found, beside) -> DecisionForm:
    version = beside.version
    first = {"sending": found.times_sent, "version": version.code if version else ""}
    given = request.POST if request.method == "POST" else None
    return DecisionForm(given, facts=beside.facts, initial=first)


def decide(found, moderator, form, facts):
    given = form.cleaned_data
    accepting = given["decision"] == DecisionKind.ACCEPTED
    named = accepting and not form.held
    return decide_on_piece(
        example=found,
        moderator=moderator,
        decision=given["decision"],
        reason=given["reason"],
        sending=given["sending"],
        held_as=IssueVersion.objects.select_related("garment_type").get(code=given["version"]) if named else None,
        held=form.held if accepting else "",
        garment_type=GarmentType.objects.get(code=facts.code) if accepting and facts else None,
    )


def next_after(moderator, code: str) -> str:
    """The address of the next piece that this moderator can decide and nobody else looks at, or of the list.

    It begins at the top: a browser would carry the fragment of the form's address over."""
    waiting = rows(moderator, state=ExampleState.SUBMITTED, number=ReferenceState.current_number(), now=timezone.now())
    for row in waiting:
        busy = row.looked_at and row.looked_at.moderator_id != moderator.pk
        if row.example.code != code and not row.is_own and not busy:
            return f"{reverse('examples_queue:piece', args=[row.example.code])}#main"
    return f"{reverse('examples_queue:queue')}#main"


@require_safe
@moderator_required
def following(request, code):
    """The piece after this one, which is left undecided."""
    example_for_moderator(request.user, code)
    waiting = rows(
        request.user, state=ExampleState.SUBMITTED, number=ReferenceState.current_number(), now=timezone.now()
    )
    codes = [row.example.code for row in waiting]
    at = codes.index(code) + 1 if code in codes else 0
    for row in waiting[at:] + waiting[:at]:
        if row.example.code != code and not row.is_own:
            return redirect("examples_queue:piece", row.example.code)
    return redirect("examples_queue:queue")


@require_POST
@moderator_required
def reopen(request, code):
    """Undo a decision by a newer one; the piece waits again."""
    found = example_for_moderator(request.user, code)
    form = ReasonForm(request.POST)
    if form.is_valid():
        try:
            open_again(example=found, moderator=request.user, reason=form.cleaned_data["reason"])
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, f"{found.code} waits again. The earlier decision stays on its page.")
            return redirect("examples_queue:piece", code)
    return asked_again(request, found, form, heading=f"Open {code} again", button="Open it again")


@require_POST
@moderator_required
def keep(request, code):
    """A doubtful piece stays what it is held to be."""
    found = example_for_moderator(request.user, code)
    form = KeepForm(request.POST)
    if form.is_valid():
        try:
            keep_as_it_is(example=found, moderator=request.user, **form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, f"{found.code} stays as it is.")
            return redirect("examples_queue:piece", code)
    return asked_again(request, found, form, heading=f"{code} is doubtful", button="It stays as it is")


def asked_again(request, found, form, **words):
    """A short form of a piece's page that was refused, by itself, with what was typed."""
    return render(request, "review/examples_queue/asked_again.html", {"example": found, "form": form, **words})


@require_http_methods(["GET", "HEAD", "POST"])
@moderator_required
def attribute(request, code):
    """Keep an accepted piece of somebody else's as another version, or as none."""
    found = example_for_moderator(request.user, code)
    if found.state != ExampleState.ACCEPTED or found.owner_id == request.user.pk:
        return redirect("examples_queue:piece", code)
    facts = type_facts(found.garment_type.code, number=ReferenceState.current_number())
    first = {"believed": found.held_as.code if found.held_as else ""}
    form = AttributeForm(request.POST if request.method == "POST" else None, facts=facts, initial=first)
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        version = None if form.held else IssueVersion.objects.select_related("garment_type").get(code=given["version"])
        try:
            keep_as_something_else(
                example=found,
                moderator=request.user,
                reason=given["reason"],
                held_as=version,
                held=form.held,
                believed=given["believed"],
            )
        except NotDone as refusal:
            form.add_error(None, str(refusal))
            found = example_for_moderator(request.user, code)
        else:
            messages.success(request, f"{found.code} is kept as decided. Its owner is told.")
            return redirect("examples_queue:piece", code)
    context = {"example": found, "title": title_of(found), "form": form}
    return render(request, "review/examples_queue/attribute_anew.html", context)
