"""How an action says no."""

from catalogue.accounts.models import Member
from catalogue.member_examples import rules
from catalogue.member_examples.gates import is_member, is_moderator, owns
from catalogue.member_examples.models import Example


class NotDone(ValueError):
    """Nothing was written; the text says why, in words for the person who asked."""


class ChangedMeanwhile(NotDone):
    """Somebody else, or the same person elsewhere, saved it first. Nothing was written."""


def refuse(words: str | None) -> None:
    if words:
        raise NotDone(words)


def refuse_strangers(example: Example, member: Member) -> None:
    """The gates let nobody else here; an action called without one still refuses."""
    if not owns(member, example):
        raise NotDone("This is not your piece.")


def refuse_unread(example: Example, member: Member) -> None:
    """A member speaks of what a member may read; of a draft only its owner."""
    if not is_member(member):
        raise NotDone("Sign in to say what you see.")
    readable = rules.may_be_read(state=example.state, is_owner=owns(member, example), is_moderator=is_moderator(member))
    if not readable:
        raise NotDone("There is no such example.")
