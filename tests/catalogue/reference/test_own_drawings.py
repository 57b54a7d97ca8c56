"""Drawings that a society brings: shapes are kept, whatever could run or fetch is refused in words."""

import io
import xml.etree.ElementTree as ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from catalogue.figures.composing import Shown, composed, picture
from catalogue.figures.own_shapes import fitted
from catalogue.figures.pen import Box, Pen
from catalogue.reference.models import FeatureState, ReferenceState
from catalogue.reference.own_drawings import MOST_ELEMENTS, DrawingFault, read_drawing
from tests.making import make_feature, make_member
from tests.reading import read_caution

OPEN = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20">'
PLAIN = f'{OPEN}<g transform="translate(2 3)"><path class="o" d="M0 0H30V10Z"/></g><circle cx="5" cy="5" r="2"/></svg>'
HOSTILE = {
    "a script": (f"{OPEN}<script>alert(1)</script></svg>", "“script” is not allowed"),
    "a handler": (f'{OPEN}<path d="M0 0" onclick="alert(1)"/></svg>', "could run or fetch"),
    "a handler on the root": ('<svg viewBox="0 0 1 1" onload="x()"><path d="M0 0"/></svg>', "could run or fetch"),
    "an outside picture": (f'{OPEN}<image href="http://example.org/a.png"/></svg>', "“image” is not allowed"),
    "foreign HTML": (f"{OPEN}<foreignObject><p>a</p></foreignObject></svg>", "“foreignObject” is not allowed"),
    "an endless use": (f'{OPEN}<g id="a"><use href="#a"/></g></svg>', "“use” is not allowed"),
    "an address in a look": (f'{OPEN}<path d="M0 0" fill="url(http://example.org)"/></svg>', "could run or fetch"),
    "an entity": ('<!DOCTYPE svg [<!ENTITY a "b">]><svg viewBox="0 0 1 1"><path d="M0 0"/></svg>', "document type"),
    "a style": (f"{OPEN}<style>*{{}}</style></svg>", "“style” is not allowed"),
    "ten megabytes of path": (OPEN + '<path d="' + "M0 0" * 2_500_000 + '"/></svg>', "larger than"),
    "too many shapes": (OPEN + '<path d="M0 0"/>' * (MOST_ELEMENTS + 1) + "</svg>", "more than 400"),
    "deep groups": (OPEN + "<g>" * 40 + "</g>" * 40 + "</svg>", "nested more than"),
    "no viewBox": ('<svg><path d="M0 0"/></svg>', "viewBox"),
    "nothing drawn": (f"{OPEN}</svg>", "holds no shape"),
    "another language": ("<html><body/></html>", "viewBox"),
    "no markup": ("hello", "no well-formed SVG"),
    "nothing": ("", "no well-formed SVG"),
    "letters in a path": (f'{OPEN}<path d="M0 0 hello"/></svg>', "cannot be read as d"),
    "a number beyond all measure": (f'{OPEN}<path d="M0 0L1e999 4"/></svg>', "“1e999” in d of a path is too large"),
    "a small exponent too many": (f'{OPEN}<path d="M0 0L-2e6 4"/></svg>', "“-2e6” in d of a path is too large"),
    "a place beyond all measure": (f'{OPEN}<polygon points="0,0 1e400,4"/></svg>', "points of a polygon is too large"),
    "a radius beyond all measure": (f'{OPEN}<circle cx="1" cy="1" r="1e99"/></svg>', "r of a circle is too large"),
    "no number": (f'{OPEN}<path d="M0 0LNaN 4"/></svg>', "cannot be read as d"),
    "no number for a radius": (f'{OPEN}<circle cx="1" cy="1" r="Infinity"/></svg>', "cannot be read as r"),
    "an exponent without a number": (f'{OPEN}<path d="M0 0Le5 4"/></svg>', "cannot be read as d"),
    "a number without an end": (f'{OPEN}<path d="M0 0L0.{"3" * 500} 4"/></svg>', "d of a path is too long"),
    "a viewBox beyond all measure": ('<svg viewBox="0 0 1e999 1"><path d="M0 0"/></svg>', "below 100,000"),
    "a viewBox as thin as nothing": ('<svg viewBox="0 0 1e-99 1"><path d="M0 0"/></svg>', "above nothing"),
    "a move beyond all measure": (f'{OPEN}<path d="M0 0" transform="translate(1e999 0)"/></svg>', "a transform is too"),
    "groups that enlarge each other": (
        OPEN + '<g transform="scale(1000)">' * 3 + '<path d="M0 0L1 1"/>' + "</g>" * 3 + "</svg>",
        "beyond measure",
    ),
    "too many points": (f'{OPEN}<path d="M0 0{"L1 2" * 8_000}"/></svg>', "more than 12,000 numbers"),
    "a made-up transform": (f'{OPEN}<path d="M0 0" transform="expression(1)"/></svg>', "as a transform"),
}


@pytest.mark.parametrize("what", HOSTILE)
def test_a_drawing_that_could_do_harm_or_draws_nothing_is_refused_in_words(what):
    text, words = HOSTILE[what]

    with pytest.raises(DrawingFault, match=words.replace("(", r"\(")):
        read_drawing(text)


def test_shapes_groups_and_our_kinds_of_stroke_are_kept_and_all_else_is_left_out():
    text = PLAIN.replace("<circle", '<title>My drawing</title><circle fill="red" id="x" data-note="y"')

    assert read_drawing(text).markup == (
        '<g transform="translate(2 3)"><path d="M0 0H30V10Z" class="o"/></g><circle cx="5" cy="5" r="2"/>'
    )


@pytest.mark.fuzz
@settings(max_examples=400, deadline=None)
@given(st.text(alphabet="<>/=\"' svgpathdrectonclickhref:#&;!0123456789", max_size=200))
def test_whatever_is_read_is_well_formed_and_holds_nothing_but_shapes(text):
    try:
        found = read_drawing(f"{OPEN}{text}<path d='M0 0'/></svg>")
    except DrawingFault:
        return
    names = {element.tag for element in ElementTree.fromstring(f"<svg>{found.markup}</svg>").iter()}
    assert names <= {"svg", "g", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon"}
    assert "href" not in found.markup
    assert " on" not in found.markup


def test_a_society_s_own_drawing_stands_for_ours_in_the_small_picture_and_mirrored_on_the_flat():
    own = Shown("chest_pocket_form", "patch", "always", (("front", "chest_left"),), PLAIN)
    pockets = Shown("chest_pockets", "both", "always", (("front", "chest_left"),))
    pen = Pen()
    composed(pen, "jacket", "front", {"chest_pockets": pockets, "chest_pocket_form": own})

    assert "M0 0H30V10Z" in picture("chest_pocket_form", "patch", PLAIN)
    assert pen.svg.count("M0 0H30V10Z") == 2
    assert "matrix(-" in pen.svg


@pytest.mark.browser
@pytest.mark.parametrize("flipped", [False, True])
def test_what_reaches_out_of_a_drawings_own_frame_hides_nothing_else(browser_page, flipped):
    """A black shape of a hundred times the frame, set into the middle third of a white sheet."""
    drawing = read_drawing('<svg viewBox="10 10 40 40"><path class="k" d="M-999 -999H999V999H-999Z"/></svg>')
    inner = fitted(drawing, Box(100, 100, 100, 100), Pen(), flipped=flipped)
    browser_page.set_content(f'<svg width="300" height="300" fill="#000">{inner}</svg>')
    seen = Image.open(io.BytesIO(browser_page.locator("svg").first.screenshot())).convert("L")

    assert seen.getpixel((150, 150)) < 20
    assert [seen.getpixel(place) > 235 for place in ((90, 150), (210, 150), (150, 90), (150, 210))] == [True] * 4


@pytest.mark.parametrize("what", HOSTILE)
def test_a_stored_drawing_that_is_not_allowed_never_reaches_a_page_and_ours_stands_for_it(what):
    assert picture("chest_pocket_form", "patch", HOSTILE[what][0]) == picture("chest_pocket_form", "patch")


@pytest.mark.django_db
def test_a_page_with_such_a_drawing_still_opens(client, demo):
    FeatureState.objects.filter(feature__code="collar").update(drawing=HOSTILE["a script"][0])
    ReferenceState.mark_changed()

    read_caution(client, "BLO")
    for address in ("/issue-versions/BLO-57/", "/features/collar/", "/which/BLO/?_ask=collar"):
        page = client.get(address)
        assert page.status_code == 200
        assert "<script" not in page.content.decode()


@pytest.mark.django_db
def test_the_back_office_says_what_is_wrong_with_a_drawing_and_keeps_what_was_typed(client):
    feature = make_feature("lace", ("yes",))
    state = feature.states.get()
    client.force_login(make_member("root", is_staff=True, is_superuser=True))
    address = f"/admin/catalogue/feature/{feature.pk}/change/"
    form = client.get(address).context["adminform"].form
    data = {name: form[name].value() if form[name].value() is not None else "" for name in form.fields}
    rows = {"states": 1, "places": 0}
    for prefix, held in rows.items():
        data |= {f"{prefix}-TOTAL_FORMS": held, f"{prefix}-INITIAL_FORMS": held}
    data |= {
        "states-0-id": state.pk,
        "states-0-feature": feature.pk,
        "states-0-code": "yes",
        "states-0-label": "yes",
        "states-0-position": 0,
        "states-0-drawing": f"{OPEN}<script/></svg>",
    }
    data.pop("shown_when", None)

    page = client.post(address, data).content.decode()

    assert "“script” is not allowed" in page
    assert "&lt;script/&gt;" in page
    assert not feature.states.get().drawing
