"""The shortest checks on the pages of versions and comparisons."""

import re
from itertools import combinations

import pytest

from catalogue.reference.separation import separation
from catalogue.reference.snapshots import all_types, type_facts, type_of_version
from identification import engine
from identification.profiles_from_catalogue import engine_feature, pack_of_type
from identification.telling_apart.shortest_checks import checks_between, checks_of_version
from tests.identification.test_checks import by_milp
from tests.making import make_feature, make_type, make_version
from tests.reading import text, words

pytestmark = pytest.mark.django_db


def said(client, address: str) -> str:
    return words(text(client, address))


def of_version(code: str) -> dict:
    facts = type_of_version(code)
    return checks_of_version(facts, facts.versions[code], number=0)


def test_a_versions_page_names_the_checks_and_their_order(client, demo):
    page = said(client, "/issue-versions/SMK-76/")

    assert "Two checks tell it from all others, in this order:" in page
    assert page.index("Two checks tell it") < page.index("Each of them, most alike first")


def test_the_pairs_that_nothing_separates_are_named_apart(client, demo):
    page = said(client, "/issue-versions/BLO-57/")

    assert "tell it from 8 of 9 others" in page
    assert "Nothing on record separates it from BLO-64G." in page


def test_checks_that_lean_on_the_label_say_so_and_what_is_left_without_it(client, demo):
    page = said(client, "/issue-versions/COA-85R/")

    assert "labels get lost and swapped" in page
    assert "Without the label and without what is often got wrong" in page
    assert "COA-85 untold" in page


def test_a_part_that_is_often_replaced_is_said_to_be_and_never_decides_alone(client, demo):
    alone = "Nothing else on record surely tells SMK-74L and SMK-76T apart. Do not decide on a part that is often"
    two = said(client, "/compare/?v=SMK-74L&v=SMK-76T")
    more = said(client, "/compare/?v=SMK-74L&v=SMK-76T&v=SMK-61")
    page = said(client, "/issue-versions/SMK-76T/")

    assert "; often replaced. Check stitching beside the tape: a second row of needle holes" in two
    assert alone in two
    assert alone in more
    assert "Nothing else on record surely tells it from SMK-74L. Do not decide on a part that is often" in page
    assert "often replaced" not in said(client, "/compare/?v=COA-85&v=COA-85R")


def test_a_comparison_names_the_checks_that_separate_every_two(client, demo):
    three = said(client, "/compare/?v=SMK-76&v=SMK-CC&v=SMK-74L")
    two = said(client, "/compare/?v=BLO-71&v=BLO-86")
    none = said(client, "/compare/?v=BLO-57&v=BLO-64G")

    assert re.search(r"(One check tells|Two checks tell) every two of them apart", three)
    assert "One check tells the two apart" in two
    assert re.search(r"BLO-71: .*?; BLO-86: ", two)
    assert "Nothing on record separates BLO-57 and BLO-64G." in none
    assert "check tells" not in none


def test_versions_of_different_types_are_told_by_what_their_types_share(client, demo):
    assert "apart" in said(client, "/compare/?v=BLO-71&v=COA-85&v=SMK-76")


def test_a_garment_that_must_stay_closed_is_never_to_be_opened_for_a_check(demo):
    for code in ("HOO-60", "HOO-81"):
        assert not any(row["feature"].needs_handling for row in of_version(code)["checks"])


def test_on_every_demo_version_another_solver_finds_as_few_checks_and_as_easy(demo):
    """scipy.optimize.milp (HiGHS) as reference."""
    for facts in all_types():
        usable = [f for f in facts.features.values() if not (facts.must_stay_closed and f.needs_handling)]
        efforts = {feature.code: engine_feature(feature).sure_effort for feature in usable}
        for version in facts.versions.values():
            apart = {
                (version.code, other.code): [f.code for f in separation(version, other, usable).features]
                for other in facts.versions.values()
                if other.code != version.code
            }
            told = of_version(version.code)
            codes = [row["feature"].code for row in told["checks"]]

            assert told["exact"]
            assert (len(codes), sum(efforts[c] for c in codes)) == pytest.approx(by_milp(apart, efforts)), version.code
            assert len(told["nothing"]) == sum(not features for features in apart.values())


def test_on_every_demo_type_another_solver_separates_every_pair_with_as_few(demo):
    for facts in all_types():
        features = list(facts.features.values())
        efforts = {feature.code: feature.effort for feature in features}
        apart = {
            (a.code, b.code): [f.code for f in separation(a, b, features).features]
            for a, b in combinations(facts.versions.values(), 2)
        }
        found = engine.smallest_checks(apart, efforts)

        assert found.exact
        assert (len(found.features), sum(efforts[c] for c in found.features)) == pytest.approx(by_milp(apart, efforts))


def test_the_book_and_the_engine_mean_the_same_by_separating(demo):
    for facts in all_types():
        pack = pack_of_type(facts)
        for a, b in combinations(facts.versions.values(), 2):
            book = {feature.code for feature in separation(a, b, facts.features.values()).features}
            assert book == set(pack.separating(a.code, b.code)), (a.code, b.code)


def test_a_check_that_takes_a_surer_look_is_preferred_to_one_that_takes_many():
    garment = make_type("T")
    shaky = make_feature("shaky", types=[garment], effort=1.0, error=0.3)
    sure = make_feature("sure", types=[garment], effort=1.2, error=0.02)
    for code, state in (("A", "yes"), ("B", "no")):
        make_version(garment, code, {shaky: state, sure: state})

    assert [row["name"] for row in of_version("A")["checks"]] == ["Feature sure"]


def test_a_version_alone_in_its_type_or_without_a_record_has_no_checks(client):
    alone, bare = make_type("T1"), make_type("T2")
    make_version(alone, "ALONE", {make_feature("f", types=[alone]): "yes"})
    make_version(bare, "BARE")
    make_version(bare, "OTHER")

    assert "check tells" not in said(client, "/issue-versions/ALONE/")
    assert "Nothing on record separates it from OTHER." in said(client, "/issue-versions/BARE/")


def test_checks_between_four_versions_separate_every_pair(demo):
    facts = type_facts("SMK")
    four = [facts.versions[code] for code in ("SMK-74L", "SMK-76T", "SMK-76", "SMK-CC")]
    told = checks_between([facts] * 4, four, number=0)
    codes = {row["feature"].code for row in told["checks"]}

    for a, b in combinations(four, 2):
        assert codes & {feature.code for feature in separation(a, b, facts.features.values()).features}
