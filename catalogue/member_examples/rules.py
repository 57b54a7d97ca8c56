"""What may be done with an example, as words for the person who asks, or None when nothing stands in the way."""

from catalogue.member_examples.words import DecisionKind, ExampleState

OPEN_TO_OWNER = (ExampleState.DRAFT, ExampleState.RETURNED)
KEPT_AS_EVIDENCE = ExampleState.ACCEPTED
NOT_IN_STATE = {
    ExampleState.DRAFT: "This example has not been sent yet.",
    ExampleState.SUBMITTED: "This example waits for a moderator.",
    ExampleState.RETURNED: "This example was returned to its owner, who has to answer first.",
    ExampleState.ACCEPTED: "This example was accepted already.",
    ExampleState.DECLINED: "This example was declined already.",
    ExampleState.WITHDRAWN: "Its owner has withdrawn this example.",
}
# Which states a decision takes an example from, and to which.
MOVES = {
    DecisionKind.ACCEPTED: ((ExampleState.SUBMITTED,), ExampleState.ACCEPTED),
    DecisionKind.RETURNED: ((ExampleState.SUBMITTED,), ExampleState.RETURNED),
    DecisionKind.DECLINED: ((ExampleState.SUBMITTED,), ExampleState.DECLINED),
    DecisionKind.ATTRIBUTED_ANEW: ((ExampleState.ACCEPTED,), ExampleState.ACCEPTED),
    DecisionKind.REOPENED: (
        (ExampleState.ACCEPTED, ExampleState.RETURNED, ExampleState.DECLINED),
        ExampleState.SUBMITTED,
    ),
}


def may_be_read(*, state: str, is_owner: bool, is_moderator: bool) -> bool:
    """Accepted examples are open to all; a draft to its owner alone; the rest to owner and moderators."""
    if state == ExampleState.ACCEPTED or is_owner:
        return True
    return is_moderator and state != ExampleState.DRAFT


def reason_not_to_change(*, state: str) -> str | None:
    """Why the owner may not change the record of the piece now."""
    if state in OPEN_TO_OWNER:
        return None
    if state == ExampleState.SUBMITTED:
        return "It waits for a moderator. Withdraw it first to change it."
    return f"{NOT_IN_STATE[ExampleState(state)]} Its record is not changed any more; add an observation instead."


def reason_not_to_send(*, state: str, looks: int, photographs: int, labels: int) -> str | None:
    """Why an example is not sent to the moderators. Whatever holds any evidence at all is welcome."""
    if refusal := reason_not_to_change(state=state):
        return refusal
    if not (looks or photographs or labels):
        return "There is nothing in it yet that a moderator could look at: a photograph, a label or one observation."
    return None


def reason_not_to_withdraw(*, state: str) -> str | None:
    if state in (ExampleState.SUBMITTED, ExampleState.RETURNED, ExampleState.ACCEPTED):
        return None
    return "A draft is deleted, not withdrawn." if state == ExampleState.DRAFT else NOT_IN_STATE[ExampleState(state)]


def reason_not_to_decide(
    *, decision: str, state: str, moderator_id: int, owner_id: int, reason: str, sending: int, times_sent: int
) -> str | None:
    """Why this moderator does not take this decision now. `sending`: the one that the moderator has looked at."""
    if moderator_id == owner_id:
        return "An example is decided by somebody other than its owner."
    if not reason.strip():
        return "A decision needs a reason; its owner will read it."
    needed, _ = MOVES[DecisionKind(decision)]
    if state not in needed:
        return f"{NOT_IN_STATE[ExampleState(state)]} Look again before you decide."
    if sending != times_sent:
        return "Its owner has sent it again since you opened it. Look again before you decide."
    return None


def reason_not_to_keep_as(
    *, type_code: str, version_type: str | None, name_unmasked: bool, holds_version: bool
) -> str | None:
    """Why an example cannot be accepted as this version of this garment type."""
    if not type_code:
        return "Choose the garment type first."
    if holds_version and version_type != type_code:
        return "This version belongs to another garment type."
    if name_unmasked:
        return "A wearer's name stands on a label or in a photograph: mask it before the piece is shown."
    return None


def reason_not_to_observe(*, answer: str, states: tuple[str, ...], state: str, value: float | None) -> str | None:
    """Why this is no answer to the feature's question. `states`: the feature's own; `state`: the one named or ''."""
    if answer != "seen":
        return "Say either what you saw or why you could not." if state or value is not None else None
    if state and state not in states:
        return "This is no answer to that question."
    if not state and value is None:
        return "Choose what you saw, or “cannot tell”."
    if value is not None and not 0 <= value < 1_000_000:
        return "A number here is not below 0."
    return None


def reason_not_to_hold(*, grounds: str, type_code: str, version_type: str | None) -> str | None:
    """Why an attribution is not written down. `version_type`: that of the named version, None for none."""
    if not grounds.strip():
        return "Say on what grounds: which features, which label, which paper."
    if version_type is not None and type_code and version_type != type_code:
        return "This version belongs to another garment type than the piece."
    return None
