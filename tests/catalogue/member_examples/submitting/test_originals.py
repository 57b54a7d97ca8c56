"""Pictures as they were sent in: kept only where the society says so, for their owner, until anything has to go."""

import zipfile
from io import BytesIO
from pathlib import Path
from uuid import uuid4

import pytest
from django.core.files.storage import storages
from django.utils import timezone

from catalogue.accounts.export import export_of
from catalogue.accounts.refusals import CannotDo
from catalogue.member_examples.actions import submit_example
from catalogue.member_examples.models import Photograph
from catalogue.member_examples.photographs.hiding import Area
from catalogue.member_examples.removing_names.actions import remove_on_request
from catalogue.member_examples.submitting.drafting import throw_away
from catalogue.member_examples.submitting.importing.bringing_in import import_examples
from catalogue.member_examples.submitting.own_pieces import exported_files, forget_drafts
from catalogue.member_examples.submitting.pictures import blur, clear_taken_out, take_out
from tests.catalogue.member_examples.pieces import draft, sent
from tests.catalogue.member_examples.submitting.forms_sent import picture, send_pictures, upload

AREA = Area(0.1, 0.1, 0.4, 0.4)
SENT = picture("olive")


@pytest.fixture
def keeping(settings):
    settings.KEEP_ORIGINALS = True


def on_disk() -> list[Path]:
    folder = Path(storages["originals"].location)
    return sorted(path for path in folder.rglob("*") if path.is_file())


def with_picture(ada, society, how=draft) -> tuple:
    piece = draft(society)
    send_pictures(ada, piece, upload(data=SENT), view="front")
    if how is sent:
        submit_example(example=piece, member=society.ada, token=uuid4())
        piece.refresh_from_db()
    return piece, piece.photographs.get()


def test_unless_the_society_says_so_no_picture_is_kept_as_it_was_sent(ada, society):
    before = on_disk()
    piece, row = with_picture(ada, society)
    page = ada.get(f"/my-pieces/{piece.code}/photographs/").content.decode()

    assert (row.original, on_disk()) == ("", before)
    assert "is removed before they are kept." in page


def test_where_it_does_the_file_lies_byte_for_byte_where_only_the_site_reads(keeping, ada, society, settings):
    before = on_disk()
    piece, row = with_picture(ada, society)
    page = ada.get(f"/my-pieces/{piece.code}/photographs/").content.decode()
    [kept] = set(on_disk()) - set(before)

    assert kept.read_bytes() == SENT
    assert kept.stat().st_mode & 0o077 == 0
    assert kept.is_relative_to(settings.DATA_FOLDER / "originals")
    assert not kept.is_relative_to(settings.MEDIA_ROOT)
    assert "keeps each file as you sent it" in page
    for address in (f"/{row.original}", f"/originals/{row.original}", f"/photographs/{row.pk}/original/"):
        assert ada.get(address).status_code == 404


def test_its_owner_finds_it_in_their_data(keeping, ada, society, client):
    piece, _ = with_picture(ada, society)

    found = dict(exported_files(society.ada))
    assert found[f"{piece.code}/01-front-as-sent.jpg"] == SENT
    assert not dict(exported_files(society.ben))


@pytest.mark.parametrize("way", ["thrown away", "taken out", "blurred", "a name removed", "its owner left"])
def test_it_goes_with_whatever_has_to_go(keeping, ada, society, way, django_capture_on_commit_callbacks):
    before = on_disk()
    piece, row = with_picture(ada, society, how=sent if way in ("a name removed", "its owner left") else draft)
    assert len(on_disk()) == len(before) + 1
    with django_capture_on_commit_callbacks(execute=True):
        if way == "thrown away":
            throw_away(example=piece, member=society.ada)
        elif way == "taken out":
            take_out(example=piece, member=society.ada, photograph=row)
            clear_taken_out(piece, before=Photograph.with_taken_out.get().taken_out_at)
        elif way == "blurred":
            blur(example=piece, member=society.ada, photograph=row, areas=[AREA])
        elif way == "a name removed":
            remove_on_request(example=piece, member=society.mo, names=["Brandt"])
        else:
            forget_drafts(society.ada)

    assert on_disk() == before
    assert not Photograph.with_taken_out.exclude(original="").exists()


def test_nobody_leaves_while_it_cannot_be_deleted(keeping, ada, society, monkeypatch):
    """Root may write anywhere, so the storage is made to fail as the system does."""
    with_picture(ada, society, how=sent)
    monkeypatch.setattr(type(storages["originals"]), "delete", refuse_to_delete)

    with pytest.raises(CannotDo, match="cannot be deleted just now"):
        forget_drafts(society.ada)


def refuse_to_delete(storage, name):
    raise PermissionError(name)


def test_a_picture_that_is_refused_leaves_none(keeping, ada, society):
    before = on_disk()
    piece = draft(society)
    send_pictures(ada, piece, upload("bad.jpg", b"<svg/>"))

    assert on_disk() == before


def test_a_collection_brings_its_files_along_as_they_are_and_a_dry_run_none(keeping, society, tmp_path):
    (tmp_path / "pieces.csv").write_text("piece,owner,type\n1,Ada,SMK\n", encoding="utf-8")
    folder = tmp_path / "photographs" / "1"
    folder.mkdir(parents=True)
    (folder / "front.jpg").write_bytes(SENT)
    before = on_disk()

    import_examples(folder=tmp_path, dry_run=True, tell=str)
    assert on_disk() == before
    import_examples(folder=tmp_path, tell=str)
    [kept] = set(on_disk()) - set(before)
    assert kept.read_bytes() == SENT
    assert Photograph.objects.get().original


def test_the_zip_of_ones_data_holds_both(keeping, ada, society):
    piece, _ = with_picture(ada, society)
    with export_of(society.ada, timezone.now()) as file, zipfile.ZipFile(BytesIO(file.read())) as packed:
        names = [name for name in packed.namelist() if piece.code in name]
        assert packed.read(f"pieces/{piece.code}/01-front-as-sent.jpg") == SENT

    assert len(names) == 2
