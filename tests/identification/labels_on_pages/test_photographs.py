"""Photographs of labels: what is read is text for a person to correct, and nothing is made up. The reader itself is an
optional extra; without it the page says so and the tests that need it are skipped."""

import resource
import signal
import subprocess
import sys
import time
from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from identification.labels_on_pages import photograph, photograph_child
from identification.labels_on_pages.photograph import can_read_photographs, read_photograph
from identification.labels_on_pages.photograph_lines import lines_of
from tests.drawn_labels import a_cat, drawn_label, encoded, nothing_on_it
from tests.reading import text, words

# Half as much again as the reader was ever seen to hold; DEVELOPERS.md tells of 800 MB.
MOST_RESIDENT_KILOBYTES = 1_200 * 1024
needs_reader = pytest.mark.skipif(not can_read_photographs(), reason="the extra `ocr` is not installed")


def run(x: float, y: float, text: str, score: float = 0.99, height: float = 20, length: float = 100) -> list:
    return [[[x, y], [x + length, y], [x + length, y + height], [x, y + height]], text, score]


def test_runs_on_one_height_are_one_line_from_left_to_right():
    found = [run(300, 12, "1974"), run(10, 10, "DUNSALLOW"), run(10, 60, "27-114-06")]

    assert [line.text for line in lines_of(found)] == ["DUNSALLOW 1974", "27-114-06"]


def test_lines_of_a_label_on_its_side_come_in_the_label_s_own_order():
    """The picture is turned a quarter, so that the first line stands leftmost and is read upwards."""

    def up(x: float, text: str) -> list:
        return [[[x, 100], [x + 20, 100], [x + 20, 400], [x, 400]], text, 0.99]

    assert [line.text for line in lines_of([up(90, "SECOND"), up(20, "FIRST"), up(160, "THIRD")])] == [
        "FIRST", "SECOND", "THIRD",
    ]  # fmt: skip


def test_what_holds_no_letter_or_is_hardly_believed_is_no_line():
    assert lines_of([run(0, 0, "--'"), run(0, 50, "SMOCK", 0.4)]) == []
    assert lines_of([run(0, 0, "\u798f", 0.9), run(0, 50, "I", 0.9)]) == []  # what a cat was taken for
    assert lines_of([]) == []


def test_a_line_is_as_doubtful_as_its_worst_run():
    [line] = lines_of([run(0, 0, "27-114-06", 0.7), run(200, 0, "1974", 0.99)])

    assert line.is_doubtful


def sent(client, data: bytes, **typed) -> str:
    return client.post("/label/", {"photograph": SimpleUploadedFile("label.jpg", data), **typed}).content.decode()


@pytest.mark.django_db
def test_without_the_extra_the_page_says_that_typing_is_the_way(client, monkeypatch):
    monkeypatch.setattr("identification.labels_on_pages.views.can_read_photographs", lambda: False)

    assert "Photographs of labels are not read here: type the text" in words(text(client, "/label/"))
    assert 'type="file"' not in text(client, "/label/")
    answer = words(sent(client, encoded(drawn_label("plain print", 1).picture), text="C/14/61"))
    assert "This site does not read photographs" in answer
    assert "C/14/61" in answer


@needs_reader
@pytest.mark.django_db
def test_a_photograph_comes_back_as_text_below_what_was_typed_and_says_nothing_yet(client):
    drawn = drawn_label("plain print", 3)
    answer = sent(client, encoded(drawn.picture), text="NAME: ....")

    assert drawn.number in answer
    assert answer.index("NAME: ....") < answer.index(drawn.number)
    assert "Compare every letter with the label" in answer
    assert "Versions that this label allows" not in answer


@needs_reader
@pytest.mark.django_db
def test_a_photograph_of_a_cat_reads_as_nothing(client):
    file = BytesIO()
    a_cat().save(file, "JPEG")

    assert "No letters were found in the photograph" in sent(client, file.getvalue())


@needs_reader
@pytest.mark.django_db
@pytest.mark.parametrize("data", [b"", b"no picture at all", b"\x89PNG\r\n\x1a\n" + b"\x00" * 40])
def test_what_is_no_picture_is_refused_in_words_and_what_was_typed_stays(client, data):
    answer = sent(client, data, text="C/14/61")

    assert 'role="alert"' in answer
    assert "What you typed is still below" in answer
    assert "C/14/61" in answer


# ---- the child and its bounds


def in_a_bounded_child(what: str, *, first: str = "") -> subprocess.CompletedProcess:
    """Python that runs `what` within the bounds of the child that reads photographs; `first` stands before them."""
    code = f"from identification.labels_on_pages import photograph_child as child\n{first}\nchild.bound()\n{what}"
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=False)


def test_the_child_gets_no_more_memory_than_it_may_have():
    """Only promised addresses, none of them touched: the test needs no such memory itself."""
    take = "import mmap; mmap.mmap(-1, {}, flags=mmap.MAP_PRIVATE | mmap.MAP_ANONYMOUS); print('taken')"
    refused = in_a_bounded_child(take.format(photograph_child.MOST_ADDRESSES))
    allowed = in_a_bounded_child(take.format(photograph_child.MOST_ADDRESSES // 2))

    assert refused.returncode != 0
    assert "Cannot allocate memory" in refused.stderr
    assert allowed.stdout == "taken\n"


def test_the_child_is_ended_when_its_processor_time_is_used_up():
    begun = time.monotonic()
    done = in_a_bounded_child("while True: pass", first="child.MOST_SECONDS = 1")

    assert done.returncode in (-signal.SIGXCPU, -signal.SIGKILL)
    assert time.monotonic() - begun < 40


def test_the_child_writes_no_file(tmp_path):
    done = in_a_bounded_child(f"import pathlib; pathlib.Path({str(tmp_path / 'kept')!r}).write_text('a picture')")

    assert "File too large" in done.stderr
    assert (tmp_path / "kept").read_bytes() == b""


def uploaded(data: bytes) -> SimpleUploadedFile:
    return SimpleUploadedFile("label.jpg", data)


def test_a_child_that_takes_too_long_is_ended_and_the_next_photograph_finds_the_place_free(monkeypatch):
    monkeypatch.setattr(photograph, "SECONDS", 0.001)
    label = encoded(drawn_label("plain print", 1).picture)

    assert [read_photograph(uploaded(label)).fault for _ in range(2)] == [photograph.TOO_LONG] * 2


def test_who_waits_too_long_for_another_photograph_is_told(monkeypatch):
    monkeypatch.setattr(photograph, "WAIT_SECONDS", 0.01)
    with photograph.place:
        found = read_photograph(uploaded(encoded(drawn_label("plain print", 1).picture)))

    assert found.fault == photograph.BUSY


@pytest.mark.skipif(can_read_photographs(), reason="the extra `ocr` is installed")
def test_a_child_without_its_library_ends_in_words():
    assert read_photograph(uploaded(encoded(a_cat()))).fault == photograph.COULD_NOT


@needs_reader
@pytest.mark.parametrize("picture", [nothing_on_it(), a_cat()], ids=["an empty picture", "a cat"])
def test_of_what_holds_no_letters_none_are_read_within_the_bounds(picture):
    """Time is counted as the processor's: the machine may have other things to do."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    found = read_photograph(uploaded(encoded(picture)))
    after = resource.getrusage(resource.RUSAGE_CHILDREN)

    assert (found.text, found.fault) == ("", photograph.NO_LETTERS)
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    assert used < photograph_child.MOST_SECONDS / 2
    assert after.ru_maxrss < MOST_RESIDENT_KILOBYTES


@needs_reader
@pytest.mark.parametrize("size", [(1, 1), (1600, 1), (1600, 1600)])
def test_pictures_of_one_colour_and_of_any_shape_read_as_nothing(size):
    found = read_photograph(uploaded(encoded(nothing_on_it().resize(size))))

    assert found.text == ""
    assert found.fault
