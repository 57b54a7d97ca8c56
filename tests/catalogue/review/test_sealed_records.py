"""Records are sealed as they are written; the database keeps the seals; the command finds what was tampered with."""

import hashlib
import io
import json

import pytest
from django.core.management import CommandError, call_command
from django.db import IntegrityError, connection, transaction

from catalogue.reference.actions import write_profile
from catalogue.reference.models import (
    Citation,
    FeatureState,
    IssueVersion,
    ProfileCell,
    ReferenceState,
    Source,
    VersionRecord,
)
from catalogue.reference.spreadsheets.profiles import cells_of_record
from catalogue.reference.written_records import features_may_have_changed, listeners
from catalogue.review.models import RecordSeal
from catalogue.review.records.bodies import body_of, canonical, records_to_read
from catalogue.review.records.sealing import digest_of, seal_records
from catalogue.review.records.verifying import faults
from tests.making import lift_the_guards, make_feature, make_member, make_type, make_version, record


def cell(how_often="always", certainty="", sources=()):
    return ((how_often, None, certainty, None, None, ""), "", frozenset(), tuple(sources), ())


class Society:
    """A smock of two versions, two people who write, and what they have written so far."""

    def __init__(self):
        self.ada, self.mo = make_member("Ada"), make_member("Mo")
        self.type = make_type("SMK", name="Smock", garment_class="jacket")
        self.closure = make_feature("closure", ("buttons", "zip"), types=[self.type])
        self.cuff = make_feature("cuff", ("tab", "plain"), types=[self.type])
        self.old, self.new = make_version(self.type, "SMK-1"), make_version(self.type, "SMK-2")
        self.source = Source.objects.create(code="S1", title="Sheet of 1961", kind="specification", grade="A")
        ReferenceState.mark_changed()

    def state(self, feature, code):
        return feature.states.get(code=code).pk

    def write(self, version, *states, author=None, why="seen on a piece", **of_cells):
        return write_profile(
            version=version, cells={pk: cell(**of_cells) for pk in states}, author=author or self.ada, why=why
        )

    def three_records(self):
        buttons, zip_ = self.state(self.closure, "buttons"), self.state(self.closure, "zip")
        self.write(self.old, buttons)
        self.write(self.new, zip_, author=self.mo)
        self.write(self.old, buttons, self.state(self.cuff, "tab"), author=self.mo, sources=[self.source.pk])


@pytest.fixture
def society(db):
    return Society()


def raw(sql: str, *params) -> None:
    with connection.cursor() as cursor:
        cursor.execute(sql, params)


def verified(*noted) -> tuple[str, str]:
    """What the command printed and what it complained of."""
    out, err = io.StringIO(), io.StringIO()
    try:
        call_command("verify_records", *[f"--noted={one}" for one in noted], stdout=out, stderr=err)
    except CommandError as problem:
        return out.getvalue(), f"{err.getvalue()}{problem}"
    return out.getvalue(), err.getvalue()


def test_the_digest_is_sha_256_of_the_digest_before_and_the_body():
    """The value for `abc` is the example of FIPS 180-4 (NIST, "SHA-256", one-block message)."""
    assert digest_of("", "abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert digest_of("a" * 64, "bc") == hashlib.sha256(b"a" * 64 + b"bc").hexdigest()


def test_canonical_json_has_one_spelling_whatever_the_order():
    """Sorted names, no spaces, letters as they are: as RFC 8785, section 3.2, for texts, whole numbers and lists."""
    assert canonical({"b": 1, "a": ["é", None, True]}) == '{"a":["é",null,true],"b":1}'
    assert canonical({"a": ["é", None, True], "b": 1}) == canonical({"b": 1, "a": ["é", None, True]})
    with pytest.raises(ValueError):
        canonical({"share": float("nan")})


def test_each_record_written_by_hand_gets_a_seal_that_follows_the_one_before(society):
    society.three_records()

    seals = list(RecordSeal.objects.all())
    assert [seal.number for seal in seals] == [1, 2, 3]
    assert [seal.previous for seal in seals] == ["", seals[0].digest, seals[1].digest]
    assert [seal.digest for seal in seals] == [digest_of(seal.previous, seal.body) for seal in seals]
    body = json.loads(seals[2].body)
    assert (body["record"]["number"], body["record"]["written_by"]) == (2, society.mo.pk)
    assert [one["sources"] for one in body["record"]["cells"]] == [[[society.source.pk, "supports"]]] * 2
    assert body["words"]["version"]["code"] == "SMK-1"


def test_no_name_of_a_person_and_no_address_stands_in_a_body(society):
    society.three_records()

    for seal in RecordSeal.objects.all():
        for person in (society.ada, society.mo):
            assert f'"{person.username}"' not in seal.body
            assert person.email not in seal.body


def test_every_record_of_the_demo_is_sealed_and_verifies(demo):
    assert VersionRecord.objects.count() == RecordSeal.objects.count() > 50
    out, err = verified()
    assert err == ""
    assert RecordSeal.objects.last().digest in out


def test_a_record_and_its_seal_are_written_together_or_not_at_all(society):
    def fails(records):
        raise RuntimeError("no room left")

    listeners.append(fails)
    try:
        with pytest.raises(RuntimeError), transaction.atomic():
            society.write(society.old, society.state(society.closure, "zip"))
    finally:
        listeners.remove(fails)

    assert (VersionRecord.objects.count(), RecordSeal.objects.count()) == (0, 0)


@pytest.mark.parametrize("deed", ["update", "save", "bulk_update", "raw update", "delete", "raw delete"])
def test_the_database_refuses_to_change_or_delete_a_seal(society, deed):
    society.three_records()
    seals = RecordSeal.objects.all()
    before = list(seals.values_list("body", "digest"))
    first = seals.first()
    first.body = "{}"
    deeds = {
        "update": lambda: seals.update(body="{}"),
        "save": first.save,
        "bulk_update": lambda: RecordSeal.objects.bulk_update([first], ["body"]),
        "raw update": lambda: raw("UPDATE catalogue_recordseal SET sealed_at = sealed_at"),
        "delete": lambda: seals.delete(),
        "raw delete": lambda: raw("DELETE FROM catalogue_recordseal WHERE number = 3"),
    }

    with pytest.raises(IntegrityError, match="never changed nor deleted"), transaction.atomic():
        deeds[deed]()
    assert list(seals.values_list("body", "digest")) == before


@pytest.mark.parametrize("table", ["catalogue_recordseal", "catalogue_versionrecord", "catalogue_profilecell"])
def test_postgresql_empties_no_table_of_which_a_row_is_kept(society, table):
    if connection.vendor != "postgresql":
        pytest.skip("SQLite has no TRUNCATE")
    raw("SET CONSTRAINTS ALL IMMEDIATE")
    society.three_records()
    held = [kept.objects.count() for kept in (RecordSeal, VersionRecord, ProfileCell)]

    with pytest.raises(IntegrityError, match="never changed nor deleted"), transaction.atomic():
        raw(f"TRUNCATE {table} CASCADE")
    assert [kept.objects.count() for kept in (RecordSeal, VersionRecord, ProfileCell)] == held
    raw("TRUNCATE catalogue_viewdecision CASCADE")  # which holds none


def tampered_body(society):
    raw("UPDATE catalogue_recordseal SET body = REPLACE(body, 'seen on', 'read on') WHERE number = 2")


def tampered_and_sealed_anew(society):
    seal = RecordSeal.objects.get(number=2)
    body = seal.body.replace("seen on", "read on")
    digest = digest_of(seal.previous, body)
    raw("UPDATE catalogue_recordseal SET body = %s, digest = %s WHERE number = 2", body, digest)


def taken_out(society):
    raw("DELETE FROM catalogue_recordseal WHERE number = 2")


def unreadable(society):
    raw("UPDATE catalogue_recordseal SET body = 'nothing' WHERE number = 2")


def cell_changed(society):
    ProfileCell.objects.filter(record__version=society.new).update(how_often="seldom")


def cell_gone(society):
    ProfileCell.objects.filter(record__version=society.new).delete()


def source_added(society):
    changed = ProfileCell.objects.get(record__version=society.new)
    Citation.objects.create(cell=changed, source=society.source)


def reason_changed(society):
    VersionRecord.objects.filter(version=society.new).update(why="because")


def author_changed(society):
    VersionRecord.objects.filter(version=society.new).update(written_by=society.ada)


def record_without_seal(society):
    record(society.new, {society.closure: "buttons"})


@pytest.mark.parametrize(
    ("tamper", "words", "number"),
    [
        (tampered_body, ["seal 2 (SMK-2, record 1): the body is not what was sealed", "in the reason"], 2),
        (tampered_and_sealed_anew, ["seal 3 (SMK-1, record 2) does not follow", "in the reason"], 2),
        (taken_out, ["seal 2 is missing", "SMK-2, record 1 has no seal"], 2),
        (unreadable, ["the body is not what was sealed", "the body cannot be read"], 2),
        (cell_changed, ["seal 2 (SMK-2, record 1): the record differs from its seal in 1 cell changed"], 1),
        (cell_gone, ["the record differs from its seal in 1 cell gone"], 1),
        (source_added, ["the record differs from its seal in 1 cell changed"], 1),
        (reason_changed, ["the record differs from its seal in the reason"], 1),
        (author_changed, ["the record differs from its seal in who wrote it"], 1),
        (record_without_seal, ["SMK-2, record 2 has no seal"], 1),
    ],
)
def test_tampering_with_the_database_is_found_and_named(society, tamper, words, number):
    society.three_records()
    assert verified()[1] == ""
    lift_the_guards()

    tamper(society)

    out, err = verified()
    assert out == ""
    assert [part for part in words if part not in err] == []
    assert f"{number} fault" in err


def renamed_past_review(society):
    IssueVersion.objects.filter(pk=society.new.pk).update(name="Forged", date="1900/1901")


def kind_and_certainty_changed(society):
    IssueVersion.objects.filter(pk=society.new.pk).update(kind="trial", certainty="inferred")


def moved_to_another_type(society):
    """The database refuses it: whoever does it all the same has taken its trigger away."""
    connection.cursor().execute(
        "DROP TRIGGER catalogue_issueversion_no_update"
        + (" ON catalogue_issueversion" if connection.vendor == "postgresql" else "")
    )
    IssueVersion.objects.filter(pk=society.new.pk).update(garment_type=make_type("CAP"))


@pytest.mark.parametrize(
    ("tamper", "words"),
    [
        (renamed_past_review, "name, dates"),
        (kind_and_certainty_changed, "kind, how sure it is"),
        (moved_to_another_type, "garment type"),
    ],
)
def test_a_version_that_stands_otherwise_than_its_newest_record_is_named(society, settings, tamper, words):
    settings.REVIEW = "yes"
    society.three_records()

    tamper(society)

    err = verified()[1]
    assert f"the version SMK-2 stands otherwise than its newest record, 1, says: {words}\n" in err
    assert "1 fault" in err


def test_what_is_renamed_before_review_began_gets_a_record_and_is_no_fault(society, settings):
    society.three_records()
    renamed_past_review(society)
    features_may_have_changed(by=society.ada, why="Misread.", standing="written")

    record = society.new.records.get(number=2)
    assert (record.standing, record.written_by, record.why) == ("written", society.ada, "Misread.")
    assert [one.state_id for one in record.cells.all()] == [society.state(society.closure, "zip")]
    assert '"name":"Forged"' in record.seal.body
    features_may_have_changed(by=society.ada, why="Again.", standing="written")
    assert (society.new.records.count(), society.old.records.count()) == (2, 2)
    settings.REVIEW = "yes"
    assert verified()[1] == ""


def test_under_review_no_save_elsewhere_makes_a_record_of_what_was_changed_past_it(society, settings):
    settings.REVIEW = "yes"
    society.three_records()
    renamed_past_review(society)
    features_may_have_changed(by=society.ada, why="Misread.", standing="written")

    assert society.new.records.count() == 1
    assert "SMK-2 stands otherwise" in verified()[1]


def test_a_chain_written_anew_is_found_by_a_digest_that_was_noted(society):
    society.three_records()
    noted = RecordSeal.objects.last().digest
    assert verified(noted)[1] == ""
    lift_the_guards()
    raw("DELETE FROM catalogue_recordseal WHERE number = 3")
    VersionRecord.objects.filter(version=society.old, number=2).update(why="another reason")
    made = records_to_read(VersionRecord.objects.filter(version=society.old, number=2)).get()
    before = RecordSeal.objects.last()
    RecordSeal.objects.create(
        record=made,
        number=3,
        body=body_of(made),
        previous=before.digest,
        digest=digest_of(before.digest, body_of(made)),
    )

    assert verified()[1] == ""
    assert f"the digest {noted} does not stand in the chain" in verified(noted)[1]


def test_renaming_is_no_tampering_and_the_seal_keeps_the_old_words(society):
    society.three_records()
    FeatureState.objects.filter(feature=society.closure).update(label="Fastened otherwise")
    society.ada.username = "Adelaide"
    society.ada.save()

    assert list(faults()) == []
    assert "Fastened otherwise" not in RecordSeal.objects.first().body


def test_an_empty_site_verifies(db):
    out, err = verified()

    assert (out, err) == ("No record has been written yet.\n", "")


@pytest.mark.parametrize("how_many", [1, 3])
def test_sealing_takes_as_many_queries_for_three_records_as_for_one(society, how_many, django_assert_num_queries):
    made = [record(society.old, {society.closure: "zip", society.cuff: "tab"}).pk for _ in range(how_many)]

    with django_assert_num_queries(9):
        seal_records(made)


def test_an_unchanged_profile_writes_no_record_and_no_seal(society):
    buttons = society.state(society.closure, "buttons")
    society.write(society.old, buttons)

    assert society.write(society.old, buttons) is None
    assert RecordSeal.objects.count() == 1
    assert cells_of_record(society.old.records.get()).keys() == {buttons}
