"""Somebody asks for a name to be removed: who may, and that it then stands nowhere, neither in tables nor in files."""

import sqlite3
from html import unescape
from io import BytesIO
from uuid import uuid4

import pytest
from django.contrib.admin.models import LogEntry
from django.contrib.contenttypes.models import ContentType
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from PIL import Image, ImageDraw

from catalogue.member_examples.actions import add_attribution, submit_example
from catalogue.member_examples.models import (
    Alteration,
    Example,
    ExampleDecision,
    ExampleInSet,
    ExampleSet,
    HiddenName,
    Measurement,
    NameRequest,
    Observation,
    Photograph,
)
from catalogue.member_examples.removing_names.places import bare, is_near
from catalogue.member_examples.submitting.names import MASK, pattern_of, without
from catalogue.member_examples.submitting.pictures import put_in
from catalogue.reference.models import Source
from catalogue.review.examples_queue.actions import decide_on_piece, write_word
from catalogue.review.models import Notice, PieceWord
from tests.catalogue.member_examples.pieces import accepted, draft, in_state, make_society
from tests.making import make_member
from tests.reading import words as words_of

NAME = "Quillfeather"


@pytest.fixture
def society(db):
    return make_society()


@pytest.fixture
def media(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    return tmp_path


def every_text() -> str:
    """Everything that stands in any table of the database, but for who has an account."""
    found = []
    with connection.cursor() as cursor:
        for table in connection.introspection.table_names(cursor):
            cursor.execute(f'SELECT * FROM "{table}"')  # noqa: S608 - names from the database itself
            found += [str(row) for row in cursor.fetchall()]
    return "\n".join(found)


def picture_with_a_name() -> SimpleUploadedFile:
    image = Image.new("RGB", (1800, 1200), "olive")
    ImageDraw.Draw(image).text((60, 60), NAME.upper(), fill="white", font_size=90)
    file = BytesIO()
    image.save(file, "JPEG")
    return SimpleUploadedFile(f"{NAME}.jpg", file.getvalue(), content_type="image/jpeg")


def with_the_name_everywhere(society) -> Example:
    """An accepted piece whose every text, by whomever, holds the name."""
    piece = draft(society, text=f"SMOCK\nR. {NAME}")
    said = f"it was {NAME.lower()}'s"
    texts = {
        name: NAME
        for name in ("provenance", "repairs", "note", "sold_as", "contract", "size_mark", "venue", "begun_grounds")
    }
    Example.objects.filter(pk=piece.pk).update(**texts)
    piece.refresh_from_db()
    piece.labels.update(remark=NAME, place=NAME)
    Alteration.objects.create(example=piece, kind="cut_off", part=f"sleeves of {NAME}", traces=said)
    Measurement.objects.create(example=piece, what="hem", mm=400, method=NAME, typed=NAME, by=society.ada)
    HiddenName.objects.create(example=piece, by=society.ada, name=NAME)
    Observation.objects.create(
        example=piece, observer=society.ben, feature=society.cuff, answer="cannot_tell", note=said
    )
    add_attribution(example=piece, member=society.ada, version=society.old, grounds=said)
    kept = put_in(example=piece, member=society.ada, files=[picture_with_a_name()], caption=NAME).taken[0]
    Photograph.objects.filter(pk=kept.pk).update(credit=NAME)
    out = put_in(example=piece, member=society.ada, files=[picture(colour="navy")], caption=NAME).taken[0]
    submit_example(example=piece, member=society.ada, token=uuid4())
    decide_on_piece(
        example=piece, moderator=society.mo, decision="accepted", reason=said, sending=1, held_as=society.old
    )
    Photograph.objects.filter(pk=out.pk).update(taken_out_at=piece.made_at)
    write_word(example=piece, by=society.ada, text=said, token=uuid4())
    together = ExampleSet.objects.create(
        code="G1", name=f"{NAME}'s kit", together="yes", grounds=said, made_by=society.ada
    )
    ExampleInSet.objects.create(example_set=together, example=piece)
    LogEntry.objects.create(
        user=society.mo, content_type=ContentType.objects.get_for_model(ExampleSet), object_id=str(together.pk),
        object_repr=f"{NAME}'s kit", action_flag=1, change_message=NAME,
    )  # fmt: skip
    piece.refresh_from_db()
    return piece


def picture(colour: str) -> SimpleUploadedFile:
    file = BytesIO()
    Image.new("RGB", (640, 480), colour).save(file, "JPEG")
    return SimpleUploadedFile("a.jpg", file.getvalue(), content_type="image/jpeg")


def test_a_name_that_stood_everywhere_stands_nowhere_afterwards_and_the_record_is_as_it_was(client, society, media):
    piece = with_the_name_everywhere(society)
    client.force_login(society.ben)
    client.post(f"/examples/{piece.code}/names/ask/", {"words": f"{NAME} was my grandfather"})
    assert every_text().lower().count(NAME.lower()) > 20
    before = [list(model.objects.values_list("pk", "made_at")) for model in (Observation, ExampleDecision, PieceWord)]
    seen = list(Observation.objects.values_list("pk", "answer", "state"))

    client.force_login(society.mo)
    looked = client.post(f"/examples/{piece.code}/names/", {"names": NAME, "act": "look"}).content.decode()
    answer = client.post(f"/examples/{piece.code}/names/", {"names": NAME, "act": "remove"}, follow=True)

    assert "reasons of decisions: 1 text" in looked
    assert "Removed from" in answer.content.decode()
    assert NAME.lower() not in every_text().lower()
    assert before == [
        list(model.objects.values_list("pk", "made_at")) for model in (Observation, ExampleDecision, PieceWord)
    ]
    assert seen == list(Observation.objects.values_list("pk", "answer", "state"))
    piece.refresh_from_db()
    assert (piece.state, piece.held_as, piece.name_on_label) == ("accepted", society.old, "masked")
    assert piece.labels.get().text == f"SMOCK\nR. {MASK}"
    connection.check_constraints()
    assert NAME not in "".join(path.name for path in media.rglob("*"))


def test_a_name_in_a_photograph_goes_in_every_stored_size_and_with_every_old_file(
    client, society, media, django_capture_on_commit_callbacks
):
    piece = with_the_name_everywhere(society)
    row = piece.photographs.get()
    before = {path: path.read_bytes() for path in media.rglob("*.webp")}
    client.force_login(society.mo)
    with django_capture_on_commit_callbacks(execute=True):
        client.post(f"/examples/{piece.code}/names/", {"names": NAME})  # the picture that was taken out goes, too
    answer = client.post(f"/examples/{piece.code}/names/photographs/{row.pk}/", {"area": "0,0,0.6,0.2"}, follow=True)

    assert "the old files are deleted" in answer.content.decode()
    row.refresh_from_db()
    stored = {size["name"] for size in row.files}
    assert {str(path.relative_to(media)) for path in media.rglob("*.webp")} == stored
    assert len(stored) == 3
    assert not any(path.exists() for path in before)
    for size in row.files:
        with default_storage.open(size["name"]) as file:
            image = Image.open(file).convert("L")
        box = image.crop((0, 0, int(image.width * 0.6), int(image.height * 0.2)))
        assert box.getextrema()[1] < 140, size  # white letters on olive (luminance 114) are gone
    assert row.perceptual_hash is not None
    page = client.get(f"/examples/{piece.code}/").content.decode()
    assert "Personal data were removed from this page on" in page


def test_what_sqlite_deletes_is_overwritten_in_its_file(settings, tmp_path):
    """With the statements that every connection of the site begins with."""
    options = settings.SQLITE_OPTIONS["init_command"]
    file = tmp_path / "kept.sqlite3"
    base = sqlite3.connect(file, isolation_level=None)
    base.executescript(options)
    base.execute("CREATE TABLE texts (words TEXT)")
    base.executemany("INSERT INTO texts VALUES (?)", [(f"{NAME} {n} " + "x" * 900,) for n in range(40)])
    assert NAME.encode() in file.read_bytes() + (tmp_path / "kept.sqlite3-wal").read_bytes()
    base.execute("DELETE FROM texts WHERE rowid > 3")
    base.execute("UPDATE texts SET words = '[name]'")
    base.execute("PRAGMA wal_checkpoint(TRUNCATE)")

    assert NAME.encode() not in b"".join(path.read_bytes() for path in tmp_path.iterdir())
    base.close()


def test_a_record_of_the_reference_that_has_the_name_is_told_and_left_alone(client, society):
    piece = accepted(society, society.old)
    Source.objects.create(code="S1", kind="label", grade="D", title=f"Label of {NAME}")
    client.force_login(society.ada)
    page = client.post(f"/examples/{piece.code}/names/", {"names": NAME, "act": "look"}).content.decode()

    assert "source S1" in page
    assert Source.objects.get().title == f"Label of {NAME}"


@pytest.mark.parametrize(
    ("name", "text", "after"),
    [
        ("J. Müller", "j.mu\u0308ller, J.  MÜLLER", "[name], [name]"),  # decomposed, and a capital
        ("name", "[name] of a name", "[name] of a [name]"),
        ("Zoë O’Quill-Hübner", "zoe\u0308  o'quill\u2011HÜBNER's", "[name]'s"),  # another apostrophe and hyphen, mixed
        ("Zoë O'Quill", "Zoë\u00a0O’Quill", "[name]"),
        ("Li", "Li Line\nLi", "[name] Line\n[name]"),
    ],
)
def test_a_name_is_found_however_it_is_encoded_and_a_mask_is_never_masked(name, text, after):
    assert without(pattern_of([name]), text)[0] == after


def test_a_plain_name_of_one_letter_that_was_kept_is_forgotten_without_a_fault(client, society):
    piece = in_state(society, "accepted")
    HiddenName.objects.create(example=piece, by=society.ada, name="J")
    client.force_login(society.ada)

    assert client.post(f"/examples/{piece.code}/names/", {"names": ""}).status_code == 302
    assert not HiddenName.objects.exclude(name="").exists()


ASKING = {"visitor": 200, "owner": 200, "other": 200, "moderator": 200}


def people(society) -> dict:
    return {"visitor": None, "owner": society.ada, "other": society.ben, "moderator": society.mo}


@pytest.mark.parametrize(
    ("state", "ask", "remove"),
    [
        ("draft", {"owner"}, {"owner"}),
        ("submitted", {"owner", "moderator"}, {"owner", "moderator"}),
        ("accepted", {"visitor", "owner", "other", "moderator"}, {"owner", "moderator"}),
        ("withdrawn", {"owner", "moderator"}, {"owner", "moderator"}),
    ],
)
def test_everybody_who_may_read_a_piece_may_ask_and_its_owner_and_moderators_remove(
    client, society, state, ask, remove
):
    piece = in_state(society, state)
    for name, person in people(society).items():
        client.logout()
        if person:
            client.force_login(person)
        asked = client.get(f"/examples/{piece.code}/names/ask/").status_code
        assert asked == (200 if name in ask else 404), name
        met = client.get(f"/examples/{piece.code}/names/").status_code
        assert met == (200 if name in remove else 404 if person else 302), name
        blurred = client.post(f"/examples/{piece.code}/names/photographs/999/", {"cell": "0,0"}).status_code
        assert blurred == (404 if person else 302), name
        removed = client.post(f"/examples/{piece.code}/names/", {"names": "114"}).status_code
        assert removed == (302 if name in remove or not person else 404), name


def test_a_stranger_reads_whom_to_write_to_and_a_form_sent_by_one_writes_nothing(client, society, settings):
    settings.CONTACT = "names@society.example"
    piece = accepted(society, society.old)
    page = client.get(f"/examples/{piece.code}/").content.decode()
    address = f"/examples/{piece.code}/names/ask/"

    assert address in page
    assert "names@society.example" in client.get(address).content.decode()
    assert client.post(address, {"words": NAME}).status_code == 302
    assert not NameRequest.objects.exists()


def test_a_request_is_told_to_owner_and_moderators_stands_in_the_queue_and_keeps_no_words_once_settled(client, society):
    piece = accepted(society, society.old)
    client.force_login(society.ben)
    for words in ("", f"{NAME}, on the label", f"{NAME}, on the label and the back"):
        client.post(f"/examples/{piece.code}/names/ask/", {"words": words})
    asked = NameRequest.objects.get()
    assert asked.words == f"{NAME}, on the label and the back"
    told = {(one.member.username, one.name_request_id) for one in Notice.objects.filter(name_request__isnull=False)}
    assert told == {("Ada", asked.pk), ("Mo", asked.pk), ("Mia", asked.pk)}

    settle = f"/examples/{piece.code}/names/requests/{asked.pk}/settle/"
    assert client.post(settle).status_code == 403
    client.force_login(society.mo)
    assert f"/examples/{piece.code}/names/" in client.get("/pieces-that-wait/").content.decode()
    assert f"{NAME}, on the label" in client.get(f"/examples/{piece.code}/names/").content.decode()
    assert [client.post(settle).status_code for _ in range(2)] == [302, 302]
    asked.refresh_from_db()
    assert (asked.words, asked.settled_by) == ("", society.mo)
    assert "Somebody asks" not in client.get("/pieces-that-wait/").content.decode()
    client.force_login(society.ada)
    assert "Somebody asks for a name" in client.get("/my/notices/").content.decode()


def test_the_owner_is_told_when_a_moderator_removes_a_name(client, society):
    piece = accepted(society, society.old)
    client.force_login(society.mo)
    client.post(f"/examples/{piece.code}/names/", {"names": "27-114-06"})
    client.force_login(society.ada)

    assert "A name was removed" in client.get("/my/notices/").content.decode()
    assert not Notice.objects.filter(name_note__isnull=False).exclude(member=society.ada).exists()


def test_a_member_who_left_is_told_nothing(client, society):
    gone = make_member("Gil")
    piece = accepted(society, society.old, owner=gone)
    gone.is_active = False
    gone.save()
    client.force_login(society.mo)
    client.post(f"/examples/{piece.code}/names/", {"names": "27-114-06"})

    assert not Notice.objects.filter(member=gone).exists()


def test_where_it_stands_tells_near_spellings_that_are_not_included(client, society):
    piece = accepted(society, society.old)
    told = "Quillfeather; the Quillfeathers' coat, QUILL-FEATHER's, Quilfeather, Quillfeather’s; Ann and the quilt"
    Example.objects.filter(pk=piece.pk).update(provenance=told)
    HiddenName.objects.create(example=piece, by=society.ada, name=f"Ann {NAME}")
    client.force_login(society.ada)

    looked = client.post(f"/examples/{piece.code}/names/", {"names": NAME, "act": "look"})
    shown = unescape(words_of(looked.content.decode()))

    assert "the record of the piece: 1 text" in shown
    assert "names kept for the moderators: 1 text" in shown
    assert "Nearly so, and not included: “Quillfeathers'”, “QUILL-FEATHER's”, “Quilfeather”." in shown


@pytest.mark.parametrize("word", ["Brandts", "Brand", "Brant", "Bramdt", "BRAN-DT", "Brandt's", "brandtes"])
def test_a_word_that_is_nearly_a_name_is_near(word):
    assert is_near(bare(word), {"brandt"})


@pytest.mark.parametrize("word", ["branch", "Hallin", "bran", "brandished", "grand"])
def test_another_word_is_not(word):
    assert not is_near(bare(word), {"brandt"})
