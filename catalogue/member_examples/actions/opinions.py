"""What members see on a piece and hold it to be."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples import rules
from catalogue.member_examples.actions.refusals import refuse, refuse_unread
from catalogue.member_examples.models import Attribution, Example, Observation
from catalogue.member_examples.words import Answer, AttributedBy, ExampleState, Held
from catalogue.reference.models import Feature, IssueVersion, ReferenceState


@dataclass(frozen=True)
class Look:
    """One answer to be written down: a state, or a number, or why there is none."""

    feature: Feature
    answer: str = Answer.SEEN
    state: str = ""
    value: float | None = None
    note: str = ""


@transaction.atomic
def add_attribution(
    *, example: Example, member: Member, version: IssueVersion | None, held: str = "", grounds: str
) -> Attribution:
    """Write down what a member holds a piece to be. Earlier ones stay and can be read."""
    refuse_unread(example, member)
    refuse(
        rules.reason_not_to_hold(
            grounds=grounds,
            type_code=example.garment_type.code if example.garment_type else "",
            version_type=version.garment_type.code if version else None,
        )
    )
    standing = example.attributions.filter(by=AttributedBy.MEMBER, member=member).last()
    held = held_as_word(version, held)
    if standing and (standing.version, standing.held, standing.grounds) == (version, held, grounds.strip()):
        return standing
    return write_attribution(example, AttributedBy.MEMBER, member, version, held, grounds)


def held_as_word(version: IssueVersion | None, held: str) -> str:
    """The version decides; without one, what was said, and that nobody can say where nothing was."""
    if version is not None:
        return Held.VERSION
    return held if held in (Held.NOT_IN_REFERENCE, Held.CANNOT_SAY) else Held.CANNOT_SAY


def write_attribution(
    example: Example, by: str, member: Member | None, version: IssueVersion | None, held: str, grounds: str
) -> Attribution:
    return Attribution.objects.create(
        example=example,
        by=by,
        member=member,
        version=version,
        held=held_as_word(version, held),
        grounds=grounds.strip(),
    )


@transaction.atomic
def add_engines_attribution(
    *, example: Example, version: IssueVersion | None, held: str, grounds: str, chance: float | None
) -> Attribution:
    """Keep what the site's own identification made of a piece at this time, as one opinion among others."""
    return Attribution.objects.create(
        example=example,
        by=AttributedBy.ENGINE,
        version=version,
        held=held_as_word(version, held),
        grounds=grounds.strip(),
        chance=chance,
    )


@transaction.atomic
def add_observations(*, example: Example, member: Member, looks: Iterable[Look]) -> list[Observation]:
    """Write down what a member saw on a piece. Nothing is overwritten: of the same person the latest look counts.

    A look that says what the same person's last one says is left out, so that a second tap adds nothing. Looks at an
    accepted piece count as evidence at once. Raises NotDone for the first that cannot be read, and writes none.
    """
    refuse_unread(example, member)
    mine = Observation.objects.filter(example=example, observer=member).select_related("state")
    said = {one.feature_id: (one.answer, one.state.code if one.state else "", one.value) for one in mine}
    made = []
    for look in looks:
        states = {state.code: state for state in look.feature.states.all()}
        refuse(
            rules.reason_not_to_observe(answer=look.answer, states=tuple(states), state=look.state, value=look.value)
        )
        state = states.get(look.state) or band_of(look, states.values())
        told = (str(look.answer), state.code if state else "", look.value)
        if said.get(look.feature.pk) == told:
            continue
        said[look.feature.pk] = told
        made.append(
            Observation(
                example=example,
                observer=member,
                feature=look.feature,
                answer=look.answer,
                state=state,
                value=look.value,
                note=look.note.strip(),
            )
        )
    made = Observation.objects.bulk_create(made)
    if made and example.state == ExampleState.ACCEPTED:
        ReferenceState.mark_changed()
    return made


def add_observation(*, example: Example, member: Member, look: Look) -> Observation | None:
    """One look; None when it says what the same person's last one says."""
    made = add_observations(example=example, member=member, looks=[look])
    return made[0] if made else None


def band_of(look: Look, states):
    """The band that a counted or measured value lies in, or None."""
    if look.value is None:
        return None
    bands = (state for state in states if state.low is not None or state.high is not None)
    return next((s for s in bands if (s.low or 0) <= look.value and (s.high is None or look.value < s.high)), None)
