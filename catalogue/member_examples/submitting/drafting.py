"""What an owner writes into a piece that is still open to them: a draft, or one that came back with questions.

Every action says no outside these two states. The same twice is once: what comes again by a reload, a second tap or a
line that broke after the server had answered changes nothing.
"""

import uuid
from collections.abc import Iterable, Mapping, Sequence

from django.core.files.storage import default_storage
from django.db import IntegrityError, transaction
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples import rules
from catalogue.member_examples.actions import (
    ChangedMeanwhile,
    Look,
    add_attribution,
    add_observations,
    delete_draft,
    save_example,
    start_example,
)
from catalogue.member_examples.actions.refusals import NotDone, refuse, refuse_strangers
from catalogue.member_examples.gates import may_remove_names
from catalogue.member_examples.models import (
    Alteration,
    Attribution,
    Example,
    HiddenName,
    Label,
    Measurement,
    Observation,
    Photograph,
    ShadePair,
)
from catalogue.member_examples.models.shades import MEASURED
from catalogue.member_examples.photographs.keeping import discard_file
from catalogue.member_examples.photographs.originals import discard_originals
from catalogue.member_examples.words import Answer, AttributedBy, ExampleState
from catalogue.reference.models import Feature, FeatureState, IssueVersion
from identification.dating.shades import Lab

MOST_LABELS, MOST_ALTERATIONS = 40, 40


@transaction.atomic
def begin_draft(
    *,
    owner: Member,
    token: uuid.UUID,
    fields: Mapping[str, object],
    looks: Iterable[Look] = (),
    labels: Sequence[Mapping[str, object]] = (),
    name_left_out: bool = False,
) -> Example:
    """A new draft with what is known at once. The same `token` again gives the draft that it began.

    `name_left_out`: a wearer's name stands masked in a label; that it was is noted, the name nowhere.
    """
    if begun := Example.objects.filter(begun_once=token, owner=owner).first():
        return begun
    example = start_example(owner=owner, fields=fields)
    try:
        with transaction.atomic():
            Example.objects.filter(pk=example.pk).update(begun_once=token)
    except IntegrityError as taken:  # the second of two taps at the same moment; its draft goes with the transaction
        raise NotDone("This form was sent a moment ago. Your pieces show what it began.") from taken
    add_observations(example=example, member=owner, looks=looks)
    for label in labels:
        put_label(example=example, member=owner, fields=label)
    if name_left_out:
        HiddenName.objects.create(example=example, by=owner)
    example.refresh_from_db()
    return example


@transaction.atomic
def save_fields(*, example: Example, member: Member, revision: int, fields: Mapping[str, object]) -> Example:
    """Change fields of the record. Where somebody saved the same words meanwhile, nothing is left to do."""
    try:
        return save_example(example=example, member=member, revision=revision, fields=fields)
    except ChangedMeanwhile:
        example.refresh_from_db()
        if all(getattr(example, name) == value for name, value in fields.items()):
            return example
        raise


def refuse_closed(example: Example, member: Member) -> None:
    """Only the owner, only while it is open; the row is held until the transaction ends, so no sending slips in."""
    refuse_strangers(example, member)
    example.state = Example.objects.select_for_update().values_list("state", flat=True).get(pk=example.pk)
    refuse(rules.reason_not_to_change(state=example.state))


def refuse_bystanders(example: Example, member: Member) -> None:
    """The owner at any time, and moderators once the piece was sent: for names that somebody asks to be removed."""
    if not may_remove_names(member, example):
        raise NotDone("This is not your piece.")


def touch(example: Example) -> None:
    example.changed_at = timezone.now()
    Example.objects.filter(pk=example.pk).update(changed_at=example.changed_at)


def never_sent(example: Example) -> bool:
    return example.state == ExampleState.DRAFT and not example.times_sent


@transaction.atomic
def put_label(*, example: Example, member: Member, fields: Mapping[str, object], label: Label | None = None) -> Label:
    """Write a label down, or anew. A new one that says what another of the piece says in all its parts is that one."""
    refuse_closed(example, member)
    if label is None:
        if same := example.labels.filter(**fields).first():
            return same
        if example.labels.count() >= MOST_LABELS:
            raise NotDone(f"A piece has at most {MOST_LABELS} labels here. Write the rest into the note.")
        label = Label(example=example, position=next_position(example.labels))
    for name, value in fields.items():
        setattr(label, name, value)
    label.save()
    touch(example)
    return label


@transaction.atomic
def put_alteration(
    *,
    example: Example,
    member: Member,
    fields: Mapping[str, object],
    features: Sequence[Feature],
    alteration: Alteration | None = None,
) -> Alteration:
    """Write an alteration down, or anew, with the features that say nothing of the version any more."""
    refuse_closed(example, member)
    if alteration is None:
        if same := example.alterations.filter(**fields, added_by__isnull=True).first():
            same.features.set(features)
            return same
        if example.alterations.count() >= MOST_ALTERATIONS:
            raise NotDone(f"A piece has at most {MOST_ALTERATIONS} alterations here. Write the rest into the note.")
        alteration = Alteration(example=example, position=next_position(example.alterations))
    for name, value in fields.items():
        setattr(alteration, name, value)
    alteration.save()
    alteration.features.set(features)
    touch(example)
    return alteration


def next_position(rows) -> int:
    last = rows.order_by("position").last()
    return last.position + 1 if last else 0


@transaction.atomic
def drop(*, example: Example, member: Member, row: Label | Alteration) -> None:
    """Take a label or an alteration out again."""
    refuse_closed(example, member)
    row.delete()
    touch(example)


@transaction.atomic
def put_lengths(
    *, example: Example, member: Member, lengths: Mapping[str, tuple[int, str] | None], method: str
) -> None:
    """The owner's own lengths: millimetres and what was typed, by what was measured; None takes one out."""
    refuse_closed(example, member)
    mine = {row.what: row for row in example.measurements.filter(by=member)}
    for what, given in lengths.items():
        row = mine.get(what)
        if given is None:
            if row:
                row.delete()
            continue
        row = row or Measurement(example=example, what=what, by=member)
        row.mm, row.typed, row.method = given[0], given[1], method
        row.save()
    touch(example)


@transaction.atomic
def put_shades(
    *,
    example: Example,
    member: Member,
    shade: str,
    exposed: str,
    protected: str,
    labs: tuple[Lab, Lab] | None = None,
) -> None:
    """The shade in both places as the owner sees it, `exposed` a state of the feature `shade`, and as measured; nothing
    at all takes it out."""
    refuse_closed(example, member)
    state = FeatureState.objects.filter(feature__code=shade, code=exposed).first() if exposed else None
    pair = ShadePair.objects.filter(example=example).first() or ShadePair(example=example)
    pair.exposed, pair.protected = state, protected
    figures = [figure for place in labs for figure in place] if labs else [None] * len(MEASURED)
    for name, figure in zip(MEASURED, figures, strict=True):
        setattr(pair, name, figure)
    if state or protected or labs:
        pair.save()
    elif pair.pk:
        pair.delete()
    touch(example)


@transaction.atomic
def put_look(*, example: Example, member: Member, look: Look) -> None:
    """Say what is seen. In a draft that nobody else has seen the latest word stands alone; later every word is kept."""
    if example.state in rules.OPEN_TO_OWNER:
        refuse_closed(example, member)
        if never_sent(example):
            with_other_words = Observation.objects.filter(example=example, observer=member, feature=look.feature)
            with_other_words.delete()
    add_observations(example=example, member=member, looks=[look])
    touch(example)


@transaction.atomic
def take_back_look(*, example: Example, member: Member, feature: Feature) -> None:
    """Leave a feature unanswered. Once a moderator may have read the answer, “cannot tell” is added instead."""
    refuse_closed(example, member)
    mine = Observation.objects.filter(example=example, observer=member, feature=feature)
    if never_sent(example):
        mine.delete()
    elif mine.exists():
        look = Look(feature=feature, answer=Answer.CANNOT_TELL, note="taken back")
        add_observations(example=example, member=member, looks=[look])
    touch(example)


@transaction.atomic
def hold(*, example: Example, member: Member, version: IssueVersion | None, held: str, grounds: str) -> Attribution:
    """The owner's own attribution, in place of one that was begun. In a draft that nobody has seen the latest stands
    alone."""
    if example.state in rules.OPEN_TO_OWNER:
        refuse_closed(example, member)
    made = add_attribution(example=example, member=member, version=version, held=held, grounds=grounds)
    Example.objects.filter(pk=example.pk).update(begun_held="", begun_grounds="")
    if never_sent(example):
        Attribution.objects.filter(example=example, by=AttributedBy.MEMBER, member=member).exclude(pk=made.pk).delete()
    touch(example)
    return made


@transaction.atomic
def hold_what_was_begun(*, example: Example, member: Member) -> None:
    """On its way to the moderators: a choice and grounds that wait in a returned piece become the owner's word."""
    chosen, grounds = example.begun_held, example.begun_grounds
    if not (chosen and grounds.strip()):
        return
    version = IssueVersion.objects.select_related("garment_type").filter(code=chosen).first()
    if version is None and not chosen.startswith("_"):  # it is gone from the reference; the words stay with the owner
        return
    hold(example=example, member=member, version=version, held=chosen.removeprefix("_"), grounds=grounds)


@transaction.atomic
def throw_away(*, example: Example, member: Member) -> None:
    """Delete a draft that was never sent, with the files of its photographs."""
    rows = list(Photograph.with_taken_out.filter(example=example))
    delete_draft(example=example, member=member)
    transaction.on_commit(lambda: discard_files_of(rows))


def discard_files_of(rows: Iterable[Photograph]) -> None:
    """Every file of these photographs: the stored sizes, and the picture as it was sent in where it was kept."""
    for row in rows:
        for size in row.files:
            discard_file(default_storage, size["name"])
    discard_originals(row.original for row in rows)
