"""Names of persons, the last look, and sending."""

import uuid

from django.contrib.humanize.templatetags.humanize import apnumber
from django.shortcuts import redirect

from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.shades import shades_of_piece
from catalogue.member_examples.submitting.answers import last_looks, words_of
from catalogue.member_examples.submitting.names import Text, mask_words, say_about_names, texts_of
from catalogue.member_examples.submitting.pictures import terms_words
from catalogue.member_examples.submitting.sending import opinion_of, reason_not_to_send, send
from catalogue.member_examples.submitting.steps import address, held_words, missing, own_attribution, progress
from catalogue.member_examples.submitting.views.begin import token_in
from catalogue.member_examples.submitting.views.photographs import picture
from catalogue.member_examples.submitting.views.saved import (
    answer_faulty,
    answer_saved,
    show,
    step,
    step_context,
)
from catalogue.member_examples.titles import altered_at
from catalogue.member_examples.words import NameOnLabel

MOST_TICKED = 400
NOTHING_TO_SEE = (NameOnLabel.NONE, NameOnLabel.MASKED)


@step("names")
def names(request, example):
    """Is a wearer's name to be seen? Words to tick, pictures to blur, and the owner's own word."""
    fault, said, ticked = "", "", 0
    if request.method == "POST":
        try:
            if request.POST.get("mask"):
                number = mask_words(
                    example=example,
                    member=request.user,
                    ticked=ticked_in(request),
                    for_moderators=bool(request.POST.get("moderators")),
                )
                if number:
                    return redirect(address("names", example.code))
                fault = "No word is ticked."
            else:
                said = request.POST.get("name_on_label", "")
                ticked = sum(one.number_likely for one in each_once(texts_of(example)))
                if said in NOTHING_TO_SEE and ticked and request.POST.get("left_ticked") != str(ticked):
                    raise NotDone(asks_about(ticked))
                say_about_names(example=example, member=request.user, said=said)
                return answer_saved(request, example, address("review", example.code))
        except NotDone as refusal:
            fault = str(refusal)
    texts = each_once(texts_of(example))
    context = step_context(
        example,
        "names",
        texts=texts,
        likely=any(one.number_likely for one in texts),
        photographs=[{"row": row, **picture(row)} for row in example.photographs.all()],
        hidden=list(example.hidden_names.all()),
        said=said or ("" if example.name_on_label == NameOnLabel.NOT_LOOKED else example.name_on_label),
        fault=fault,
        asked_about=ticked if fault else 0,
    )
    if fault:
        return answer_faulty(request, "names", context, refusal=NotDone(fault))
    return show(request, "names", context)


def asks_about(ticked: int) -> str:
    """Asked once, before somebody says that no name is to be seen where some words look like one."""
    words = "One word is ticked" if ticked == 1 else f"{apnumber(ticked).capitalize()} words are ticked"
    them, they = ("it", "it is") if ticked == 1 else ("them", "they are")
    return f"{words} below: leave {them} as {they}? Mask {them}, or go on once more."


def each_once(texts: list[Text]) -> list[Text]:
    """What stands in several rows alike is shown once; a name is masked in all of them."""
    return list({(one.title, one.text): one for one in reversed(texts)}.values())[::-1]


def ticked_in(request) -> dict[str, tuple[str, list[int]]]:
    """The ticked words by text: `word=label-12:3`, and the mark of each text."""
    found: dict[str, tuple[str, list[int]]] = {}
    for value in request.POST.getlist("word")[:MOST_TICKED]:
        key, _, number = value.rpartition(":")
        if key and number.isascii() and number.isdigit() and len(number) < 6:
            found.setdefault(key, (request.POST.get(f"mark-{key}", ""), []))[1].append(int(number))
    return found


@step("review")
def review(request, example):
    """Everything at a glance, what is still missing as an offer, and the button."""
    refusal = ""
    if request.method == "POST":
        try:
            send(example=example, member=request.user, token=token_in(request))
        except NotDone as problem:
            refusal = str(problem)
        else:
            return redirect(address("piece", example.code))
    looks = last_looks(example, request.user)
    found = progress(example, "review")
    context = step_context(
        example,
        "review",
        refusal=refusal or reason_not_to_send(example),
        token=uuid.uuid4(),
        missing=missing(found),
        looks=[(row.feature.name, words_of(row)) for row in looks.values()],
        photographs=[{"row": row, **picture(row)} for row in example.photographs.all()],
        terms=list(dict.fromkeys(map(terms_words, example.photographs.all()))),
        labels=list(example.labels.all()),
        lengths=list(example.measurements.all()),
        shades=shades_of_piece(example),
        alterations=[(one, altered_at(example, one)) for one in example.alterations.all()],
        attribution=own_attribution(example),
        held=held_words(own_attribution(example)),
        opinion=opinion_of(example, request.user),
    )
    return show(request, "review", context, status=409 if refusal else 200)
