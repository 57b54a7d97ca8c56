"""Photographs of a draft: what is asked for, what arrives, what is refused, order, words, undo, blur."""

import re
from io import BytesIO

import pytest
from django.core.files.storage import default_storage
from PIL import Image

from catalogue.member_examples.models import HiddenName, Photograph
from catalogue.member_examples.submitting.wanted import standard_shots
from tests.catalogue.member_examples.pieces import draft
from tests.catalogue.member_examples.submitting.forms_sent import begun, picture, send_pictures, step, upload

COLOURS = ["olive", "navy", "maroon", "teal", "grey", "tan"]


def pictures(number: int) -> list:
    return [upload(f"p{n}.jpg", picture("olive", (64 + n, 48))) for n in range(number)]


def stored(photograph: Photograph) -> dict[int, Image.Image]:
    return {size["longer"]: Image.open(BytesIO(default_storage.open(size["name"]).read())) for size in photograph.files}


def told(answer) -> str:
    """The page's words, without its markup."""
    return " ".join(re.sub(r"<[^>]+>", " ", answer.content.decode()).split())


def test_several_pictures_arrive_at_once_in_three_sizes_without_where_they_were_taken(ada):
    example = begun(ada, "SMK")
    send_pictures(ada, example, *(upload(f"{c}.jpg", picture(c)) for c in COLOURS[:3]), view="front")

    assert [p.view for p in example.photographs.all()] == ["front"] * 3
    for photograph in example.photographs.all():
        assert sorted(stored(photograph)) == [320, 800, 1600]
        assert not any(image.getexif() for image in stored(photograph).values())


def test_a_refused_file_is_named_with_the_reason_and_the_others_are_kept(ada):
    example = begun(ada, "SMK")
    bad = [upload("empty.jpg", b""), upload("drawing.jpg", b'<svg xmlns="http://www.w3.org/2000/svg"/>')]
    answer = send_pictures(ada, example, upload("good.jpg"), *bad, upload("also.jpg", picture("navy")))

    assert answer.status_code == 400
    assert "2 pictures arrived and are kept" in told(answer)
    assert "drawing.jpg” is an SVG drawing" in told(answer)
    assert "empty.jpg” is empty" in told(answer)
    assert example.photographs.count() == 2


def test_an_upload_cut_off_on_the_way_leaves_nothing_behind(ada):
    example = begun(ada, "SMK")
    cut = picture("olive", (2_000, 1_500))
    answer = send_pictures(ada, example, upload("cut.jpg", cut[: len(cut) // 3]))

    assert answer.status_code == 400
    assert "cut.jpg”" in told(answer)
    assert not Photograph.with_taken_out.exists()


def test_a_form_without_any_file_says_what_to_do(ada):
    example = begun(ada, "SMK")
    answer = send_pictures(ada, example)

    assert answer.status_code == 400
    assert "No picture arrived" in told(answer)


def test_a_name_of_300_signs_with_marks_of_direction_stays_readable(ada):
    example = begun(ada, "SMK")
    answer = send_pictures(ada, example, upload("\u202egpj." + "x" * 300 + ".jpg", b"no picture"))

    assert answer.status_code == 400
    assert "\u202e" not in answer.content.decode()


class FullDisk:
    """What a storage does on a disk without room."""

    def save(self, *args, **kwargs):
        raise OSError(28, "No space left on device")


def test_a_full_disk_is_said_in_words_and_loses_nothing(ada, monkeypatch):
    example = begun(ada, "SMK")
    send_pictures(ada, example, upload("first.jpg"))
    monkeypatch.setattr(default_storage, "save", FullDisk().save)
    answer = send_pictures(ada, example, upload("second.jpg", picture("navy")))

    assert answer.status_code == 400
    assert "second.jpg”" in told(answer)
    assert "disk is full" in told(answer)
    assert example.photographs.count() == 1


def test_the_same_picture_again_by_a_reload_stands_once(ada):
    example = begun(ada, "SMK")
    for _ in range(2):
        send_pictures(ada, example, upload())

    assert example.photographs.count() == 1


def test_a_picture_that_is_chosen_twice_is_said_to_be_there_and_where(ada):
    example = begun(ada, "SMK")
    red, green = (picture(colour) for colour in COLOURS[:2])
    send_pictures(ada, example, upload("red.jpg", red), upload("green.jpg", green))
    again = send_pictures(ada, example, upload("again.jpg", green))
    assert again.status_code == 302
    assert "“again.jpg”: this picture is already here, shown as number 2." in told(ada.get(again["Location"]))

    twice = ada.post(
        f"/my-pieces/{example.code}/photographs/",
        {"photographs": [upload("new.jpg", picture(COLOURS[2])), upload("copy.jpg", picture(COLOURS[2]))]},
        headers={"X-Saves-Quietly": "yes"},
    )
    assert twice.json()["refused"] == ["“copy.jpg”: this picture is already here, shown as number 3."]
    assert example.photographs.count() == 3

    with_a_bad_one = send_pictures(ada, example, upload("r.jpg", red), upload("bad.jpg", b"none"))
    assert with_a_bad_one.status_code == 400
    assert "“r.jpg”: this picture is already here, shown as number 1." in told(with_a_bad_one)
    assert "arrived and" not in told(with_a_bad_one)


def test_at_most_thirty_a_piece_and_a_hundred_at_once_are_answered_in_words(ada):
    example = begun(ada, "SMK")
    answer = send_pictures(ada, example, *pictures(100))

    assert answer.status_code == 400
    assert "30 pictures arrived" in told(answer)
    assert "and 67 more were not taken: a piece has at most 30 photographs" in told(answer)
    assert example.photographs.count() == 30


def test_more_files_than_the_site_reads_at_all_are_answered_in_words(ada):
    example = begun(ada, "SMK")
    answer = send_pictures(ada, example, *(upload(f"{n}.jpg", b"x") for n in range(201)))

    assert answer.status_code == 400
    assert "More than 200 files at once" in told(answer)


def test_the_script_that_uploads_hears_of_each_refusal(ada):
    example = begun(ada, "SMK")
    answer = ada.post(
        f"/my-pieces/{example.code}/photographs/",
        {"photographs": upload("empty.jpg", b"")},
        headers={"X-Saves-Quietly": "yes"},
    )

    assert answer.status_code == 200
    assert answer.json()["refused"][0].startswith("“empty.jpg” is empty")


def test_words_and_licence_begin_with_those_of_the_members_last_picture(ada):
    example = begun(ada, "SMK")
    send_pictures(ada, example, upload())
    first = example.photographs.get()
    assert (first.credit, first.licence) == ("Ada", "")

    step(
        ada,
        example,
        f"photographs/{first.pk}",
        view="back",
        caption="Back",
        credit="A. of the fells",
        licence="CC0 1.0",
    )
    send_pictures(ada, example, upload("b.jpg", picture("navy")))
    first.refresh_from_db()
    last = example.photographs.last()

    assert (first.view, first.caption) == ("back", "Back")
    assert (last.credit, last.licence) == ("A. of the fells", "CC0 1.0")


def test_pictures_are_moved_taken_out_and_put_back(ada):
    example = begun(ada, "SMK")
    send_pictures(ada, example, *(upload(f"{c}.jpg", picture(c)) for c in COLOURS[:3]))
    one, two, three = example.photographs.values_list("pk", flat=True)

    def act(number, what):
        return ada.post(f"/my-pieces/{example.code}/photographs/{number}/change/", {"act": what})

    act(three, "forward")
    assert list(example.photographs.values_list("pk", flat=True)) == [one, three, two]
    for _ in range(2):
        act(one, "out")
    assert list(example.photographs.values_list("pk", flat=True)) == [three, two]
    assert "Put it back" in ada.get(f"/my-pieces/{example.code}/photographs/").content.decode()
    act(one, "back_in")
    assert example.photographs.count() == 3


def test_what_was_taken_out_goes_for_good_after_a_day_files_and_all(ada, society):
    from django.utils import timezone

    from catalogue.member_examples.submitting.pictures import clear_taken_out, take_out

    example = begun(ada, "SMK")
    send_pictures(ada, example, upload())
    photograph = example.photographs.get()
    names = [size["name"] for size in photograph.files]
    take_out(example=example, member=society.ada, photograph=photograph)
    clear_taken_out(example)
    assert all(default_storage.exists(name) for name in names)

    Photograph.with_taken_out.update(taken_out_at=timezone.now() - timezone.timedelta(days=2))
    from tests.catalogue.member_examples.submitting.forms_sent import hidden

    hidden(ada, f"/my-pieces/{example.code}/photographs/")
    assert not Photograph.with_taken_out.exists()


@pytest.mark.django_db(transaction=True)
def test_a_deleted_draft_leaves_no_file_behind(client):
    from tests.catalogue.member_examples.pieces import make_society

    client.force_login(make_society().ada)
    example = begun(client, "SMK")
    send_pictures(client, example, upload())
    names = [size["name"] for size in example.photographs.get().files]
    client.post(f"/my-pieces/{example.code}/delete/")

    assert not any(default_storage.exists(name) for name in names)


@pytest.mark.parametrize("form", [{"cell": ["2,2", "3,2", "2,3", "3,3"]}, {"area": "0.25,0.25,0.25,0.25"}])
def test_a_place_is_made_unreadable_in_every_stored_size_and_the_old_files_go(ada, form):
    image = Image.new("RGB", (800, 800), "white")
    for x in range(200, 400, 8):
        image.paste("black", (x, 200, x + 4, 400))
    file = BytesIO()
    image.save(file, "PNG")
    example = begun(ada, "SMK")
    send_pictures(ada, example, upload("letters.png", file.getvalue()))
    before = example.photographs.get()
    sharp = {size: contrast(image) for size, image in stored(before).items()}

    ada.post(f"/my-pieces/{example.code}/photographs/{before.pk}/blur/", form)
    after = example.photographs.get()
    example.refresh_from_db()

    assert after.sha256 == before.sha256
    for size, picture_after in stored(after).items():
        assert contrast(picture_after) < sharp[size] / 4, size
    assert not any(default_storage.exists(size["name"]) for size in before.files)
    assert example.name_on_label == "masked"
    assert HiddenName.objects.get().place == "photograph"


def contrast(image: Image.Image) -> int:
    """Between the brightest and the darkest of a row of pixels across the letters."""
    width, height = image.size
    row = image.convert("L").crop((int(width * 0.28), int(height * 0.36), int(width * 0.47), int(height * 0.36) + 1))
    return max(row.tobytes()) - min(row.tobytes())


@pytest.mark.parametrize("form", [{}, {"cell": ["9,9", "x", "-1,0"]}, {"area": "0,0,nan,1"}, {"area": "2,2,1,1"}])
def test_an_area_that_is_none_changes_nothing(ada, form):
    example = begun(ada, "SMK")
    send_pictures(ada, example, upload())
    before = example.photographs.get()
    answer = ada.post(f"/my-pieces/{example.code}/photographs/{before.pk}/blur/", form)

    assert answer.status_code == 400
    assert example.photographs.get().files == before.files


def test_three_are_asked_for_first_and_the_detail_follows_the_type_and_what_it_is_held_to_be(ada, society):
    society.closure.places.create(view="front", region="centre_front")
    society.cuff.places.create(view="sleeve_left", region="cuff")
    from catalogue.reference.models import ReferenceState

    ReferenceState.mark_changed()
    example = begun(ada, "SMK")
    page = ada.get(f"/my-pieces/{example.code}/photographs/")
    three = page.context["three"]

    assert [one.shot for one in three[:2]] == ["front", "main_label"]
    assert three[2].feature.code in ("closure", "cuff")
    assert page.content.decode().count('<svg class="flat"') == 3
    assert page.context["two"] == []


def test_the_two_views_that_would_tell_most_follow_once_the_three_are_there(client, demo):
    from tests.making import make_member

    client.force_login(make_member())
    example = begun(client, "SMK")
    page = client.get(f"/my-pieces/{example.code}/photographs/")
    for number, one in enumerate(page.context["three"]):
        file = upload(f"{number}.jpg", picture(COLOURS[number]))
        send_pictures(client, example, file, view=one.shot, caption=one.caption)
    page = client.get(f"/my-pieces/{example.code}/photographs/")

    assert all(one.there for one in page.context["three"])
    assert [one.view for one in page.context["two"]] != []
    assert len(page.context["two"]) <= 2
    assert not {"front", "label"} & {one.view for one in page.context["two"]}


def test_the_detail_asked_for_is_not_the_same_for_every_version(client, demo):
    from catalogue.member_examples.submitting.advice import Known, adviser
    from catalogue.reference.models import ReferenceState
    from catalogue.reference.snapshots import type_facts

    number = ReferenceState.current_number()
    facts = type_facts("SMK", number=number)
    details = {v: adviser().best_detail(facts, {}, v, Known(), number) for v in facts.versions}

    assert all(details.values())
    assert len(set(details.values())) > 1


def test_no_label_is_asked_for_of_a_garment_that_must_stay_closed(client, demo):
    from tests.making import make_member

    client.force_login(make_member())
    example = begun(client, "HOO")
    page = client.get(f"/my-pieces/{example.code}/photographs/")

    assert "Do not open, shake or brush it" in page.content.decode()
    assert "main_label" not in [one.shot for one in page.context["three"]]
    assert not {"inside", "label"} & {one.view for one in page.context["three"]}


def test_the_long_list_follows_the_class_of_garment():
    assert {"fly", "leg_end"} <= set(standard_shots("trousers"))
    assert {"top", "sweatband"} <= set(standard_shots("hat"))
    assert "fly" not in standard_shots("jacket")


def test_without_a_type_front_and_label_are_asked_for(ada, society):
    example = begun(ada, "")
    page = ada.get(f"/my-pieces/{example.code}/photographs/")

    assert [one.shot for one in page.context["three"]] == ["front", "main_label"]


def test_a_drawn_demo_piece_of_somebody_elses_is_not_touched(ada, society):
    theirs = draft(society, owner=society.ben)

    assert send_pictures(ada, theirs, upload()).status_code == 404
    assert not Photograph.objects.exists()


def test_whose_pictures_they_are_and_who_may_use_them_is_said_once_for_all_and_stands_on_the_last_page(ada):
    example = begun(ada, "SMK")
    send_pictures(ada, example, *pictures(2))
    address = f"/my-pieces/{example.code}/photographs/"
    review = f"/my-pieces/{example.code}/review/"
    assert "Ada: all rights mine; shown on this site only" in told(ada.get(review))

    assert ada.post(address, {"credit": "A. of the fells", "licence": "CC BY-SA 4.0"}).status_code == 302
    assert set(example.photographs.values_list("credit", "licence")) == {("A. of the fells", "CC BY-SA 4.0")}
    assert "A. of the fells: CC BY-SA 4.0" in told(ada.get(review))

    wrong = ada.post(address, {"credit": "A. of the fells", "licence": "mine"})
    assert wrong.status_code == 400
    assert set(example.photographs.values_list("licence", flat=True)) == {"CC BY-SA 4.0"}
    ada.post(address, {"credit": "", "licence": ""})
    assert set(example.photographs.values_list("credit", "licence")) == {("Ada", "")}
