"""A small society for tests: Ada owns, Ben is another member, Mo and Mia moderate; and pieces in every state."""

from dataclasses import dataclass
from uuid import uuid4

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import (
    Look,
    accept_example,
    add_observations,
    decline_example,
    return_example,
    start_example,
    submit_example,
    withdraw_example,
)
from catalogue.member_examples.models import Example, Label
from catalogue.reference.models import Feature, GarmentType, IssueVersion
from tests.making import make_feature, make_member, make_type, make_version


@dataclass
class Society:
    ada: Member
    ben: Member
    mo: Member
    mia: Member
    smock: GarmentType
    old: IssueVersion
    new: IssueVersion
    closure: Feature
    cuff: Feature


def make_society() -> Society:
    smock = make_type("SMK", name="Smock", garment_class="pullover")
    closure = make_feature("closure", ("buttons", "zip"), types=[smock])
    cuff = make_feature("cuff", ("band", "tab", "none"), types=[smock])
    return Society(
        ada=make_member("Ada"),
        ben=make_member("Ben"),
        mo=make_member("Mo", role="moderator"),
        mia=make_member("Mia", role="moderator"),
        smock=smock,
        old=make_version(smock, "SMK-61", {closure: "buttons", cuff: "band"}),
        new=make_version(smock, "SMK-76", {closure: "zip", cuff: "tab"}),
        closure=closure,
        cuff=cuff,
    )


def draft(society: Society, owner: Member | None = None, *, text: str = "SMOCK / 27-114-06", **seen: str) -> Example:
    """A draft with a label and what its owner saw: closure="zip"."""
    owner = owner or society.ada
    example = start_example(owner=owner, fields={"garment_type": society.smock})
    Label.objects.create(example=example, text=text)
    add_observations(example=example, member=owner, looks=[look(society, *pair) for pair in seen.items()])
    return example


def look(society: Society, feature: str, state: str) -> Look:
    return Look(feature=getattr(society, feature), state=state)


def sent(society: Society, owner: Member | None = None, **seen: str) -> Example:
    example = draft(society, owner, **seen)
    return submit_example(example=example, member=example.owner, token=uuid4())


def accepted(society: Society, version=None, owner: Member | None = None, **seen: str) -> Example:
    example = sent(society, owner, **seen)
    moderator = society.mia if example.owner == society.mo else society.mo
    accept_example(example=example, moderator=moderator, reason="agrees", sending=1, held_as=version)
    return example


def in_state(society: Society, state: str, owner: Member | None = None, **seen: str) -> Example:
    """A piece that came to this state by the society's own ways."""
    if state == "draft":
        return draft(society, owner, **seen)
    if state == "accepted":
        return accepted(society, society.old, owner, **seen)
    example = sent(society, owner, **seen)
    answers = {"returned": return_example, "declined": decline_example}
    if state in answers:
        answers[state](example=example, moderator=society.mo, reason="look again", sending=1)
    if state == "withdrawn":
        withdraw_example(example=example, member=example.owner)
    return example
