"""Writing the features of a proposal by pictures: the record drawn as it is written, states and places chosen."""

import gzip
import re

import pytest

from catalogue.accounts.models import Member
from catalogue.reference.models import Feature, FeatureState, IssueVersion
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import begin_change
from tests.forms import Sent

pytestmark = pytest.mark.django_db
LARGEST = 60_000


@pytest.fixture
def plover(demo, client):
    """An author of the demo society, signed in."""
    found = Member.objects.get(username="Plover")
    client.force_login(found)
    return found


@pytest.fixture
def page(plover) -> str:
    """The address of the features of a draft that changes nothing yet: its version has a convertible collar."""
    draft = begin_change(by=plover, version=IssueVersion.objects.get(code="BLO-71"))
    return f"/proposals/{draft.pk}/edit/profile/"


def state(feature: str, code: str) -> int:
    return FeatureState.objects.get(feature__code=feature, code=code).pk


def tap(feature: str, value) -> dict[str, str]:
    """What the pictures of a feature send."""
    return {f"f{Feature.objects.get(code=feature).pk}": str(value)}


def marked(shown: str) -> set[str]:
    """The parts that a drawing marks as changed."""
    return set(re.findall(r'<g data-part="([^"]*)"[^>]*class="[^"]*changed', shown))


def test_every_state_can_be_chosen_by_its_picture_and_the_record_is_drawn_beside(client, page):
    shown = client.get(page).content.decode()

    chosen = re.search(
        rf'<input type="radio" name="f\d+" value="{state("collar", "convertible")}" checked>(<svg class="part")?', shown
    )
    assert chosen
    assert chosen[1]
    assert 'data-part="collar:convertible"' in shown
    assert marked(shown) == set()
    assert len(gzip.compress(shown.encode())) < LARGEST


def test_what_is_chosen_is_drawn_and_marked_before_anything_is_saved(client, page):
    form = Sent(client.get(page).content.decode()).sent | tap("collar", state("collar", "none"))
    for button in ("_draw", "_quietly"):
        shown = client.post(page, form | {button: "1"}).content.decode()
        assert marked(shown) == {"collar:none"}
        assert 'data-part="collar:convertible"' not in shown
        assert ("<html" in shown) == (button == "_draw")
    assert Proposal.objects.get(pk=page.split("/")[2]).rows == {}


def test_a_picture_is_always_nothing_is_not_recorded_and_several_leaves_the_words(client, page):
    form = Sent(client.get(page).content.decode()).sent
    number = page.split("/")[2]
    client.post(page, form | tap("collar", state("collar", "none")) | {"_save": "1"})
    row = Proposal.objects.get(pk=number).rows["feature:collar"]
    assert [(cell["state"], cell["how_often"]) for cell in row] == [("none", "always")]

    form = Sent(client.get(page).content.decode()).sent
    client.post(page, form | tap("collar", "") | {"_save": "1"})
    assert Proposal.objects.get(pk=number).rows["feature:collar"] == []

    form = Sent(client.get(page).content.decode()).sent
    often = {
        f"s{state('collar', 'none')}-how_often": "seldom",
        f"s{state('collar', 'convertible')}-how_often": "usually",
    }
    client.post(page, form | tap("collar", "several") | often | {"_save": "1"})
    row = Proposal.objects.get(pk=number).rows["feature:collar"]
    assert {(cell["state"], cell["how_often"]) for cell in row} == {("none", "seldom"), ("convertible", "usually")}
    assert re.search(r'value="several" checked', client.get(page).content.decode())


def test_what_a_state_rests_on_stays_when_its_picture_is_chosen_again(client, page):
    form = Sent(client.get(page).content.decode()).sent
    before = {name: value for name, value in form.items() if name.startswith("s") and value}
    taps = {}
    for feature in Feature.objects.filter(garment_types__code="BLO"):
        states = [s.pk for s in feature.states.all() if form.get(f"s{s.pk}-how_often")]
        if len(states) == 1 and form[f"s{states[0]}-how_often"] == "always":
            taps |= tap(feature.code, states[0])
    assert len(taps) > 20

    shown = client.post(page, form | taps | {"_draw": "1"}).content.decode()

    assert {name: value for name, value in Sent(shown).sent.items() if name.startswith("s") and value} == before
    assert marked(shown) == set()


def test_a_place_brings_what_is_looked_at_there_to_the_top_and_keeps_what_was_typed(client, page):
    form = Sent(client.get(page).content.decode()).sent | tap("cuff", state("cuff", "elastic"))

    shown = client.post(page, form | {"_place": "front:collar", "_here": "1"}).content.decode()

    first = shown.partition('<details class="proposed-group" open>')[2].partition("</details>\n<details class")[0]
    assert first.startswith("<summary>Front: Collar")
    assert shown.count(f'value="{state("collar", "convertible")}"') == 1
    assert re.search(rf'value="{state("cuff", "elastic")}" checked', shown)
    assert 'class="spot"' in shown
    assert 'href="#at-front-collar"' in shown
    assert 'id="at-front-collar"' in shown


@pytest.mark.parametrize("place", ["front", "nowhere:collar", "front:collar:x"])
def test_a_place_that_there_is_not_is_passed_over(client, page, place):
    form = Sent(client.get(page).content.decode()).sent
    answer = client.post(page, form | {"_place": place, "_here": "1"} | {"f99999999": "x", "f1": "none such"})

    assert answer.status_code == 200
    assert 'class="spot"' not in answer.content.decode()


def test_who_only_cites_is_shown_no_pictures_to_choose(client, demo):
    turnstone = Member.objects.get(username="Turnstone")
    client.force_login(turnstone)
    draft = begin_change(by=turnstone, version=IssueVersion.objects.get(code="BLO-71"))
    shown = client.get(f"/proposals/{draft.pk}/edit/profile/").content.decode()

    assert "_draw" not in shown
    assert 'name="f' not in shown
