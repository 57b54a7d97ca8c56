"""What owners do with their own pieces."""

import uuid
from collections.abc import Mapping

from django.db import IntegrityError, transaction
from django.db.models import F
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples import rules
from catalogue.member_examples.actions.refusals import ChangedMeanwhile, NotDone, refuse, refuse_strangers
from catalogue.member_examples.gates import is_member
from catalogue.member_examples.happenings import piece_sent
from catalogue.member_examples.models import Example
from catalogue.member_examples.models.numbers import next_number
from catalogue.member_examples.words import ExampleState
from catalogue.reference.models import ReferenceState

TRIES = 5
# What its owner may change by `save_example`; labels, photographs and observations have tables of their own.
OWNERS_FIELDS = frozenset(
    [
        "begun_grounds",
        "begun_held",
        "complete",
        "condition",
        "contract",
        "garment_type",
        "label_legible",
        "label_year",
        "maker",
        "mould",
        "name_on_label",
        "note",
        "provenance",
        "repairs",
        "seen_on",
        "size_mark",
        "sold_as",
        "sold_as_version",
        "venue",
    ]
)


@transaction.atomic
def start_example(*, owner: Member, fields: Mapping[str, object] | None = None) -> Example:
    """A new draft with a code of its own."""
    if not is_member(owner):
        raise NotDone("Sign in to record a piece.")
    checked = checked_fields(fields or {})
    for _ in range(TRIES):
        try:
            with transaction.atomic():
                return Example.objects.create(code=f"E{next_number(Example):03d}", owner=owner, **checked)
        except IntegrityError:  # somebody else took the code meanwhile
            continue
    raise NotDone("Too many pieces are begun at this moment. Try again.")


def checked_fields(fields: Mapping[str, object]) -> dict[str, object]:
    if unknown := set(fields) - OWNERS_FIELDS:
        raise TypeError(f"not for an owner to change: {', '.join(sorted(unknown))}")
    return dict(fields)


@transaction.atomic
def save_example(*, example: Example, member: Member, revision: int, fields: Mapping[str, object]) -> Example:
    """Change the record of one's own draft or returned piece. `revision`: the one that the change began with.

    Raises ChangedMeanwhile when it was saved elsewhere since.
    """
    refuse_strangers(example, member)
    refuse(rules.reason_not_to_change(state=example.state))
    unchanged = Example.objects.filter(pk=example.pk, revision=revision, state__in=rules.OPEN_TO_OWNER)
    changes = checked_fields(fields) | {"revision": F("revision") + 1, "changed_at": timezone.now()}
    if not unchanged.update(**changes):
        raise ChangedMeanwhile("This piece was saved elsewhere since you opened it. What you typed is still here.")
    example.refresh_from_db()
    return example


@transaction.atomic
def submit_example(*, example: Example, member: Member, token: uuid.UUID) -> Example:
    """Send a piece to the moderators. The same `token` again is the same tap, and does nothing more."""
    refuse_strangers(example, member)
    example.refresh_from_db()
    if example.sent_once == token and example.state == ExampleState.SUBMITTED:
        return example
    refuse(
        rules.reason_not_to_send(
            state=example.state,
            looks=example.observations.count(),
            photographs=example.photographs.count(),
            labels=example.labels.count(),
        )
    )
    now = timezone.now()
    still_open = Example.objects.filter(pk=example.pk, state=example.state, times_sent=example.times_sent)
    try:
        with transaction.atomic():
            moved = still_open.update(
                state=ExampleState.SUBMITTED,
                sent_once=token,
                times_sent=F("times_sent") + 1,
                revision=F("revision") + 1,
                submitted_at=now,
                changed_at=now,
            )
    except IntegrityError as taken:
        raise NotDone("This form was already used for another piece. Open the page anew.") from taken
    if not moved:
        raise ChangedMeanwhile("This piece was sent or changed elsewhere just now.")
    example.refresh_from_db()
    piece_sent.send(sender=None, example=example)
    return example


@transaction.atomic
def withdraw_example(*, example: Example, member: Member) -> Example:
    """Take one's own piece back. What was decided about it stays; it counts as evidence no longer."""
    refuse_strangers(example, member)
    example.refresh_from_db()
    if example.state == ExampleState.WITHDRAWN:
        return example
    refuse(rules.reason_not_to_withdraw(state=example.state))
    was = example.state
    moved = Example.objects.filter(pk=example.pk, state=was).update(
        state=ExampleState.WITHDRAWN, held_as=None, revision=F("revision") + 1, changed_at=timezone.now()
    )
    if not moved:
        raise ChangedMeanwhile("This piece was decided on just now. Look again.")
    if was == ExampleState.ACCEPTED:
        ReferenceState.mark_changed()
    example.refresh_from_db()
    return example


@transaction.atomic
def delete_draft(*, example: Example, member: Member) -> None:
    """Throw away a draft that was never sent, with all that hangs on it."""
    refuse_strangers(example, member)
    if example.state != ExampleState.DRAFT or example.times_sent:
        raise NotDone("Only a draft that was never sent is deleted. Withdraw it instead.")
    example.delete()
