"""What the society's story hides, and the answer that the site gives: one test for each trap of the demo society.

The pieces are invented; what each of them is stands in tests/data/demo_pieces/answer_key.csv.
"""

import csv
from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest

from catalogue.reference.snapshots import type_facts, type_of_version
from identification import engine
from identification.profiles_from_catalogue import pack_of_type
from tests.reading import data, read_caution, text, words

pytestmark = pytest.mark.django_db
PIECES = Path(__file__).parent / "data" / "demo_pieces"


@cache
def seen_on_pieces() -> dict[str, dict[str, object]]:
    """What the first observer saw on each piece, by feature."""
    pieces: dict[str, dict[str, object]] = defaultdict(dict)
    first: dict[str, str] = {}
    with (PIECES / "observations.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            observer = first.setdefault(row["example"], row.get("observer", ""))
            if row.get("observer", "") == observer and row["state"] != "-":
                unknown = row["state"] == "?"
                pieces[row["example"]][row["feature"]] = (
                    engine.CANNOT_TELL if unknown else engine.States((row["state"],))
                )
    return pieces


def profile(code: str, *without: str) -> dict[str, object]:
    """A perfect piece of a version: the first recorded state of every feature."""
    version = type_of_version(code).versions[code]
    return {f: engine.States((cells[0].state,)) for f, cells in version.cells.items() if f not in without}


def verdict(type_code: str, answers) -> engine.Verdict:
    return engine.verdict(pack_of_type(type_facts(type_code)), answers)


def next_of(client, address: str) -> dict:
    return data(client, address)["next"]


LABEL = ("label_kind", "label_place", "stock_no", "property_mark", "size_system", "treatment_label")


def test_two_blouses_that_nothing_separates_are_named_together_with_the_open_question(client, demo):
    found = verdict("BLO", profile("BLO-57"))

    assert (found.status, set(found.named)) == ("inseparable", {"BLO-57", "BLO-64G"})
    read_caution(client, "BLO")
    address = "/which/BLO/?_stop=yes&" + "&".join(
        f"{code}={answer.states[0]}" for code, answer in profile("BLO-57").items()
    )
    assert "/open-questions/D1/" in text(client, address)
    assert "Nothing on record separates BLO-57 and BLO-64G" in text(client, "/compare/?v=BLO-57&v=BLO-64G")


def test_a_treated_coat_is_told_by_its_label_only_and_the_caution_comes_first(client, demo):
    pack = pack_of_type(type_facts("COA"))

    assert pack.separating("COA-85", "COA-85R") == ("treatment_label",)
    assert "by the label only" in text(client, "/compare/?v=COA-85&v=COA-85R")
    assert "Before you look" in text(client, "/which/COA/")
    assert set(verdict("COA", profile("COA-85R", "treatment_label")).named) >= {"COA-85", "COA-85R"}


def test_a_blouse_of_57_or_71_without_its_label_is_either(demo):
    without_label = {
        feature: answer for feature, answer in profile("BLO-57", *LABEL, "button_material").items()
    } | {"label_kind": engine.PART_MISSING}  # fmt: skip

    found = verdict("BLO", without_label)

    assert {"BLO-57", "BLO-71"} <= set(found.named)
    assert found.status in ("narrowed", "inseparable")


def test_a_metal_zip_alone_never_makes_a_changeover_smock(demo):
    found = verdict("SMK", profile("SMK-76T", *LABEL))

    assert found.status == "narrowed"
    assert {"SMK-74L", "SMK-76T"} <= set(found.named)


def test_the_changeover_smock_stands_with_the_order_that_proves_it(client, demo):
    page = text(client, "/issue-versions/SMK-76T/")

    assert "Depot Order 76/112" in page
    assert "/open-questions/D2/" in page
    assert "settled" in text(client, "/open-questions/D2/").lower()


def test_a_reproduction_without_its_label_is_asked_for_stitches_and_bartacks(demo):
    pack = pack_of_type(type_facts("SMK"))

    closest = type_facts("SMK").versions["SMK-RP"].cells["stitch_density"]
    seen = profile("SMK-RP", *LABEL, "stitch_density", "bartack") | {"label_kind": engine.PART_MISSING}

    assert [cell.label for cell in closest] == ["5 or more"]
    assert "bartack" in pack.separating("SMK-61", "SMK-RP")
    assert verdict("SMK", seen).kind == "cannot say"
    assert {"stitch_density", "bartack"} & set(verdict("SMK", seen).next_checks)


def test_the_copied_coat_is_betrayed_by_its_seams(demo):
    pack = pack_of_type(type_facts("COA"))

    assert "main_seam" in pack.separating("COA-02S", "COA-CC")
    assert verdict("COA", profile("COA-CC")).kind == "copy"


@pytest.mark.parametrize(("words", "code"), [("warm-station vest", "BLO-CV"), ("WARM-STATION SHORTS", "TRO-CV")])
def test_a_garment_that_was_never_issued_leads_to_the_conversion(client, demo, words, code):
    page = text(client, f"/search/?q={words}")

    assert f"/issue-versions/{code}/" in page
    assert "no such garment was ever issued" in page


def test_a_pile_liner_does_not_fit_a_coat_with_studs(client, demo):
    coat, liner = type_facts("COA").versions["COA-85"], type_facts("LIN").versions["LIN-67"]

    assert [cell.state for cell in coat.cells["liner_fixing"]] == ["studs"]
    assert [cell.state for cell in liner.cells["liner_fixing"]] == ["loops"]
    fits = words(text(client, "/issue-versions/LIN-67/"))
    assert "Fits Coat, strand, cold cut, Pattern 63 asserted Coat, strand, Pattern 67" in fits


def test_the_asbestos_hood_is_only_looked_at(client, demo):
    facts = type_facts("HOO")
    assert "Do not open, shake, brush, wash or cut" in text(client, "/which/HOO/")
    read_caution(client, "HOO")
    for code, feature in facts.features.items():
        page = text(client, f"/which/HOO/?_ask={code}")
        assert ("needs handling or opening: not asked of this garment type" in page) == feature.needs_handling


@pytest.mark.parametrize("code", ["HOO-60", "HOO-81"])
def test_a_hood_is_told_from_outside_and_nothing_in_the_walk_needs_handling(client, demo, code):
    facts = type_facts("HOO")
    address = "/which/HOO.json?_accepted=yes"
    while (told := next_of(client, address))["page"] == "question":
        asked = facts.features[told["feature"]]
        assert not asked.needs_handling
        address += f"&{asked.code}={facts.versions[code].cells[asked.code][0].state}"

    assert (told["status"], told["named"], told["probable_kind"]) == ("narrowed", [code], "issued")
    read_caution(client, "HOO")
    assert f"Probably {facts.versions[code].name}" in text(client, address.replace(".json", "/"))


def test_a_label_cut_out_is_not_the_same_as_never_having_had_one(demo):
    pack = pack_of_type(type_facts("SMK"))

    without = pack.weigh({})
    missing = pack.weigh({"label_kind": engine.PART_MISSING})
    none = pack.weigh({"label_kind": engine.States(("none",))})

    copy = pack.version_codes.index("SMK-CC")
    assert abs(missing.posterior[copy] - without.posterior[copy]) < abs(none.posterior[copy] - without.posterior[copy])


def test_the_vest_that_nobody_has_seen_is_never_an_answer(client, demo):
    found = verdict("VES", profile("VES-66G"))

    assert "VES-66G" not in found.named
    assert "No member has seen a piece" in text(client, "/issue-versions/VES-66G/")


@pytest.mark.parametrize("number", ["27-131-04", "2713104", "27 131 04", "27.131/04"])
def test_a_number_shared_by_two_versions_names_both(client, demo, number):
    page = text(client, f"/search/?q={number}")

    assert "/issue-versions/COA-85/" in page
    assert "/issue-versions/COA-85R/" in page
    assert "a number narrows, it does not decide" in page


def test_a_misprinted_number_offers_the_right_version_and_says_why(client, demo):
    page = text(client, "/search/?q=27-141-10")

    assert "/issue-versions/BLO-86/" in page
    assert "a misprint of 27-114-10" in page


def test_a_copied_bar_number_is_said_to_be_copied(client, demo):
    page = text(client, "/search/?q=27131068")

    assert "/issue-versions/COA-CC/" in page
    assert "the check figure is wrong" in page


def test_two_makers_of_one_blouse_are_no_two_versions(client, demo):
    blouse = type_facts("BLO")

    assert [v for v in blouse.versions if v.startswith("BLO-94")] == ["BLO-94"]
    limits = {cell.state: cell.makers for cell in blouse.versions["BLO-94"].cells["stitch_density"]}
    assert limits == {"s3": ("VSK",), "s4": ("LUM",)}
    assert "only made by VSK" in text(client, "/issue-versions/BLO-94/")


def test_a_known_maker_decides_what_a_limited_state_says(demo):
    facts = type_facts("BLO")
    answers = {"stitch_density": engine.States(("s3",))}
    at = list(facts.versions).index("BLO-94")

    chances = {
        maker: pack_of_type(facts, engine.Context(maker=maker)).weigh(answers).posterior[at]
        for maker in (None, "VSK", "LUM")
    }

    assert chances["LUM"] < chances[None] < chances["VSK"]


def test_colour_alone_never_ends_a_walk(demo):
    pack = pack_of_type(type_facts("BLO"))
    answers = {"colour": engine.States(("drab",))}

    assert isinstance(engine.next_step(pack, answers), engine.Ask)
    assert engine.verdict(pack, answers).status == "open"


@pytest.mark.parametrize("piece", ["E138", "E145"])
def test_slotted_buttons_of_a_repair_do_not_make_a_later_blouse(demo, piece):
    found = verdict("BLO", seen_on_pieces()[piece])

    assert found.leader == "BLO-71"


def test_a_smock_washed_pale_still_leads_to_its_version(client, demo):
    found = verdict("SMK", seen_on_pieces()["E034"])

    assert "SMK-74L" in [code for code, _ in found.short_list]
    assert "look inside a pocket" in text(client, "/which/SMK/?_ask=cloth_pattern")


def test_a_genuine_label_on_a_copy_does_not_make_it_an_issue(demo):
    found = verdict("SMK", seen_on_pieces()["E048"])

    assert found.kind != "issued"


def test_the_copy_with_a_genuine_label_is_told_body_from_label_and_the_thread_settles_it(client, demo):
    """E048: a genuine label of 1979 in white thread on a copy. How it is sewn is asked before the label counts."""
    seen = seen_on_pieces()["E048"]
    answers = "&".join(f"{f}={','.join(one.states)}" for f, one in seen.items() if isinstance(one, engine.States))
    label = "_label_number=27-120-05&_label_year=1979&_label_maker=GAR"
    asked = next_of(client, f"/which/SMK.json?{label}")
    told = data(client, f"/which/SMK.json?{answers}&{label}&_label_sewn=other&_stop=yes")

    assert asked["feature"] == "_label_sewn"
    assert told["next"]["kind"] != "issued"
    assert told["label"]["moved"]["label"].startswith("SMK-7")
    assert told["label"]["moved"]["body"] == "SMK-CC"
    assert "Body of one version, label of another" in text(
        client, f"/which/SMK/?{answers}&{label}&_label_sewn=other&_stop=yes"
    )


def test_a_printed_smock_on_a_hanger_is_a_short_list_with_the_copy_on_it(client, demo):
    """Outside only; cover, zip teeth and elbows cannot be told: both are listed, and what would tell is inside."""
    dull = {"closure_cover", "zip_teeth", "reinforcement"}
    smock = {f: cells[0].state for f, cells in type_facts("SMK").versions["SMK-76"].cells.items()}
    address, asked = "/which/SMK.json?_views=outside", 0
    while (told := next_of(client, address))["page"] == "question":
        code = told["feature"]
        address += f"&{code}={'cannot-tell' if code in dull else smock[code]}"
        asked += 1

    assert asked <= 8
    assert {"SMK-76", "SMK-CC"} <= {code for code, _ in told["short_list"]} | {u["version"] for u in told["unchecked"]}
    assert told["kind"] == "cannot say"
    page = text(client, address.replace(".json", "/"))
    assert "Next: open the garment" in page or "Next: touch or lift it" in page
