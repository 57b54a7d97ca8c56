"""Beginning a piece, the list of one's pieces, and the page of each with its fate."""

import uuid

from django.shortcuts import redirect

from catalogue.member_examples import gates, rules
from catalogue.member_examples.actions import NotDone, withdraw_example
from catalogue.member_examples.models import Example
from catalogue.member_examples.pictures import picture_of
from catalogue.member_examples.submitting.advice import adviser
from catalogue.member_examples.submitting.answers import PLAIN_WORDS, looks_of, pairs_kept
from catalogue.member_examples.submitting.drafting import begin_draft, throw_away
from catalogue.member_examples.submitting.forms import GarmentForm
from catalogue.member_examples.submitting.from_label import PREFIX, carried_label
from catalogue.member_examples.submitting.names import names_for
from catalogue.member_examples.submitting.own_pieces import own_page, piece_title
from catalogue.member_examples.submitting.steps import address, held_words, own_attribution, progress
from catalogue.member_examples.submitting.views.saved import member_page, number_of, questions_to, show
from catalogue.member_examples.words import ExampleState
from catalogue.reference.contents import contents
from catalogue.reference.facts import TypeFacts
from catalogue.reference.snapshots import type_facts

TYPE = "_type"
# With it a label is only shown in the form, and no draft begun.
SHOW_LABEL = "show-label"
MOST_SHOWN = 12


@member_page
def mine(request):
    """Every piece of one's own, those that wait for something from their owner first."""
    return show(request, "mine", own_page(request.user, request.GET.get("page")) | {"keep": ""})


@member_page
def new(request):
    """The first page. Answers of a walk in the address with what it says of a label, or a label that was read, are
    shown and go along; only sending the form begins a draft. The page of the label sends what it read here first, to be
    shown."""
    given = request.POST if request.method == "POST" else request.GET
    code = (given.get("garment_type") if request.method == "POST" else given.get(TYPE)) or ""
    facts = type_facts(code[:40], number=number_of()) if code else None
    pairs = pairs_kept(
        (name, value) for name, values in request.GET.lists() if not name.startswith(PREFIX) for value in values
    )
    came_from = request.GET.get(TYPE, "")
    answers, notes = adviser().answers_in(facts, pairs) if facts and pairs and code == came_from else ({}, ())
    label = carried_label(given)
    sent = request.method == "POST" and SHOW_LABEL not in request.POST
    form = GarmentForm(request.POST if sent else None, initial={"garment_type": came_from or code})
    # Nothing is kept while a name that was to be struck out may still stand in it.
    wrong = bool(label and label.fault)
    if sent and form.is_valid() and not wrong:
        try:
            begun = begin_draft(
                owner=request.user,
                token=token_in(request),
                fields=form.cleaned_data | (label.fields if label else {}),
                looks=looks_of(facts, answers) if facts else (),
                labels=label.labels if label else (),
                name_left_out=bool(label and label.masked),
            )
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect(address("photographs", begun.code))
    context = {
        "form": form,
        "types": type_rows(form),
        "token": request.POST.get("token") or uuid.uuid4(),
        "carried": carried_rows(facts, answers) if facts else [],
        "notes": notes[:5],
        "from_type": facts if answers else None,
        "label": label,
    }
    return show(request, "new", context, status=400 if form.errors or (sent and wrong) else 200)


def carried_rows(facts: TypeFacts, answers) -> list[dict]:
    """The answers that come along from the walk, in words."""
    rows = []
    for code, texts in answers.items():
        feature, text = facts.features[code], texts[-1]
        words = PLAIN_WORDS.get(text) or " or ".join(feature.label_of(state) for state in text.split(","))
        rows.append({"name": feature.name, "answer": words})
    return rows


def token_in(request) -> uuid.UUID:
    """The form's own number; one that cannot be read counts as new."""
    try:
        return uuid.UUID(request.POST.get("token", ""))
    except ValueError:
        return uuid.uuid4()


def type_rows(form) -> list[dict]:
    """Garment types with outlines to choose from."""
    chosen = form["garment_type"].value() or ""
    return [
        {"code": one.code, "name": one.name, "garment_class": one.garment_class, "own_views": one.own_views,
         "given": one.code == chosen}
        for one in sorted(contents(), key=lambda one: one.name)
    ]  # fmt: skip


@member_page
def piece(request, code):
    """What became of it, what comes next, and what its owner can do."""
    example = gates.example_for_owner(request.user, code)
    return show(request, "piece", piece_context(example, request.GET.get("stands") == "yes"))


def piece_context(example: Example, stands: bool = False, refusal: str = "") -> dict:
    open_to_owner = example.state in rules.OPEN_TO_OWNER
    return {
        "example": example,
        "title": piece_title(example),
        "open": open_to_owner,
        "steps": progress(example, "") if open_to_owner else [],
        "questions": questions_to(example),
        "decisions": list(example.decisions.select_related("moderator", "held_as")),
        "held": held_words(own_attribution(example)),
        "photographs": [picture for row in example.photographs.all()[:MOST_SHOWN] if (picture := picture_of(row))],
        "names": names_for(example, moderator=False),
        "may_withdraw": rules.reason_not_to_withdraw(state=example.state) is None,
        "may_throw_away": example.state == ExampleState.DRAFT and not example.times_sent,
        "stands": rules.reason_not_to_change(state=example.state) if stands else "",
        "refusal": refusal,
        "may_add": example.state in (ExampleState.SUBMITTED, ExampleState.ACCEPTED) and example.garment_type,
    }


@member_page
def withdraw(request, code):
    """Take a piece back, after a page that says what that means."""
    return confirmed(request, code, "withdraw", lambda e: withdraw_example(example=e, member=request.user), "piece")


@member_page
def delete(request, code):
    """Throw a draft away, after a page that says what goes with it."""
    return confirmed(request, code, "delete", lambda e: throw_away(example=e, member=request.user), "mine")


def confirmed(request, code: str, template: str, act, then: str):
    example = gates.example_for_owner(request.user, code)
    refusal = ""
    if request.method == "POST":
        try:
            act(example)
        except NotDone as problem:
            refusal = str(problem)
        else:
            return redirect(address(then, example.code) if then != "mine" else "submitting:mine")
    context = piece_context(example, refusal=refusal)
    return show(request, template, context, status=409 if refusal else 200)
