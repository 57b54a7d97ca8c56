"""Taking a measured error rate into the reference, and undoing it. Both raise the reference's number."""

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.accounts.roles import REVIEW_REFERENCE, may
from catalogue.member_examples.actions import NotDone
from catalogue.reference.models import Feature, ReferenceState, VersionRecord
from catalogue.review.features.recording import record_features
from catalogue.review.models import ErrorRateTaken

FOR_MODERATORS = "Only moderators decide on this."
CHANGED = "Meanwhile the error rate of “{}” was changed. Nothing was written; look at what the page says now."


@transaction.atomic
def take_error_rate(
    *, feature: Feature, moderator: Member, before: float, after: float, wrong: float, looks: int
) -> ErrorRateTaken:
    """Write a measured rate into the feature; its history says what that rests on, the help beside its question does
    not.

    `before`: the rate that the moderator saw in use; raises NotDone where it is another by now, and where nothing
    would change.
    """
    if not may(moderator, REVIEW_REFERENCE):
        raise NotDone(FOR_MODERATORS)
    ReferenceState.hold()
    feature = Feature.objects.select_for_update().get(pk=feature.pk)
    if round(feature.error, 4) != round(before, 4) or round(feature.error, 4) == round(after, 4):
        raise NotDone(CHANGED.format(feature.name))
    made = ErrorRateTaken(
        feature=feature, before=feature.error, after=after, note_before=feature.error_note,
        note_after=feature.error_note, wrong=wrong, looks=looks, moderator=moderator,
    )  # fmt: skip
    return written(made)


@transaction.atomic
def undo_error_rate(*, taken: ErrorRateTaken, moderator: Member) -> ErrorRateTaken:
    """Put the rate back as it was, and the note where the rate had been told in it; raises NotDone on the second time,
    and where somebody has changed the rate since."""
    if not may(moderator, REVIEW_REFERENCE):
        raise NotDone(FOR_MODERATORS)
    ReferenceState.hold()
    feature = Feature.objects.select_for_update().get(pk=taken.feature_id)
    if taken.undoes_id or ErrorRateTaken.objects.filter(undoes=taken).exists():
        raise NotDone("This was undone already.")
    if feature.error != taken.after:
        raise NotDone(CHANGED.format(feature.name))
    note = taken.note_before if feature.error_note == taken.note_after else feature.error_note
    made = ErrorRateTaken(
        feature=feature, before=taken.after, after=taken.before, note_before=feature.error_note,
        note_after=note, wrong=taken.wrong, looks=taken.looks, moderator=moderator, undoes=taken,
    )  # fmt: skip
    return written(made)


def written(made: ErrorRateTaken) -> ErrorRateTaken:
    made.save()
    Feature.objects.filter(pk=made.feature_id).update(error=made.after, error_note=made.note_after)
    record_features(by=made.moderator, why=why_of(made), standing=VersionRecord.Standing.WRITTEN)
    ReferenceState.mark_changed()
    return made


def why_of(made: ErrorRateTaken) -> str:
    if made.undoes_id:
        return "The error rate that was taken from the health of the reference was put back."
    return (
        f"Error rate {made.in_words}, measured on {made.looks} looks "
        f"at accepted pieces, of which {made.wrong:.1f} wrong."
    )
