"""What a member is told."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.accounts.roles import member_required
from catalogue.long_lists import page_of
from catalogue.member_examples.actions import NotDone
from catalogue.review.models import MailHow, MailWish
from catalogue.review.notices.actions import read_notices, wish_for_mail
from catalogue.review.notices.rows import notice_rows, notices_of

A_PAGE = 30
MAIL_WORDS = {
    "": "Notices stand on your page only from now on.",
    MailHow.AT_ONCE: "Notices come by e-mail too from now on.",
    MailHow.DAILY: "Notices come in one mail a day from now on.",
    MailHow.WEEKLY: "Notices come in one mail a week from now on.",
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
    return render(request, "review/notices/notices.html", context)


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
    return redirect("notices:all")
