"""What every step shares: the piece through the gate, and how a saving is answered, by page or quietly."""

from collections.abc import Callable
from functools import wraps

from django.http import JsonResponse
from django.shortcuts import redirect, render

from catalogue.accounts.roles import SUBMIT_EXAMPLES, required
from catalogue.member_examples import gates, rules
from catalogue.member_examples.actions.refusals import ChangedMeanwhile, NotDone
from catalogue.member_examples.models import Example
from catalogue.member_examples.submitting.drafting import save_fields
from catalogue.member_examples.submitting.steps import STEPS, address, neighbours, progress, saved_words
from catalogue.member_examples.words import DecisionKind, ExampleState
from catalogue.reference.facts import TypeFacts
from catalogue.reference.models import ReferenceState
from catalogue.reference.snapshots import type_facts
from catalogue.revisions import revision_sent

QUIETLY = "X-Saves-Quietly"
# Once a piece is with the society its record stands; what somebody sees and holds can always be added.
OPEN_TO_ADDING = (ExampleState.SUBMITTED, ExampleState.ACCEPTED)
LOOKS = ("seen", "held")

member_page = required(SUBMIT_EXAMPLES)


def step(name: str) -> Callable:
    """A view of one's own piece at this step. A piece whose record stands leads to its page, which says why."""

    def guard(view):
        @wraps(view)
        def guarded(request, code, *args, **kwargs):
            example = gates.example_for_owner(request.user, code)
            if not is_open(example, name):
                if wants_quiet(request):
                    return JsonResponse({"fault": rules.reason_not_to_change(state=example.state)}, status=409)
                was_sent = name == "review" and request.method == "POST"  # a second tap on “send”
                return redirect(address("piece", example.code) + ("" if was_sent else "?stands=yes"))
            return view(request, example, *args, **kwargs)

        return member_page(guarded)

    return guard


def is_open(example: Example, name: str) -> bool:
    return example.state in rules.OPEN_TO_OWNER or (name in LOOKS and example.state in OPEN_TO_ADDING)


def wants_quiet(request) -> bool:
    return QUIETLY in request.headers


def facts_of(example: Example) -> TypeFacts | None:
    return type_facts(example.garment_type.code, number=number_of()) if example.garment_type else None


def number_of() -> int:
    return ReferenceState.current_number()


def step_context(example: Example, name: str, **more) -> dict:
    """What the frame of a step shows: where one is, what is saved, what the moderator asked."""
    before, after = neighbours(name)
    is_draft = example.state in rules.OPEN_TO_OWNER
    return {
        "example": example,
        "facts": facts_of(example),
        "step": next(one for one in STEPS if one.name == name),
        "place": [one.name for one in STEPS].index(name) + 1,
        "steps": progress(example, name) if is_draft else [],
        "number_of_steps": len(STEPS),
        "is_draft": is_draft,
        "before": address(before, example.code) if before and is_draft else "",
        "after": address(after, example.code) if after and is_draft else "",
        "questions": questions_to(example),
        "piece_address": address("piece", example.code),
    } | more


def questions_to(example: Example) -> list:
    """What moderators asked when they returned it, latest first, while it is with its owner again."""
    if example.state != ExampleState.RETURNED:
        return []
    asked = example.decisions.filter(decision=DecisionKind.RETURNED).select_related("moderator")
    return list(asked.order_by("-made_at")[:1])


def show(request, template: str, context: dict, *, status: int = 200):
    return render(request, f"member_examples/submitting/{template}.html", context, status=status)


def saved_fields(request, example: Example, name: str, form, context: dict, fields, *, beside=None):
    """Save fields of the record and go on to the next step. `beside`: what else the form writes.

    What is good is kept and what is not is marked, so that one slip costs nobody the rest: `fields` and `beside` give
    and write only what `form.cleaned_data` holds. A form that says what it had shown (`opened`) undoes nothing that was
    saved elsewhere; of another one the revision is asked.
    """
    if request.method != "POST":
        return show(request, name, context)
    form.is_valid()
    revision = example.revision if form.meeting.knows else revision_sent(request)
    try:
        if not form.non_field_errors():
            save_fields(example=example, member=request.user, revision=revision, fields=fields())
            if beside:
                beside()
    except NotDone as refusal:
        if isinstance(refusal, ChangedMeanwhile):
            example.refresh_from_db()  # the next saving knows what it overwrites
        return answer_faulty(request, name, context, form, refusal)
    if form.is_valid():
        return answer_saved(request, example, context["after"], form)
    return answer_faulty(request, name, context, form, rest_is_kept=not form.non_field_errors())


def answer_saved(request, example: Example, then: str, form=None):
    """After a saving: on to the next page, or, to the script that saves by itself, when it was."""
    if wants_quiet(request):
        example.refresh_from_db()
        return JsonResponse({"saved": saved_words(example), "revision": example.revision} | shown_after(form))
    return redirect(then)


def shown_after(form) -> dict[str, str]:
    """What the page that saved itself is to say that it shows, from now on."""
    return {"shown": form.meeting.marks_after(as_sent=True)} if hasattr(form, "meeting") else {}


def answer_faulty(
    request, template: str, context: dict, form=None, refusal: NotDone | None = None, *, rest_is_kept: bool = False
):
    """The page again with what was typed and why it was not kept; the same in short to the script. `rest_is_kept`: all
    that is not marked was saved."""
    example = context["example"]
    if form is not None and refusal is not None:
        form.add_error(None, str(refusal))
    if wants_quiet(request):
        faults = [words for errors in form.errors.values() for words in errors] if form else [str(refusal)]
        conflict = isinstance(refusal, ChangedMeanwhile)
        told = {"fault": " ".join(faults)}
        if rest_is_kept:
            example.refresh_from_db()
            told["saved"] = saved_words(example)
        if conflict or rest_is_kept:
            told["revision"] = example.revision
        told |= shown_after(form)
        return JsonResponse(told, status=409 if conflict else 400)
    context = context | {"not_saved": True, "rest_is_kept": rest_is_kept}
    return show(request, template, context, status=409 if isinstance(refusal, ChangedMeanwhile) else 400)
