"""Photographs of labels: what is read is text for a person to correct, and nothing is made up. The reader itself is an
optional extra; without it the page says so and the tests that need it are skipped."""

from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from identification.labels_on_pages.photograph import can_read_photographs
from identification.labels_on_pages.photograph_lines import lines_of
from tests.drawn_labels import a_cat, drawn_label, encoded
from tests.reading import text, words

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
