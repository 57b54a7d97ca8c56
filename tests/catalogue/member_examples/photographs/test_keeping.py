"""Where the sizes lie: all of them or none, under names that tell nothing."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import FileSystemStorage
from django.db import IntegrityError
from django.test import override_settings
from django.urls import Resolver404, resolve

from catalogue.member_examples.photographs.keeping import NotKept, discard, file_name, keep, kept, read

ROOT = Path(__file__).resolve().parents[4]
SIZES = {1600: b"large" * 9000, 800: b"middle" * 900, 320: b"small"}


def files_in(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*") if path.is_file())


def test_all_sizes_are_kept_under_random_names_and_read_back(tmp_path):
    storage = FileSystemStorage(location=tmp_path)

    key, other = keep(SIZES, storage=storage), keep(SIZES, storage=storage)

    assert key != other
    assert re.fullmatch("[0-9a-f]{32}", key)
    assert len(files_in(tmp_path)) == 6
    assert (tmp_path / f"photographs/{key[:2]}/{key[2:4]}/{key}-1600.webp").read_bytes() == SIZES[1600]
    assert {longer: read(key, longer, storage=storage) for longer in SIZES} == SIZES


def test_they_lie_in_the_data_folder_and_no_address_leads_there(settings):
    assert settings.MEDIA_ROOT == settings.DATA_FOLDER / "media"
    assert not settings.STATIC_ROOT.is_relative_to(settings.MEDIA_ROOT)
    key = keep(SIZES)

    assert (settings.MEDIA_ROOT / file_name(key, 320)).read_bytes() == b"small"
    for address in (f"/{file_name(key, 320)}", f"/media/{file_name(key, 320)}", f"/static/{file_name(key, 320)}"):
        with pytest.raises(Resolver404):
            resolve(address)
    discard(key, SIZES)
    assert not (settings.MEDIA_ROOT / file_name(key, 320)).exists()


@pytest.mark.parametrize("most", [0, 3, 6000, 44_000])
def test_a_disk_that_is_full_in_the_middle_leaves_nothing_behind(tmp_path, most):
    """The system itself ends each file after so many bytes, as it ends one on a full disk."""
    code = (
        "import resource, sys\n"
        "from django.conf import settings\n"
        "settings.configure()\n"
        "from django.core.files.storage import FileSystemStorage\n"
        "from catalogue.member_examples.photographs.keeping import NotKept, keep\n"
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({most}, {most}))\n"
        "try:\n"
        f"    keep({dict(reversed(SIZES.items()))!r}, storage=FileSystemStorage(location={str(tmp_path)!r}))\n"
        "except NotKept as problem:\n"
        "    print(type(problem.__cause__).__name__, problem)\n"
    )

    ended = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)

    assert ended.stdout.strip() == (
        "OSError The picture could not be kept: the site's disk is full or cannot be written to. Nothing was lost of "
        "what you sent before; please tell the secretary."
    )
    assert files_in(tmp_path) == []


def test_a_disk_of_64_kilobytes_that_is_really_full_leaves_nothing_behind(tmp_path):
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(tmp_path)], capture_output=True)
    if mounted.returncode:
        pytest.skip("this user cannot mount a small disk")
    try:
        storage = FileSystemStorage(location=tmp_path)
        keep({320: b"x" * 9000}, storage=storage)
        with pytest.raises(NotKept):
            keep({320: b"y" * 9000, 800: b"y" * 90_000}, storage=storage)
        assert [path.stat().st_size for path in files_in(tmp_path)] == [9000]
    finally:
        subprocess.run(["umount", str(tmp_path)], check=True)


def test_a_row_that_cannot_be_written_takes_its_files_with_it(tmp_path):
    storage = FileSystemStorage(location=tmp_path)

    def write_a_row() -> None:
        with kept(SIZES, storage=storage) as key:
            assert len(files_in(tmp_path)) == 3
            raise IntegrityError(key)

    with pytest.raises(IntegrityError):
        write_a_row()
    assert files_in(tmp_path) == []


def test_a_row_that_was_written_keeps_its_files(tmp_path):
    with kept(SIZES, storage=FileSystemStorage(location=tmp_path)):
        pass

    assert len(files_in(tmp_path)) == 3


class OtherNames(FileSystemStorage):
    """A storage that, as Django allows, writes under another name than it was asked to."""

    def get_available_name(self, name, max_length=None):
        return name.replace("-", "_")


def test_a_storage_that_changes_names_is_not_trusted(tmp_path):
    with pytest.raises(NotKept):
        keep(SIZES, storage=OtherNames(location=tmp_path))

    assert files_in(tmp_path) == []


def test_discarding_twice_is_no_fault(tmp_path):
    storage = FileSystemStorage(location=tmp_path)
    key = keep(SIZES, storage=storage)
    storage.save("photographs/another.webp", ContentFile(b"a"))

    discard(key, SIZES, storage=storage)
    discard(key, SIZES, storage=storage)

    assert [path.name for path in files_in(tmp_path)] == ["another.webp"]


def test_a_size_that_is_not_there_is_said_to_be_missing(tmp_path):
    with pytest.raises(FileNotFoundError), override_settings(MEDIA_ROOT=tmp_path):
        read("0" * 32, 320)
