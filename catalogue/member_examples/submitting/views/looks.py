"""What the owner sees on the piece, one question a page, and what they and the identification hold it to be."""

from dataclasses import dataclass

from django.http import Http404
from django.shortcuts import redirect
from django.urls import reverse

from catalogue.member_examples import rules
from catalogue.member_examples.actions import Look, NotDone
from catalogue.member_examples.submitting.advice import adviser
from catalogue.member_examples.submitting.answers import (
    ANSWER_OF_TEXT,
    PLAIN_WORDS,
    altered_on,
    answers_of,
    last_looks,
    text_of,
    words_of,
)
from catalogue.member_examples.submitting.drafting import hold, never_sent, put_look, take_back_look
from catalogue.member_examples.submitting.forms import HeldForm, plain
from catalogue.member_examples.submitting.lengths import millimetres
from catalogue.member_examples.submitting.sending import known_of, opinion_of
from catalogue.member_examples.submitting.shown_before import opened
from catalogue.member_examples.submitting.steps import address, held_words, own_attribution
from catalogue.member_examples.submitting.views.saved import (
    answer_faulty,
    answer_saved,
    facts_of,
    number_of,
    saved_fields,
    show,
    step,
    step_context,
    wants_quiet,
)
from catalogue.member_examples.words import Answer, Held
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.models import Feature, IssueVersion
from catalogue.reference.words import PART_MISSING

HINTS = {
    "cannot-tell": "counts for nothing, either way",
    "part-missing": "lost, torn off or cut out",
    "altered": "repaired or changed by an owner",
    "no-such-part": "and never had it",
}


@dataclass(frozen=True)
class Answered:
    """Answers in the form in which drawings take them."""

    answers: dict


@step("seen")
def seen(request, example):
    """Every feature of the type with what was said of it; the best next question first."""
    facts = facts_of(example)
    looks = last_looks(example, request.user)
    answers = answers_of(looks, facts, altered_on(example)) if facts else {}
    context = step_context(
        example,
        "seen",
        groups=groups_of(facts, looks) if facts else [],
        answered=sum(code in facts.features for code in looks) if facts else 0,
        stray=[words for code, words in stray_words(facts, looks)],
    )
    if facts:
        code = next_code(facts, looks, answers, example)
        context["next"] = facts.features.get(code)
        context["left"] = adviser().questions_left(facts, answers, known_of(example), number_of()) if code else ""
        context["walk"] = Answered(answers)
    return show(request, "seen", context)


def groups_of(facts: TypeFacts, looks) -> list[dict]:
    groups: dict[str, list[dict]] = {}
    for code, feature in facts.features.items():
        row = looks.get(code)
        if facts.must_stay_closed and feature.needs_handling and row is None:
            continue
        state = feature.state_by_code.get(row.state.code) if row and row.state else None
        one = {"feature": feature, "words": words_of(row) if row else "", "state": state}
        groups.setdefault(feature.group or "features", []).append(one)
    return [{"name": name, "rows": rows, "open": any(r["words"] for r in rows)} for name, rows in groups.items()]


def stray_words(facts: TypeFacts | None, looks) -> list[tuple[str, str]]:
    """Answers that stand from another garment type, which this one does not ask."""
    return [
        (code, f"{row.feature.name}: {words_of(row)}")
        for code, row in looks.items()
        if facts is None or code not in facts.features
    ]


def next_code(facts: TypeFacts, looks, answers, example, *, but: str = "") -> str:
    """The best next question; features said not to be there at all are not asked about again."""
    unusable = {code: ("cannot-tell",) for code in looks if code in facts.features and code not in answers}
    code = adviser().next_question(facts, answers | unusable, known_of(example), number_of())
    return "" if code == but else code


@step("seen")
def ask(request, example):
    """To the best next question, or back to the list when none would tell more."""
    facts = facts_of(example)
    if facts is None:
        return redirect(address("seen", example.code))
    looks = last_looks(example, request.user)
    code = next_code(facts, looks, answers_of(looks, facts, altered_on(example)), example)
    return redirect(question_address(example, code) + "?go=on" if code else address("seen", example.code))


def question_address(example, feature: str) -> str:
    return reverse("submitting:question", args=[example.code, feature])


@step("seen")
def question(request, example, feature):
    """One question. `?go=on`: the next one follows."""
    facts = facts_of(example)
    found = facts.features.get(feature) if facts else None
    if found is None:
        raise Http404("This garment type has no such question.")
    looks = last_looks(example, request.user)
    go_on = (request.POST if request.method == "POST" else request.GET).get("go") == "on"
    context = question_context(example, facts, found, looks, go_on)
    if request.method != "POST":
        return show(request, "question", context)
    row = Feature.objects.prefetch_related("states").get(code=found.code)
    try:
        if request.POST.get("back"):
            take_back_look(example=example, member=request.user, feature=row)
        else:
            put_look(example=example, member=request.user, look=look_in(request, row, found))
    except NotDone as refusal:
        context["fault"] = str(refusal)
        context["typed"] = request.POST.get("value", "")[:20]
        return answer_faulty(request, "question", context, refusal=refusal)
    if go_on:
        return answer_saved(request, example, reverse("submitting:ask", args=[example.code]))
    return answer_saved(request, example, address("seen", example.code) + f"#f-{found.code}")


def question_context(example, facts: TypeFacts, feature: FeatureFacts, looks, go_on: bool) -> dict:
    row = looks.get(feature.code)
    given = text_of(row) if row else ""
    answers = answers_of(looks, facts, altered_on(example))
    return step_context(
        example,
        "seen",
        feature=feature,
        states=[] if feature.is_measured else list(feature.states),
        plain=[
            {"code": code, "label": PLAIN_WORDS[code], "hint": HINTS[code]}
            for code in PLAIN_WORDS
            if code != PART_MISSING or code == given or facts.can_be_missing(feature)
        ],
        given=given,
        given_words=words_of(row) if row else "",
        note=row.note if row else "",
        go_on=go_on,
        walk=Answered(answers),
        others=sum(code in facts.features for code in looks),
    )


def look_in(request, row: Feature, feature: FeatureFacts) -> Look:
    """What the form says. Raises NotDone with the reason where it is no answer."""
    text, note = request.POST.get("answer", ""), plain(request.POST.get("note", "")).strip()[:300]
    if text in ANSWER_OF_TEXT:
        return Look(feature=row, answer=ANSWER_OF_TEXT[text], note=note)
    typed = request.POST.get("value", "").strip()
    if typed and not text:
        return Look(feature=row, value=value_of(typed, request.POST.get("unit", "mm"), feature), note=note)
    if text not in feature.state_by_code:
        raise NotDone("Choose what you see, or “cannot tell”.")
    return Look(feature=row, answer=Answer.SEEN, state=text, note=note)


def value_of(typed: str, unit: str, feature: FeatureFacts) -> float:
    if feature.is_measured:
        mm = millimetres(typed, unit)
        if mm is None:
            raise NotDone(f"“{typed[:20]}” is not a length that can be read. Write a number, as 64 or 6.4.")
        return float(mm)
    if not (typed.isascii() and typed.isdigit() and len(typed) < 5):
        raise NotDone(f"“{typed[:20]}” is no number. Write one, as 6.")
    return float(typed)


@step("held")
def held(request, example):
    """The owner's attribution beside the identification's, each with its reasons."""
    facts = facts_of(example)
    standing = own_attribution(example)
    initial = {}
    if standing:
        initial = {
            "version": standing.version.code if standing.version else f"_{standing.held}",
            "grounds": standing.grounds,
        }
    if example.begun_held or example.begun_grounds:
        initial = {"version": example.begun_held, "grounds": example.begun_grounds}
    may_be_half = example.state in rules.OPEN_TO_OWNER
    form = opened(HeldForm, request, initial=initial, facts=facts, may_be_half=may_be_half)
    opinion = opinion_of(example, request.user)
    context = step_context(
        example,
        "held",
        form=form,
        opinion=opinion,
        opinion_version=facts.versions.get(opinion.version) if facts and opinion else None,
        standing=held_words(standing),
        differs=bool(standing and opinion and disagree(standing, opinion)),
    )
    if request.method != "POST":
        return show(request, "held", context)
    if may_be_half and not (form.is_whole and (never_sent(example) or not wants_quiet(request))):
        # Half of it, or, in a piece that moderators have read, what saves itself while it is typed: kept, not yet said.
        return saved_fields(request, example, "held", form, context, lambda: form.half)
    if not form.is_valid():
        return answer_faulty(request, "held", context, form)
    code = form.cleaned_data["version"]
    version = None if form.held else IssueVersion.objects.select_related("garment_type").get(code=code)
    try:
        hold(
            example=example,
            member=request.user,
            version=version,
            held=form.held,
            grounds=form.cleaned_data["grounds"],
        )
    except NotDone as refusal:
        return answer_faulty(request, "held", context, form, refusal)
    return answer_saved(request, example, context["after"] or address("piece", example.code), form)


def disagree(standing, opinion) -> bool:
    """Both name something, and not the same."""
    if standing.version is None:
        return standing.held == Held.NOT_IN_REFERENCE and bool(opinion.named)
    return bool(opinion.named and standing.version.code not in opinion.named) or opinion.held == Held.NOT_IN_REFERENCE
