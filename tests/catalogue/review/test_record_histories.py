"""Whatever several people do to the reference, in whatever order: no seal changes, and every address answers."""

import pytest
from django.db import IntegrityError, transaction
from django.test import Client
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from catalogue.accounts.models import Member
from catalogue.reference.actions import write_profile
from catalogue.reference.models import (
    Feature,
    FeatureState,
    IssueVersion,
    ReferenceState,
    Source,
    TypeFeature,
    VersionRecord,
)
from catalogue.reference.snapshots import forget_everything
from catalogue.review.models import RecordSeal
from catalogue.review.records.verifying import faults
from tests.making import make_feature, make_member, make_type, make_version
from tests.reading import text

WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), min_size=1, max_size=40)
PLACE = st.integers(0, 5)


class Histories(RuleBasedStateMachine):
    """Three people write the profiles of three versions of one garment type, and rename what they can."""

    def __init__(self):
        super().__init__()
        self.all = transaction.atomic()
        self.all.__enter__()
        forget_everything()
        self.people = [make_member(name) for name in ("Ada", "Mo", "Sid")]
        home = make_type("SMK", name="Smock", garment_class="jacket")
        closure = make_feature("closure", ("buttons", "zip", "none"), types=[home])
        make_feature("cover", ("fly", "exposed"), types=[home], parent=closure)
        make_feature("cuff", ("tab", "plain"), types=[home])
        self.versions = [make_version(home, code, name=f"Smock {code}") for code in ("SMK-1", "SMK/2", "SMK 3")]
        self.states = list(FeatureState.objects.order_by("feature", "position"))
        self.source = Source.objects.create(code="S1", title="Sheet of 1961", kind="specification", grade="A")
        ReferenceState.mark_changed()
        self.sealed: dict[int, tuple] = {}
        self.public: dict[str, str] = {}

    def teardown(self):
        try:
            self.every_address_once_public_answers_with_what_it_said()
        finally:
            transaction.set_rollback(True)
            self.all.__exit__(None, None, None)

    @rule(
        version=PLACE,
        person=PLACE,
        why=WORDS,
        chosen=st.dictionaries(PLACE, st.sampled_from(["always", "usually", "sometimes", "seldom"]), min_size=1),
        share=st.none() | st.floats(0.001, 1),
        cites=st.booleans(),
        note=st.just("") | WORDS,
    )
    def somebody_writes_a_profile(self, version, person, why, chosen, share, cites, note):
        sources = (self.source.pk,) if cites else ()
        cells = {
            self.states[place].pk: ((often, share, "", None, None, note), "S M", frozenset(), sources, ())
            for place, often in chosen.items()
        }
        one = self.versions[version % 3]
        made = write_profile(version=one, cells=cells, author=self.people[person % 3], why=why)
        if made:
            seal = RecordSeal.objects.get(record=made)
            self.sealed[seal.pk] = (seal.number, seal.body, seal.previous, seal.digest)
            address = f"/issue-versions/{one.code.replace(' ', '%20')}/history/{made.number}/"
            self.public[address] = seal.digest

    @rule(place=PLACE, label=WORDS)
    def somebody_renames_a_state(self, place, label):
        FeatureState.objects.filter(pk=self.states[place].pk).update(label=label)
        ReferenceState.mark_changed()

    @rule(version=PLACE, name=WORDS)
    def somebody_renames_a_version(self, version, name):
        IssueVersion.objects.filter(pk=self.versions[version % 3].pk).update(name=name)
        ReferenceState.mark_changed()

    @rule(title=WORDS)
    def somebody_renames_a_source(self, title):
        Source.objects.update(title=title)
        ReferenceState.mark_changed()

    @rule(asked=st.booleans())
    def the_type_asks_for_cuffs_or_not(self, asked):
        cuff, home = Feature.objects.get(code="cuff"), self.versions[0].garment_type
        if asked:
            TypeFeature.objects.get_or_create(garment_type=home, feature=cuff, defaults={"position": 9})
        else:
            TypeFeature.objects.filter(feature=cuff).delete()
        ReferenceState.mark_changed()

    @rule(person=PLACE, number=st.integers(1, 99))
    def somebody_takes_another_name(self, person, number):
        Member.objects.filter(pk=self.people[person % 3].pk).update(username=f"Other{person % 3}x{number}")

    @rule(deed=st.sampled_from(["update", "delete", "delete record"]))
    def somebody_tries_to_change_history(self, deed):
        if not self.sealed:
            return
        deeds = {
            "update": lambda: RecordSeal.objects.update(body="{}"),
            "delete": lambda: RecordSeal.objects.all().delete(),
            "delete record": lambda: VersionRecord.objects.order_by("?").first().delete(),
        }
        with pytest.raises(IntegrityError), transaction.atomic():  # ProtectedError is an IntegrityError
            deeds[deed]()

    @invariant()
    def no_seal_has_changed_and_none_is_missing(self):
        rows = RecordSeal.objects.values_list("pk", "number", "body", "previous", "digest")
        assert {row[0]: row[1:] for row in rows} == self.sealed

    @invariant()
    def the_chain_verifies(self):
        assert list(faults()) == []

    def every_address_once_public_answers_with_what_it_said(self):
        client = Client()
        for address, digest in self.public.items():
            assert digest in text(client, address)
            assert "as of" in text(client, address)
            assert client.get(f"{address}?with=1").status_code == 200
            assert client.get(f"{address.rpartition('history/')[0]}history/").status_code == 200


def test_whatever_people_do_no_seal_changes_and_every_address_answers(db):
    run_state_machine_as_test(
        Histories,
        settings=settings(
            max_examples=8,
            stateful_step_count=10,
            deadline=None,
            suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
            phases=[Phase.explicit, Phase.reuse, Phase.generate],  # shrinking pages takes minutes
        ),
    )
