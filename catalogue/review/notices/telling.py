"""Who is told of what: a notice on their page, and a mail where they want one, at once, once a day or once a week."""

from collections import Counter
from collections.abc import Iterable
from datetime import datetime, timedelta

from allauth.account.signals import email_confirmed
from django.db import transaction
from django.db.models import F
from django.db.models.functions import Greatest, Now
from django.dispatch import receiver
from django.urls import reverse

from catalogue.accounts import mail
from catalogue.accounts.happenings import asked_to_join, request_decided
from catalogue.accounts.models import JoinRequest, Member
from catalogue.accounts.roles import ADMIT_MEMBERS, REVIEW_EXAMPLES, ROLES_THAT_MAY, may
from catalogue.member_examples.happenings import (
    alteration_added,
    alteration_settled,
    name_asked_for,
    name_removed,
    name_request_settled,
    piece_joined_set,
    piece_sent,
)
from catalogue.member_examples.removing_names.places import Place, register
from catalogue.member_examples.words import DecisionKind
from catalogue.review.models import MailHow, MailWish, Notice, PieceWord
from catalogue.review.notices.rows import notice_row, notices_of, what_of_source
from catalogue.review.proposals.telling import what_of_proposal

# A mail of several goes out when so much has passed since the last. The command runs once a day, not to the minute.
PERIODS = {MailHow.DAILY: timedelta(0), MailHow.WEEKLY: timedelta(days=6, hours=12)}
PERIOD_WORDS = {MailHow.DAILY: "a day", MailHow.WEEKLY: "a week"}

register(Place("words between owner and moderators", lambda e: PieceWord.objects.filter(example=e), ("text",)))


def tell(member: Member, **about) -> Notice | None:
    """A notice of one thing, and a mail where the person wants one at once. Nothing for who has left; the same twice is
    once. `about`: the thing by the name of its column in Notice; a piece with its `sending=`."""
    if not member.is_active:
        return None
    made, new = Notice.objects.get_or_create(member=member, **about)
    if new and MailWish.objects.filter(member=member, how=MailHow.AT_ONCE).exists():
        transaction.on_commit(lambda: send_mail_of(made), robust=True)
    return made


def those_who_may(action: str) -> list[Member]:
    roles = [role.value for role in ROLES_THAT_MAY[action]]
    return [one for one in Member.objects.admitted().filter(role__in=roles).order_by("pk") if may(one, action)]


def tell_all(people: Iterable[Member], *, but: int, **about) -> None:
    for one in people:
        if one.pk != but:
            tell(one, **about)


def read_by_all(**about) -> None:
    """What was waited for has been done, by whomever: it is new to nobody any more."""
    Notice.objects.filter(read_at__isnull=True, **about).update(read_at=Greatest(Now(), F("made_at")))


@receiver(piece_sent)
def tell_of_a_piece(example, **_) -> None:
    """A piece waits: every moderator but its owner is told."""
    tell_all(those_who_may(REVIEW_EXAMPLES), but=example.owner_id, piece=example, sending=example.times_sent)


@receiver(name_asked_for)
def tell_of_a_request(asked, **_) -> None:
    """Somebody asks for a name to be removed: its owner and the moderators are told."""
    tell_all([asked.example.owner, *those_who_may(REVIEW_EXAMPLES)], but=asked.by_id, name_request=asked)


@receiver(name_removed)
def tell_of_a_name(note, by, **_) -> None:
    """A moderator removed a name: the owner is told."""
    tell_all([note.example.owner], but=by.pk, name_note=note)


@receiver(piece_joined_set)
def tell_of_a_set(place, by, **_) -> None:
    """Somebody else put a piece into a set: its owner is told, and may take it out."""
    tell_all([place.example.owner], but=by.pk, set_place=place)


@receiver(alteration_added)
def tell_of_an_alteration(alteration, **_) -> None:
    """Another member sees something altered on an accepted piece: its owner, who has it at hand, may confirm it."""
    tell_all([alteration.example.owner], but=alteration.added_by_id, alteration=alteration)


@receiver(alteration_settled)
def nothing_left_of_an_alteration(alteration, **_) -> None:
    read_by_all(alteration=alteration)


@receiver(name_request_settled)
def nothing_left_of_a_request(asked, **_) -> None:
    read_by_all(name_request=asked)


@receiver(request_decided)
def nothing_left_of_joining(request, **_) -> None:
    read_by_all(joining=request)


@receiver(asked_to_join)
def tell_of_joining(request, **_) -> None:
    """Somebody asks to join; it can be decided once their e-mail address is verified, and is told then."""
    tell_of_waiting(request.member)


@receiver(email_confirmed)
def tell_once_verified(email_address, **_) -> None:
    tell_of_waiting(email_address.user)


def tell_of_waiting(member: Member) -> None:
    for waiting in JoinRequest.objects.waiting().filter(member=member):
        tell_all(those_who_may(ADMIT_MEMBERS), but=member.pk, joining=waiting)


def words_of(notice: Notice) -> tuple[str, str]:
    """What a notice is about and what happened, as a mail says it: never what was written."""
    if notice.decision:
        return f"piece {notice.decision.example.code}", DecisionKind(notice.decision.decision).label
    if notice.word:
        return f"piece {notice.word.example.code}", "A word was written"
    if notice.piece:
        return f"piece {notice.piece.code}", "It was sent and waits for a moderator"
    if notice.name_request:
        return f"piece {notice.name_request.example.code}", "Somebody asks for a name to be removed"
    if notice.name_note:
        return f"piece {notice.name_note.example.code}", "A name was removed"
    if notice.about_proposal:
        proposal = notice.about_proposal.proposal
        return f"proposal {proposal.pk} ({proposal.about_code})", what_of_proposal(notice)
    if notice.set_place:
        return f"piece {notice.set_place.example.code}", "It was put into a set; you may take it out"
    if notice.alteration:
        return f"piece {notice.alteration.example.code}", "A member sees it altered; you may confirm that"
    if notice.view_decision:
        made = notice.view_decision
        return f"question {made.view.question.code}", f"Your view was {'taken out' if made.taken_out else 'put back'}"
    if notice.proposal:
        return f"proposal {notice.proposal_id} ({notice.proposal.about_code})", "It was sent and waits for a decision"
    if notice.reference_import:
        return f"import {notice.reference_import_id}", "Its proposals were sent and wait for a decision"
    if notice.view:
        return f"question {notice.view.question.code}", "A view was entered as yours; you may say that it is not"
    if notice.source_added:
        return f"source {notice.source_added.code}", what_of_source(notice.source_added)
    if notice.leave:
        return "the society", f"You stand in for {notice.leave.moderator.username}"
    return "the society", "Somebody asks to join"


def send_mail_of(notice: Notice) -> bool:
    """Whether it went out. The mail names the piece and what happened, not the words, which stand on the page."""
    to = mail.address_of(notice.member)
    if not to:
        return False
    about, what = words_of(notice)
    return mail.send(
        "notice", to, person=notice.member.username, about=about, what=what, page=page_of(notice),
        notices=mail.on_the_site(reverse("notices:all")),
    )  # fmt: skip


def page_of(notice: Notice) -> str:
    """Where it leads, whole, as far as the site knows its own address."""
    return mail.on_the_site(notice_row(notice, notice.member)["address"])


def digest_lines(notices: Iterable[Notice]) -> list[dict]:
    """What happened, each thing once: a proposal with three words and a decision is one line, and one link."""
    found: dict[str, dict] = {}
    for one in notices:
        about, what = words_of(one)
        line = found.setdefault(about, {"about": about, "page": page_of(one), "happened": Counter()})
        line["happened"][what] += 1
    for line in found.values():
        line["words"] = "; ".join(
            f"{what} ({times} times)" if times > 1 else what for what, times in line["happened"].items()
        )
    return list(found.values())


def send_digests(*, now: datetime) -> tuple[int, int]:
    """One mail to each who wants them once a day or once a week, where the day or week is over, with the unread notices
    since the last; how many went out, and how many could not. Run again at once it sends nothing; what could not be
    sent goes with the next."""
    sent = failed = 0
    for wish in MailWish.objects.filter(how__in=PERIODS).select_related("member"):
        since = wish.digest_at or wish.made_at
        if now - since < PERIODS[MailHow(wish.how)]:
            continue
        new = notices_of(wish.member).filter(read_at__isnull=True, made_at__gt=since, made_at__lte=now)
        to = mail.address_of(wish.member) if wish.member.is_active else ""
        lines = digest_lines(new.order_by("made_at", "pk")) if to else []
        if not lines:
            continue
        if mail.send(
            "digest", to, person=wish.member.username, lines=lines, often=PERIOD_WORDS[MailHow(wish.how)],
            notices=mail.on_the_site(reverse("notices:all")),
        ):  # fmt: skip
            MailWish.objects.filter(pk=wish.pk).update(digest_at=now)
            sent += 1
        else:
            failed += 1
    return sent, failed
