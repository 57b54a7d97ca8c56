"""What a member is told, and the thread of a piece."""

from uuid import uuid4

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.accounts.roles import member_required
from catalogue.long_lists import page_of
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.gates import is_moderator, owns
from catalogue.member_examples.titles import title_of
from catalogue.review.examples_queue.actions import read_notices, wish_for_mail, write_word
from catalogue.review.examples_queue.forms import WordForm
from catalogue.review.examples_queue.gates import example_for_thread
from catalogue.review.examples_queue.member_parts import notice_rows, notices_of
from catalogue.review.examples_queue.piece_page import words_of
from catalogue.review.models import MailHow, MailWish

A_PAGE = 30
MAIL_WORDS = {
    "": "Notices stand on your page only from now on.",
    MailHow.AT_ONCE: "Notices come by e-mail too from now on.",
    MailHow.DAILY: "Notices come in one mail a day from now on.",
}


@require_safe
@member_required
def notices(request):
    """Everything a member was told, the latest first."""
    page, odd_page = page_of(request.GET.get("page"), notices_of(request.user), A_PAGE)
    wish = MailWish.objects.filter(member=request.user).first()
    context = {
        "page": page,
        "odd_page": odd_page,
        "rows": notice_rows(page, request.user),
        "wished": wish.how if wish else "",
        "hows": [("", "Not at all"), *MailHow.choices],
    }
    return render(request, "review/examples_queue/notices.html", context)


@require_POST
@member_required
def read(request):
    """All notices have been read."""
    read_notices(member=request.user, now=timezone.now())
    return redirect("accounts:my_page")


@require_POST
@member_required
def by_mail(request):
    """Whether notices come by e-mail too, and when."""
    how = request.POST.get("wanted", "")
    try:
        wish_for_mail(member=request.user, how=how)
    except NotDone as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, MAIL_WORDS[how])
    return redirect("examples_queue:notices")


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
