"""Photographs with a marked spot: given by authors, taken in like members' own, shown where a drawing would stand."""

import gzip
import re
from io import BytesIO

import pytest
from django.core.files.storage import default_storage
from django.db import IntegrityError, transaction
from django.db.models import ProtectedError
from PIL import Image, ImageDraw

from catalogue.member_examples.marked_photographs.demo import load_demo_marked_photograph
from catalogue.member_examples.photographs.keeping import file_name
from catalogue.reference.marked_spots import Spot, close_up
from catalogue.reference.models import Correction, MarkedPhotograph, ReferenceState
from tests.catalogue.member_examples.pieces import make_society
from tests.catalogue.member_examples.submitting.forms_sent import begun, picture, step, upload
from tests.forms import Sent
from tests.making import make_member
from tests.reading import text

pytestmark = pytest.mark.django_db
WORDS = {"shows": "The thread runs <through> two holes", "credit": "Ann", "licence": "CC BY 4.0", "why": "No drawing."}
WALK = "/which/SMK/"
LARGEST_CLOSE_UP = 12_000
QUESTION_BUDGET = 14_000


def spotted(at: tuple[int, int] = (480, 120), size: tuple[int, int] = (640, 480)) -> bytes:
    """An olive picture with a red spot on it."""
    image = Image.new("RGB", size, "olive")
    ImageDraw.Draw(image).ellipse([at[0] - 20, at[1] - 20, at[0] + 20, at[1] + 20], fill="red")
    file = BytesIO()
    image.save(file, "JPEG", quality=95)
    return file.getvalue()


@pytest.fixture
def society(db):
    found = make_society()
    found.ann = make_member("Ann", role="author")
    return found


@pytest.fixture
def ann(client, society):
    client.force_login(society.ann)
    return client


def added(client, data: bytes | None = None, shown: str = "feature=closure&state=zip", **fields) -> MarkedPhotograph:
    sent = WORDS | {"file": upload("spot.jpg", spotted() if data is None else data)} | fields
    answer = client.post(f"/marked-photographs/add/?{shown}", sent)
    assert answer.status_code == 302, answer.content.decode()
    return MarkedPhotograph.objects.get(pk=answer.url.split("/")[2])


def marked(client, row: MarkedPhotograph, **fields):
    """The form of the spot, as a browser without scripts sends it."""
    where = f"/marked-photographs/{row.pk}/mark/"
    sent = Sent(text(client, where)).sent | {"x": "75", "y": "25", "radius": "5", "_mark": "1"} | fields
    return client.post(where, sent)


def files_left() -> list[str]:
    """Every stored picture."""
    found, folders = [], ["photographs"]
    while folders:
        here = folders.pop()
        if default_storage.exists(here):
            inner, files = default_storage.listdir(here)
            folders += [f"{here}/{name}" for name in inner]
            found += files
    return found


def test_a_photograph_stands_in_answers_glossary_and_profile_only_once_its_spot_is_marked(ann, society, client):
    row = added(ann)
    pages = (f"{WALK}?cuff=cannot-tell", "/features/other features/", "/issue-versions/SMK-76/")
    assert not any(".webp" in text(ann, page) for page in pages)

    assert marked(ann, row)["Location"] == f"/marked-photographs/{row.pk}/"

    client.logout()
    row.refresh_from_db()
    for page in pages:
        shown = client.get(page).content.decode()
        [image] = re.findall(r"<img[^>]*>", shown)
        assert f'src="/marked-photographs/{row.close_key}-320.webp"' in image
        assert 'alt="Photograph: The thread runs &lt;through&gt; two holes"' in image
        assert all(part in image for part in ('width="84"', 'height="56"', 'loading="lazy"'))
        assert "data:" not in shown
        assert f"/marked-photographs/{row.pk}/" in shown
    whole = text(client, f"/marked-photographs/{row.pk}/")
    assert "Ann, CC BY 4.0" in whole


def test_it_stands_beside_what_a_member_saw_on_a_piece_of_their_own(ann):
    row = added(ann)
    example = begun(ann, "SMK")
    step(ann, example, "seen/closure", answer="zip")
    assert ".webp" not in text(ann, f"/my-pieces/{example.code}/seen/")

    marked(ann, row)

    row.refresh_from_db()
    for page in ("seen", "seen/closure"):
        assert f'src="/marked-photographs/{row.close_key}-320.webp"' in text(ann, f"/my-pieces/{example.code}/{page}/")


def test_the_close_up_shows_the_marked_spot_and_is_small(ann, client):
    row = added(ann)
    marked(ann, row)
    row.refresh_from_db()
    client.logout()

    answer = client.get(f"/marked-photographs/{row.close_key}-320.webp")
    image = Image.open(BytesIO(answer.content)).convert("RGB")

    assert answer["Content-Type"] == "image/webp"
    assert len(answer.content) < LARGEST_CLOSE_UP
    red, green, blue = image.getpixel((image.width // 2, image.height // 2))
    assert red > 180 > 120 > max(green, blue)
    left = image.getpixel((3, 3))
    assert abs(left[0] - left[1]) < 30  # olive round it
    assert abs(image.width / image.height - 1.5) < 0.03


@pytest.mark.parametrize("spot", [(0, 0, 60), (640, 480, 60), (320, 240, 320), (1, 240, 6.4)])
@pytest.mark.parametrize("size", [(640, 480), (480, 640), (640, 60)])
def test_a_close_up_lies_within_its_picture_wherever_the_spot_is(spot, size):
    left, top, wide, high = close_up(*size, Spot(*spot))

    assert left >= 0
    assert top >= 0
    assert left + wide <= size[0] + 1e-9
    assert top + high <= size[1] + 1e-9
    assert wide > 0
    assert wide / high == pytest.approx(1.5)


def test_what_a_camera_wrote_is_gone_and_a_drawing_renamed_is_refused_in_words(ann):
    row = added(ann, picture())
    kept = Image.open(default_storage.open(file_name(row.key, 1600)))
    assert not kept.getexif()

    sent = WORDS | {"file": upload("x.jpg", b'<svg xmlns="http://www.w3.org/2000/svg"/>'), "shows": "kept as typed"}
    refused = ann.post("/marked-photographs/add/?feature=closure&state=buttons", sent).content.decode()

    assert "is an SVG drawing" in refused
    assert 'value="kept as typed"' in refused
    assert MarkedPhotograph.objects.count() == 1


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"x": "fifty"}, "Write a number from 0 to 100."),
        ({"x": "101"}, "Write a number from 0 to 100."),
        ({"radius": "0"}, "Write a number from 1 to 50."),
        ({"y": "nan"}, "Write a number from 0 to 100."),
        ({"shows": " "}, "Say what is to be seen"),
        ({"credit": "\u202e"}, "Say whose photograph it is"),
        ({"seen": "of another"}, "Somebody put another photograph in its place"),
    ],
)
def test_what_cannot_be_used_is_said_and_nothing_is_lost(ann, fields, said):
    row = added(ann, picture("olive", (64, 48)))

    shown = marked(ann, row, **{"credit": "typed anew"} | fields).content.decode()

    assert said in shown.replace("&#x27;", "'")
    assert "typed anew" in shown or "credit" in fields
    row.refresh_from_db()
    assert not row.is_marked
    assert row.credit == "Ann"


def test_the_ring_is_shown_before_anything_is_saved(ann):
    row = added(ann, picture("olive", (200, 100)))

    shown = marked(ann, row, x="10", y="90", radius="20", _show="1").content.decode()

    assert 'cx="20" cy="90" r="40"' in shown
    assert not MarkedPhotograph.objects.get().is_marked


def test_one_that_is_replaced_or_taken_out_leaves_no_file_and_its_history(ann, django_capture_on_commit_callbacks):
    before = len(files_left())
    row = added(ann, picture("olive", (64, 48)))
    marked(ann, row)
    where = f"/marked-photographs/{row.pk}/mark/"
    assert len(files_left()) == before + 4
    state = ReferenceState.current_number()

    with django_capture_on_commit_callbacks(execute=True):
        again = {
            "seen": row.key,
            "file": upload("n.jpg", picture("navy", (64, 48))),
            "why": "Sharper.",
            "_replace": "1",
        }
        assert ann.post(where, again).status_code == 302
    old = row.key
    row.refresh_from_db()
    assert (row.is_marked, row.key == old, ReferenceState.current_number()) == (False, False, state + 1)
    assert len(files_left()) == before + 3
    assert "another photograph in its place" in ann.post(where, again).content.decode()
    marked(ann, row)
    assert "Say why" in ann.post(where, {"seen": row.key, "why": " ", "_remove": "1"}).content.decode()

    with django_capture_on_commit_callbacks(execute=True):
        assert ann.post(where, {"seen": row.key, "why": "Blurred.", "_remove": "1"}).status_code == 302
    assert not MarkedPhotograph.objects.exists()
    assert len(files_left()) == before
    told = [(one.why, one.member.username) for one in Correction.objects.filter(table="feature").order_by("pk")]
    assert [why for why, _ in told] == ["No drawing.", "", "Sharper.", "", "Blurred."]
    assert {who for _, who in told} == {"Ann"}


def test_only_authors_write_and_see_what_is_not_marked(client, society):
    client.force_login(society.ann)
    row = added(client, picture("olive", (64, 48)))
    own = [f"/marked-photographs/{row.key}-320.webp", f"/marked-photographs/{row.pk}/mark/"]
    writing = ["/marked-photographs/add/?feature=closure", "/marked-photographs/of/closure/"]
    assert [client.get(one).status_code for one in own + writing] == [200] * 4
    assert "not shown yet" in text(client, writing[1])

    client.force_login(society.ada)
    assert [client.get(one).status_code for one in own + writing] == [404, 403, 403, 403]
    assert client.get(f"/marked-photographs/{row.pk}/").status_code == 404
    assert client.post(own[1], {"seen": row.key, "why": "mine", "_remove": "1"}).status_code == 403
    client.logout()
    assert [client.get(one).status_code for one in own + writing] == [404, 302, 302, 302]
    assert MarkedPhotograph.objects.count() == 1


@pytest.mark.parametrize(
    "where",
    [
        "add/?feature=nothing",
        "add/?feature=closure&state=nothing",
        "99/",
        "99/mark/",
        "of/x/y/",
        f"{'a' * 32}-320.webp",
    ],
)
def test_what_is_not_there_is_not_there(ann, where):
    assert ann.get(f"/marked-photographs/{where}").status_code == 404


def test_of_a_feature_the_photograph_stands_beside_the_question_and_a_second_one_is_refused(ann, client):
    row = added(ann, shown="feature=closure", drawn="on")
    marked(ann, row, drawn="on")
    again = ann.post("/marked-photographs/add/?feature=closure", WORDS | {"file": upload()}).content.decode()
    assert "There is a photograph of this already" in again

    client.logout()
    row.refresh_from_db()
    page = text(client, f"{WALK}?cuff=cannot-tell")
    assert f"{row.close_key}-320.webp" in page
    assert "Drawn in place of a photograph" in page
    assert "drawn, not photographed: Ann, CC BY 4.0" in page


def test_the_database_holds_no_photograph_of_nothing_and_no_spot_beside_it(society):
    files = {"key": "0" * 32, "width": 9, "height": 9, "sha256": "0" * 64, "shows": "x", "credit": "y"}
    state = society.closure.states.first()
    faults = [
        {},
        {"feature": society.closure, "state": state},
        {"state": state, "x": 2, "y": 0.5, "radius": 0.1, "close_key": "1" * 32},
        {"state": state, "x": 0.5, "y": 0.5, "radius": 0.1},
        {"state": state, "x": 0.5},
        {"state": state, "shows": ""},
        {"state": state, "key": "../etc"},
    ]
    for fault in faults:
        with pytest.raises(IntegrityError), transaction.atomic():
            MarkedPhotograph.objects.create(**files | fault)
    MarkedPhotograph.objects.create(**files, state=state)


def test_the_demo_society_has_one_that_says_it_is_drawn_and_is_put_in_once(demo, client):
    assert load_demo_marked_photograph()
    assert not load_demo_marked_photograph()

    row = MarkedPhotograph.objects.get()
    page = text(client, f"/marked-photographs/{row.pk}/")
    assert "Drawn, not photographed" in page
    page = text(client, "/features/make/")
    assert f"{row.close_key}-320.webp" in page


def test_a_question_with_a_photograph_stays_within_the_budget_of_a_question(demo, client):
    load_demo_marked_photograph()
    page = client.get("/which/SMK/?_ask=bartack")

    assert "-320.webp" in page.content.decode()
    assert len(gzip.compress(page.content)) < QUESTION_BUDGET


def test_a_state_with_a_photograph_is_not_deleted_under_it(ann, society):
    row = added(ann, picture("olive", (64, 48)))

    with pytest.raises(ProtectedError):
        row.state.delete()
    with pytest.raises(ProtectedError):
        society.closure.delete()
