"""What owners, members and moderators can do with a piece, and what is refused."""

from threading import Barrier, Thread
from uuid import uuid4

import pytest
from django.db import IntegrityError, connection, transaction

from catalogue.member_examples.actions import (
    ChangedMeanwhile,
    Look,
    NotDone,
    accept_example,
    add_attribution,
    add_engines_attribution,
    add_observation,
    add_observations,
    attribute_anew,
    decline_example,
    delete_draft,
    reopen_example,
    return_example,
    save_example,
    start_example,
    submit_example,
    withdraw_example,
)
from catalogue.member_examples.models import Attribution, Example, ExampleDecision, Observation
from catalogue.reference.models import FeatureState, ReferenceState
from tests.catalogue.member_examples.pieces import accepted, draft, in_state, make_society, sent
from tests.making import make_feature, make_type, make_version

pytestmark = pytest.mark.django_db


@pytest.fixture
def society(db):
    return make_society()


def refused(words: str, action, **given) -> None:
    with pytest.raises(NotDone, match=words):
        action(**given)


# ---- owners


def test_pieces_are_numbered_one_after_another_whatever_other_codes_there_are(society):
    first = start_example(owner=society.ada)
    Example.objects.create(code="EX-9000", owner=society.ada)
    Example.objects.create(code="E041", owner=society.ada)

    assert (first.code, start_example(owner=society.ada).code) == ("E001", "E042")


def test_the_number_of_a_deleted_draft_never_comes_back_for_another_piece(society):
    first = start_example(owner=society.ada)
    delete_draft(example=first, member=society.ada)
    second = start_example(owner=society.ben)
    Example.objects.create(code="E041", owner=society.ada).delete()
    third = start_example(owner=society.ada)
    Example.objects.filter(pk=third.pk).delete()

    assert (first.code, second.code, third.code) == ("E001", "E002", "E042")
    assert start_example(owner=society.ben).code == "E043"


def test_a_save_that_began_with_an_older_state_is_refused_and_changes_nothing(society):
    example = draft(society)
    save_example(example=example, member=society.ada, revision=0, fields={"size_mark": "4"})

    with pytest.raises(ChangedMeanwhile):
        save_example(example=example, member=society.ada, revision=0, fields={"size_mark": "5"})

    example.refresh_from_db()
    assert (example.size_mark, example.revision) == ("4", 1)


def test_an_owner_cannot_save_what_moderators_decide(society):
    with pytest.raises(TypeError, match="held_as, state"):
        save_example(example=draft(society), member=society.ada, revision=0, fields={"state": "accepted", "held_as": 1})


def test_a_second_tap_on_send_is_one_submission(society):
    example, token = draft(society), uuid4()
    submit_example(example=example, member=society.ada, token=token)
    again = submit_example(example=Example.objects.get(pk=example.pk), member=society.ada, token=token)

    assert (again.state, again.times_sent) == ("submitted", 1)


def test_a_tap_with_the_token_of_another_piece_sends_nothing(society):
    token = uuid4()
    submit_example(example=draft(society), member=society.ada, token=token)
    second = draft(society)

    refused("another piece", submit_example, example=second, member=society.ada, token=token)
    second.refresh_from_db()
    assert (second.state, second.times_sent) == ("draft", 0)


def test_an_empty_draft_is_not_sent(society):
    example = start_example(owner=society.ada)

    refused("nothing in it yet", submit_example, example=example, member=society.ada, token=uuid4())


def test_what_was_returned_is_changed_and_sent_again(society):
    example = in_state(society, "returned")
    save_example(example=example, member=society.ada, revision=example.revision, fields={"size_mark": "4"})
    submit_example(example=example, member=society.ada, token=uuid4())

    assert (example.state, example.times_sent) == ("submitted", 2)


@pytest.mark.parametrize("state", ["submitted", "accepted", "declined", "withdrawn"])
def test_a_piece_that_left_its_owners_hands_is_not_changed_or_sent(society, state):
    example = in_state(society, state)

    refused(r"\w", save_example, example=example, member=society.ada, revision=example.revision, fields={"note": "x"})
    refused(r"\w", submit_example, example=example, member=society.ada, token=uuid4())


def test_strangers_and_moderators_do_nothing_in_an_owners_place(society):
    for other in (society.ben, society.mo):
        for action, given in (
            (save_example, {"revision": 0, "fields": {}}),
            (submit_example, {"token": uuid4()}),
            (withdraw_example, {}),
            (delete_draft, {}),
        ):
            refused("not your piece", action, example=draft(society), member=other, **given)


def test_withdrawing_an_accepted_piece_takes_it_out_of_the_evidence_and_keeps_the_decisions(society):
    example = accepted(society, society.old)
    before = ReferenceState.current_number()
    withdraw_example(example=example, member=society.ada)

    assert (example.state, example.held_as) == ("withdrawn", None)
    assert ReferenceState.current_number() == before + 1
    assert [d.decision for d in example.decisions.all()] == ["accepted"]
    assert withdraw_example(example=example, member=society.ada).state == "withdrawn"
    assert ReferenceState.current_number() == before + 1


def test_only_a_draft_that_was_never_sent_is_deleted(society):
    delete_draft(example=draft(society), member=society.ada)
    assert Example.objects.count() == 0

    refused("never sent", delete_draft, example=in_state(society, "returned"), member=society.ada)


# ---- moderators


def test_accepting_keeps_the_piece_as_a_version_with_a_reason_and_an_attribution(society):
    example = sent(society, closure="buttons")
    before = ReferenceState.current_number()
    accept_example(example=example, moderator=society.mo, reason="agrees", sending=1, held_as=society.old)

    assert (example.state, example.held_as) == ("accepted", society.old)
    decision = example.decisions.get()
    assert (decision.moderator, decision.owner, decision.reason) == (society.mo, society.ada, "agrees")
    attribution = example.attributions.get()
    assert (attribution.by, attribution.version, attribution.grounds) == ("society", society.old, "agrees")
    assert ReferenceState.current_number() == before + 1


def test_a_piece_can_be_accepted_as_none_of_the_reference(society):
    example = sent(society)
    accept_example(example=example, moderator=society.mo, reason="new", sending=1, held="not_in_reference")

    assert (example.held_as, example.attributions.get().held) == (None, "not_in_reference")


def test_nobody_decides_on_their_own_piece_not_even_past_the_actions(society):
    example = sent(society, owner=society.mo)
    for action in (accept_example, return_example, decline_example):
        refused("other than its owner", action, example=example, moderator=society.mo, reason="mine", sending=1)

    with pytest.raises(IntegrityError), transaction.atomic():
        ExampleDecision.objects.create(
            example=example, moderator=society.mo, decision="declined", reason="x", sending=1
        )
    example.refresh_from_db()
    assert (example.state, example.decisions.count()) == ("submitted", 0)


@pytest.mark.parametrize("role", ["member", "author", "secretary"])
def test_only_moderators_decide(society, role):
    society.ben.role = role
    refused("Only moderators", accept_example, example=sent(society), moderator=society.ben, reason="x", sending=1)


@pytest.mark.parametrize("state", ["draft", "returned", "accepted", "declined", "withdrawn"])
def test_only_what_waits_is_accepted_returned_or_declined(society, state):
    example = in_state(society, state)
    for action in (accept_example, return_example, decline_example):
        refused(r"\w", action, example=example, moderator=society.mia, reason="x", sending=example.times_sent)


def test_a_decision_needs_a_reason(society):
    refused("needs a reason", return_example, example=sent(society), moderator=society.mo, reason="  ", sending=1)


def test_the_second_moderator_is_refused_and_nothing_is_written(society):
    example = sent(society)
    seen_by_mo, seen_by_mia = Example.objects.get(pk=example.pk), Example.objects.get(pk=example.pk)
    accept_example(example=seen_by_mo, moderator=society.mo, reason="yes", sending=1, held_as=society.old)

    refused("already", decline_example, example=seen_by_mia, moderator=society.mia, reason="no", sending=1)
    assert [(d.moderator, d.decision) for d in example.decisions.all()] == [(society.mo, "accepted")]
    assert Example.objects.get(pk=example.pk).state == "accepted"


def test_the_table_itself_holds_one_answer_to_each_sending(society):
    example = in_state(society, "declined")

    with pytest.raises(IntegrityError), transaction.atomic():
        ExampleDecision.objects.create(
            example=example, moderator=society.mia, decision="accepted", reason="x", sending=1
        )


def test_a_moderator_who_looked_before_it_was_sent_again_is_refused(society):
    example = in_state(society, "returned")
    submit_example(example=example, member=society.ada, token=uuid4())

    refused("sent it again", accept_example, example=example, moderator=society.mia, reason="x", sending=1)


def test_a_piece_is_not_kept_as_a_version_of_another_garment_type(society):
    strange = make_version(make_type("CAP"), "CAP-1", {})

    refused("another garment type", accept_example, example=sent(society), moderator=society.mo, reason="x",
            sending=1, held_as=strange)  # fmt: skip


def test_a_piece_of_no_known_type_gets_its_type_from_the_moderator(society):
    example = draft(society)
    Example.objects.filter(pk=example.pk).update(garment_type=None)
    submit_example(example=example, member=society.ada, token=uuid4())

    refused("garment type first", accept_example, example=example, moderator=society.mo, reason="x", sending=1)
    accept_example(example=example, moderator=society.mo, reason="x", sending=1, garment_type=society.smock)
    assert example.garment_type == society.smock


def test_a_name_is_masked_before_the_piece_is_shown(society):
    example = draft(society)
    save_example(example=example, member=society.ada, revision=0, fields={"name_on_label": "to_mask"})
    submit_example(example=example, member=society.ada, token=uuid4())

    refused("mask it", accept_example, example=example, moderator=society.mo, reason="x", sending=1)


def test_a_piece_is_attributed_anew_unless_it_was_meanwhile(society):
    example = accepted(society, society.old)
    attribute_anew(example=example, moderator=society.mia, reason="zip", held_as=society.new, believed=society.old)
    assert example.held_as == society.new

    refused("just decided", attribute_anew, example=example, moderator=society.mo, reason="no", held_as=None,
            believed=society.old)  # fmt: skip
    assert [a.version for a in example.attributions.all()] == [society.old, society.new]


def test_a_reopened_piece_waits_again_and_is_answered_anew(society):
    example = accepted(society, society.old)
    reopen_example(example=example, moderator=society.mia, reason="new paper")
    assert (example.state, example.held_as) == ("submitted", None)

    accept_example(example=example, moderator=society.mo, reason="still", sending=2, held_as=society.old)
    assert [d.decision for d in example.decisions.all()] == ["accepted", "reopened", "accepted"]


@pytest.mark.django_db(transaction=True)
def test_two_moderators_at_once_leave_one_decision():
    if connection.vendor == "sqlite":
        pytest.skip("the tests' SQLite lives in one connection; its writers wait for each other anyway")
    society = make_society()
    example = sent(society)
    together, outcomes = Barrier(2), []

    def decide(action, moderator):
        own = Example.objects.get(pk=example.pk)
        together.wait()
        try:
            action(example=own, moderator=moderator, reason="mine", sending=1)
            outcomes.append("done")
        except (NotDone, IntegrityError) as refusal:
            outcomes.append(type(refusal).__name__)
        finally:
            connection.close()

    threads = [
        Thread(target=decide, args=pair) for pair in ((accept_example, society.mo), (decline_example, society.mia))
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes)[1] == "done"
    assert example.decisions.count() == 1


# ---- any member


def test_several_people_observe_the_same_feature_and_nothing_is_overwritten(society):
    example = accepted(society, society.old, closure="buttons")
    add_observation(example=example, member=society.ben, look=Look(feature=society.closure, state="zip"))
    add_observation(example=example, member=society.ada, look=Look(feature=society.closure, answer="cannot_tell"))

    told = [(o.observer.username, o.answer, o.state and o.state.code) for o in example.observations.all()]
    assert told == [("Ada", "seen", "buttons"), ("Ben", "seen", "zip"), ("Ada", "cannot_tell", None)]


def test_the_same_look_twice_is_one_observation(society):
    example = accepted(society, society.old, closure="buttons")
    one = Look(feature=society.cuff, state="tab")

    assert add_observation(example=example, member=society.ben, look=one) is not None
    assert add_observation(example=example, member=society.ben, look=one) is None
    assert example.observations.count() == 2


def test_a_look_at_an_accepted_piece_counts_at_once_and_one_at_a_draft_does_not(society):
    kept, own = accepted(society, society.old), draft(society)
    before = ReferenceState.current_number()
    add_observation(example=own, member=society.ada, look=Look(feature=society.cuff, state="tab"))
    assert ReferenceState.current_number() == before

    add_observation(example=kept, member=society.ben, look=Look(feature=society.cuff, state="tab"))
    assert ReferenceState.current_number() == before + 1


def test_a_number_is_put_into_its_band(society):
    count = make_feature("rows", ("few", "many"), types=[society.smock], kind="count", unit="rows")
    FeatureState.objects.filter(feature=count, code="few").update(low=0, high=4)
    FeatureState.objects.filter(feature=count, code="many").update(low=4)
    example = draft(society)
    made = add_observations(
        example=example,
        member=society.ada,
        looks=[Look(feature=count, value=value) for value in (0, 3.9, 4, 70)],
    )

    assert [(one.value, one.state.code) for one in made] == [(0, "few"), (3.9, "few"), (4, "many"), (70, "many")]


@pytest.mark.parametrize(
    "wrong",
    [{"state": "velcro"}, {}, {"value": -1.0}, {"answer": "cannot_tell", "state": "zip"}],
    ids=["no such state", "nothing said", "below nothing", "both"],
)
def test_one_unreadable_look_writes_none(society, wrong):
    example = draft(society)
    looks = [Look(feature=society.cuff, state="tab"), Look(feature=society.closure, **wrong)]

    refused(r"\w", add_observations, example=example, member=society.ada, looks=looks)
    assert example.observations.count() == 0


def test_nobody_speaks_of_a_piece_that_they_may_not_read(society):
    for state, other in (("draft", society.ben), ("draft", society.mo), ("submitted", society.ben)):
        example = in_state(society, state)
        look = Look(feature=society.cuff, state="tab")
        refused("no such", add_observation, example=example, member=other, look=look)
        refused("no such", add_attribution, example=example, member=other, version=society.old, grounds="x")


def test_a_later_attribution_stands_beside_the_earlier_one(society):
    example = accepted(society, society.old)
    add_attribution(example=example, member=society.ben, version=society.new, grounds="the cuff")
    add_attribution(example=example, member=society.ben, version=society.new, grounds="the cuff")
    add_attribution(example=example, member=society.ben, version=None, held="cannot_say", grounds="looked again")
    add_engines_attribution(example=example, version=society.old, held="version", grounds="closure", chance=0.9)

    told = [(a.by, a.held, a.version and a.version.code) for a in example.attributions.all()]
    assert told == [
        ("society", "version", "SMK-61"),
        ("member", "version", "SMK-76"),
        ("member", "cannot_say", None),
        ("engine", "version", "SMK-61"),
    ]


def test_an_attribution_needs_grounds_and_a_version_of_the_same_type(society):
    example = accepted(society, society.old)
    strange = make_version(make_type("CAP"), "CAP-1", {})

    refused("grounds", add_attribution, example=example, member=society.ben, version=society.new, grounds=" ")
    refused("another garment type", add_attribution, example=example, member=society.ben, version=strange, grounds="x")


@pytest.mark.parametrize("model", [Observation, Attribution, ExampleDecision])
def test_the_database_refuses_to_change_what_is_written_once(society, model):
    accepted(society, society.old, closure="buttons")
    field = "note" if model is Observation else "grounds" if model is Attribution else "reason"

    with pytest.raises(IntegrityError, match="written once"), transaction.atomic():
        model.objects.update(**{field: "changed"})
    assert not model.objects.filter(**{field: "changed"}).exists()
