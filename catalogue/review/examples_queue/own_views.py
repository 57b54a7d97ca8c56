"""The thread of a piece."""

from uuid import uuid4

from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from catalogue.accounts.roles import member_required
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.gates import is_moderator, owns
from catalogue.member_examples.titles import title_of
from catalogue.review.examples_queue.actions import write_word
from catalogue.review.examples_queue.forms import WordForm
from catalogue.review.examples_queue.gates import example_for_thread
from catalogue.review.examples_queue.piece_page import words_of


@require_http_methods(["GET", "HEAD", "POST"])
@member_required
def thread(request, code):
    """What the owner of a piece and the moderators wrote to each other."""
    found = example_for_thread(request.user, code)
    form = WordForm(request.POST if request.method == "POST" else None, initial={"token": uuid4()})
    if request.method == "POST" and form.is_valid():
        try:
            write_word(example=found, by=request.user, **form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect("examples_queue:thread", code)
    context = {
        "example": found,
        "title": title_of(found),
        "form": form,
        "words": words_of(found),
        "questions": found.decisions.select_related("moderator"),
        "is_owner": owns(request.user, found),
        "moderates": is_moderator(request.user),
    }
    return render(request, "review/examples_queue/thread.html", context)
