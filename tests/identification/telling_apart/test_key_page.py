"""The printable key of a garment type, as a reader follows it."""

import gzip
import re
from itertools import combinations

import pytest
from django.utils import timezone

from catalogue.figures.composing import picture
from catalogue.figures.figure import WHOLE, drawn_views
from catalogue.reference.models import ReferenceState
from catalogue.reference.snapshots import all_types, type_facts
from identification import engine
from identification.profiles_from_catalogue import pack_of_type
from identification.telling_apart.key_page import key_context
from tests.making import make_feature, make_type, make_version
from tests.reading import text as text_of
from tests.reading import words

pytestmark = pytest.mark.django_db


def page(client, code: str) -> str:
    return text_of(client, f"/which/{code}/key/")


def context(code: str) -> dict:
    return key_context(type_facts(code), number=ReferenceState.current_number())


def followed(shown: dict, states: dict[str, set[str]], number: int = 1) -> set[str]:
    """Where a piece ends that shows these states: the codes of versions, by every way that is open to it."""
    couplet = shown["couplets"][number - 1]
    feature = couplet["question"]
    ends: set[str] = set()
    for lead in couplet["leads"]:
        if set(lead["words"].split(" or ")) & states[feature] or lead["words"] in states[feature]:
            if lead["to"]:
                ends |= followed(shown, states, lead["to"])
            elif lead["version"]:
                ends.add(lead["version"]["code"])
            else:
                group = next(group for group in shown["groups"] if group["name"] == lead["group"])
                ends |= {row["code"] for row in group["versions"]}
    return ends


def reached(tree, pack: engine.Pack, version: int) -> list[engine.Leaf]:
    """The leaves that a piece of the version reaches when every answer is one that its record names."""
    if isinstance(tree, engine.Leaf):
        return [tree]
    named = pack.recorded[tree.feature][:, version] > 0
    return [
        leaf
        for state, branch in tree.branches
        if state == engine.NO_PART or named[state] or not pack.is_recorded[tree.feature, version]
        for leaf in reached(branch, pack, version)
    ]


def test_the_key_says_that_it_is_the_shortest_and_cannot_forgive_and_where_to_go_instead(client, demo):
    text = page(client, "SMK")

    assert "Shortest possible" in words(text)
    assert "cannot forgive a wrong answer" in words(text)
    assert 'href="/which/SMK/"' in text
    assert "worked out from state 1 of the reference" in words(text)
    assert timezone.now().strftime("%B %Y") in words(text)


def test_every_version_of_which_a_piece_was_seen_stands_in_its_key(client, demo):
    for facts in all_types():
        text = page(client, facts.code)
        seen = [version for version in facts.versions.values() if version.piece_seen]
        assert [version.code for version in seen if version.name not in text] == []


def test_whatever_the_record_of_a_version_allows_leads_to_that_version(demo):
    """A piece that shows only recorded states ends at its version, or at one that nothing tells from it."""
    for facts in all_types():
        pack = pack_of_type(facts)
        tree = engine.printed_key(pack).tree
        for place, version in enumerate(pack.versions):
            if version.piece_seen:
                assert any(place in leaf.versions for leaf in reached(tree, pack, place)), version.code


def test_versions_end_in_one_group_only_if_nothing_tells_them_apart(demo):
    for facts in all_types():
        pack = pack_of_type(facts)
        for group in context(facts.code)["groups"]:
            codes = [row["code"] for row in group["versions"]]
            assert len(codes) > 1
            if not facts.must_stay_closed:
                assert all(not pack.separating(a, b) for a in codes for b in codes if a != b)


def test_a_group_is_named_where_nothing_separates_its_versions(client, demo):
    text = words(page(client, "BLO"))

    assert re.search(r"Group A: .*BLO-57; .*BLO-64G\. Nothing on record tells them apart", text)
    assert text.count("Group A") == 2


def test_versions_that_a_zip_alone_tells_apart_are_not_decided_by_it_alone(client, demo):
    """A smock of 1974 with a replaced metal zip looks like one of the changeover: common practice, no source."""
    zips = next(couplet for couplet in context("SMK")["couplets"] if couplet["feature"] == "zip_teeth")
    assert zips["alone"] == ["Smock, fell, Pattern 74, Ling print and Smock, fell, 1976 changeover"]
    shown = words(page(client, "SMK"))
    assert "Often replaced. Check stitching beside the tape" in shown
    assert (
        "Nothing else on record surely tells apart Smock, fell, Pattern 74, Ling print and Smock, fell, 1976" in shown
    )
    assert "Do not decide on this alone" in shown


def test_whatever_two_versions_a_key_parts_by_what_gets_replaced_or_mistaken_it_names_both(demo):
    """Wherever they part, and however many questions still follow."""
    for facts in all_types():
        shown = context(facts.code)
        named = {names for couplet in shown["couplets"] for names in couplet["alone"]}
        together = [{row["name"] for row in group["versions"]} for group in shown["groups"]]
        pack = pack_of_type(facts)
        for one, other in combinations([row["code"] for row in shown["versions"]], 2):
            apart = [facts.features[code] for code in pack.separating(one, other)]
            firm = [f for f in apart if not f.replaceable and f.error < 0.15]
            both = [facts.versions[code].name for code in (one, other)]
            told = " and ".join(both) in named or " and ".join(reversed(both)) in named
            assert told == (not firm and not any(set(both) <= group for group in together)), (both, apart)


def test_a_couplet_of_parts_that_stay_says_nothing_of_replacing(demo):
    closure = next(couplet for couplet in context("SMK")["couplets"] if couplet["feature"] == "closure_cover")
    assert not closure["replaced"]
    assert closure["alone"] == []


def test_numbers_lead_onwards_and_back(client, demo):
    for facts in all_types():
        shown = context(facts.code)
        targets = {lead["to"] for couplet in shown["couplets"] for lead in couplet["leads"] if lead["to"]}
        assert targets == set(range(2, len(shown["couplets"]) + 1))
        for couplet in shown["couplets"]:
            for earlier in couplet["came_from"]:
                assert earlier < couplet["n"]
                assert couplet["n"] in {lead["to"] for lead in shown["couplets"][earlier - 1]["leads"]}


def test_each_question_shows_where_to_look_and_each_answer_that_the_site_draws_its_part(client, demo):
    """Within the 14 kB of a question page, though it holds every question at once."""
    for facts in all_types():
        response = client.get(f"/which/{facts.code}/key/")
        drawn = re.findall(
            r'<li id="k\d+">.*?</ul>.*?</li>(?=\n<li id="k|\n</ol>)', response.content.decode(), re.DOTALL
        )
        couplets = context(facts.code)["couplets"]
        assert len(drawn) == len(couplets)
        for couplet, markup in zip(couplets, drawn, strict=True):
            feature = facts.features[couplet["feature"]]
            seen = {p.view for p in feature.places if p.region != WHOLE} & set(drawn_views(facts))
            assert markup.count('class="spot"') == bool(seen), (facts.code, feature.code)
            states = [state for lead in couplet["leads"] for state in lead["states"]]
            pictured = [s for s in states if s.photograph or picture(feature.code, s.code, s.drawing)]
            assert markup.count('class="part') == len(pictured), (facts.code, feature.code)
        assert len(gzip.compress(response.content)) <= 14_000


def test_the_flat_of_a_key_marks_both_sides_and_refers_only_to_what_stands_before_it(demo):
    flats = [couplet["flat"] for couplet in context("SMK")["couplets"]]
    elbow = next(c["flat"] for c in context("SMK")["couplets"] if c["feature"] == "reinforcement")
    begun: set[str] = set()

    assert elbow.count("<path", elbow.index('class="spot"')) == 2
    assert any("<use" in flat for flat in flats)
    for flat in flats:
        assert set(re.findall('href="#([^"]+)"', flat)) <= begun
        here = re.findall(' id="([^"]+)"', flat)
        assert not begun & set(here)
        begun |= set(here)


def test_a_caution_comes_before_the_key_and_nothing_is_to_be_opened(client, demo):
    text = words(page(client, "HOO"))

    assert text.index("Do not open, shake, brush, wash or cut") < text.index("Begin at 1")
    assert "Open the garment" not in text
    assert "Touch or lift it" not in text


def test_a_version_of_which_no_piece_was_seen_is_left_out_by_name(client, demo):
    text = words(page(client, "VES"))

    assert "Left out, because no piece has been seen" in text
    assert "VES-66G" in text
    assert "There is only one version of which a piece has been seen" in text


def test_answers_that_lead_to_the_same_stand_together_and_no_such_part_comes_last():
    garment = make_type("T")
    pockets = make_feature("pockets", ("one", "two", "none"), types=[garment], effort=3)
    flap = make_feature("flap", ("square", "round", "point"), types=[garment], parent=pockets)
    flap.shown_when.set(pockets.states.exclude(code="none"))
    make_version(garment, "A", {pockets: "one", flap: ("square", "round")})
    make_version(garment, "B", {pockets: "two", flap: "point"})
    make_version(garment, "C", {pockets: "none"})
    shown = context("T")

    assert [lead["words"] for lead in shown["couplets"][0]["leads"]] == [
        "Square or Round",
        "Point",
        "There is no such part",
    ]
    assert followed(shown, {"flap?": {"Round"}}) == {"A"}
    assert followed(shown, {"flap?": {"There is no such part"}}) == {"C"}


def test_where_nothing_is_recorded_or_nothing_there_the_page_says_so(client):
    bare = make_type("BARE")
    make_type("EMPTY")
    make_version(bare, "A")
    make_version(bare, "B")

    assert "Nothing on record tells the 2 versions apart, so there is no key yet" in words(page(client, "BARE"))
    assert "so there is no key yet" in words(page(client, "EMPTY"))


def test_a_garment_type_that_does_not_exist_gives_near_codes(client, demo):
    response = client.get("/which/SMX/key/")

    assert response.status_code == 404
    assert "/garment-types/SMK/" in response.content.decode()


def test_the_types_page_leads_to_its_key(client, demo):
    assert 'href="/which/SMK/key/"' in client.get("/garment-types/SMK/").content.decode()


def test_every_change_of_the_reference_moves_its_date():
    ReferenceState.mark_changed()
    ReferenceState.objects.update(changed_at=timezone.datetime(2001, 1, 1, tzinfo=timezone.get_current_timezone()))

    ReferenceState.mark_changed()

    assert ReferenceState.objects.get().changed_at.year > 2001
