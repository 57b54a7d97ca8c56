"""The page that says what a version is mistaken for."""

import re
from uuid import uuid4

from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.actions import (
    accept_example,
    add_attribution,
    attribute_anew,
    save_example,
    start_example,
    submit_example,
)
from catalogue.member_examples.models import Label
from catalogue.reference.models import IssueVersion, ReferenceState
from catalogue.reference.snapshots import forget_everything, keep_for_state, type_facts
from identification.mistakes.apart import told_apart
from tests.catalogue.member_examples.pieces import accepted, make_society
from tests.making import make_type, make_version


def text_of(client, code: str) -> str:
    response = client.get(f"/mistaken-for/{code}/")
    assert response.status_code == 200
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", response.content.decode()))


def parts(text: str) -> tuple[str, str]:
    """What is said of a look from outside, and of every question."""
    outside, _, all_questions = text.partition("After every question worth asking")
    return outside, all_questions


def test_a_reproduction_passes_from_outside_and_is_found_by_handling(client, demo):
    outside, all_questions = parts(text_of(client, "SMK-61"))

    assert re.search(r"4\d of 100: Reproduction of Pattern 61", outside)
    assert "by handling or opening it: strain points" in outside
    assert re.search(r"Rightly named: 9\d of 100", all_questions)


def test_a_changeover_smock_is_taken_for_the_one_before_it(client, demo):
    assert re.search(r"1\d of 100: Smock, fell, Pattern 74, Ling print", parts(text_of(client, "SMK-76T"))[1])


def test_what_only_the_label_tells_leads_to_the_comparison(client, demo):
    page = client.get("/mistaken-for/COA-85R/").content.decode()

    assert "/compare/?v=COA-85R&amp;v=COA-85" in page
    assert "by the label only" in page


def test_a_garment_that_must_stay_closed_is_judged_from_outside_only(client, demo):
    text = text_of(client, "HOO-60")

    assert "By a look from outside" in text
    assert "After every question" not in text


def test_what_passes_for_another_garment_is_tried_among_its_versions(client, demo):
    text = text_of(client, "VES-80")

    assert "takes it for a working blouse" in text
    assert "Asked only what both garments have" in text


def test_of_what_nobody_has_seen_it_is_said_that_it_is_never_named(client, demo):
    text = text_of(client, "VES-66G")

    assert "No member has seen a piece" in text
    assert "Rightly named: 0 of 100" in text


def test_each_version_it_is_mistaken_for_has_the_check_to_make_with_the_place_and_both_answers_drawn(client, demo):
    page = client.get("/mistaken-for/SMK-61/").content.decode()
    rows = re.findall(r"<li><strong>\d+ (?:of 100|pieces?):.*?(?=<li><strong>\d|</ul>\s*(?:<h|<p|$))", page, re.S)

    assert rows
    for row in rows:
        assert "<strong>Check: " in row
        assert '<svg class="flat"' in row
        assert 'class="spot"' in row
        shown = re.findall(r'<strong class="code">([\w-]+)</strong>', row)
        assert shown[0] == "SMK-61"
        assert len(shown) == 2
        assert row.count('<svg class="part"') >= 1


def test_the_check_rests_on_no_label_where_the_garment_itself_tells_and_needs_no_opening_of_what_stays_closed(demo):
    smocks, hoods = type_facts("SMK"), type_facts("HOO")

    check = told_apart(smocks, smocks.versions["SMK-76"], smocks, "SMK-61")["check"]
    assert (check["feature"].group, check["weak"]) != ("label", True)
    assert [one["code"] for one in check["shown"]] == ["SMK-76", "SMK-61"]
    for one in hoods.versions.values():
        for other in hoods.versions:
            check = other != one.code and told_apart(hoods, one, hoods, other)["check"]
            assert not check or not check["feature"].needs_handling


def sections(text: str) -> tuple[str, str, str]:
    """What sellers said, what members held at first, and what is predicted."""
    _, _, rest = text.partition("Offered as ")
    offered, _, rest = rest.partition(" Attributed anew by members Of ")
    anew, _, predicted = rest.partition(" Predicted, not counted")
    return offered.rpartition("Offered as")[2], anew, predicted


def test_sellers_words_and_members_first_ones_are_counted_apart_from_what_is_predicted(client, demo_pieces):
    """The demo's files: E025 is kept as BLO-CV and was offered as BLO-68W; E144 and E275, kept as BLO-71, were BLO-57
    to their owners, E137 was BLO-86 and E146 BLO-CV."""
    on_its_page = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", client.get("/issue-versions/BLO-71/").content.decode()))
    assert "Mistaken for: 4 of 32 first held to be BLO-57, BLO-86, BLO-CV. All three counts" in on_its_page
    offered, _, _ = sections(text_of(client, "BLO-CV"))
    assert re.search(r"1 was offered as another: 1 piece: .* BLO-68W .*Told apart .*Seen on E025", offered)
    assert re.search(r"Others, offered as it 1 piece: .* BLO-CV",
                     sections(text_of(client, "BLO-68W"))[0])  # fmt: skip

    _, anew, predicted = sections(text_of(client, "BLO-71"))
    assert "4 were first held to be another: 2 pieces: Blouse, working, Pattern 57 BLO-57" in anew
    assert "Seen on E144 , E275" in anew
    assert anew.index("BLO-57") < anew.index("E137") < anew.index("E146")
    assert "E144" not in predicted


def test_what_the_society_moved_and_brought_back_is_nobodys_mistake_nor_is_a_version_that_was_retired(client, db):
    society = make_society()
    merged = make_version(society.smock, "SMK-70")
    example = accepted(society, society.new)
    for believed, held_as in ((society.new, merged), (merged, society.new)):
        attribute_anew(example=example, moderator=society.mo, reason="merged", held_as=held_as, believed=believed)
    moved = sections(text_of(client, "SMK-76"))[1]
    for version in (merged, society.new):
        add_attribution(example=example, member=example.owner, version=version, grounds="Its cuff.")
    ReferenceState.mark_changed()
    mistaken = sections(text_of(client, "SMK-76"))[1]
    IssueVersion.objects.filter(pk=merged.pk).update(retired_why="taken apart again")
    ReferenceState.mark_changed()

    assert "none was first held to be another" in moved
    assert "1 was first held to be another" in mistaken
    assert "none was first held to be another" in sections(text_of(client, "SMK-76"))[1]


def test_a_piece_counts_once_across_garment_types_and_only_what_was_held_before_counts(client, db):
    society = make_society()
    coat = make_version(make_type("COA", name="Coat"), "COA-54")
    was_coat = {"garment_type": coat.garment_type, "sold_as_version": coat}
    example = start_example(owner=society.ada, fields=was_coat)
    Label.objects.create(example=example, text="SMOCK")
    add_attribution(example=example, member=society.ada, version=coat, grounds="the seller says so")
    example = save_example(
        example=example, member=society.ada, revision=example.revision, fields={"garment_type": society.smock}
    )
    for grounds in ("buttons", "buttons, again"):
        add_attribution(example=example, member=society.ada, version=society.old, grounds=grounds)
    example = submit_example(example=example, member=society.ada, token=uuid4())
    waiting = text_of(client, "SMK-76")
    accept_example(example=example, moderator=society.mo, reason="agrees", sending=1, held_as=society.new)
    add_attribution(example=example, member=society.ben, version=society.old, grounds="I think otherwise")
    offered, anew, _ = sections(text_of(client, "SMK-76"))

    assert "Of no accepted piece is it known" in waiting
    assert (
        "Of 1 accepted piece whose seller named a version, 1 was offered as another: 1 piece: Version COA-54" in offered
    )
    assert "of the garment type coat" in offered
    assert anew.startswith("1 accepted piece, 1 was first held to be another:")
    assert len(re.findall("1 piece: ", anew)) == 2
    assert "Others, first held to be it 1 piece: Version SMK-76" in text_of(client, "COA-54")


def test_a_version_without_a_profile_says_what_would_begin_one(client, db):
    make_version(make_type("PON"), "PON-1")

    assert "No feature of Version PON-1 is recorded yet, so nothing can be predicted" in text_of(client, "PON-1")


def test_a_code_that_does_not_exist_leads_to_those_spelled_nearly_so(client, demo):
    response = client.get("/mistaken-for/SMK-62/")

    assert response.status_code == 404
    assert "SMK-61" in response.content.decode()


def test_it_is_worked_out_once_for_each_state_of_the_reference(client, demo):
    first = client.get("/mistaken-for/LIN-63/").content
    kept = keep_for_state.kept["mistakes", "LIN-63"]
    assert client.get("/mistaken-for/LIN-63/").content == first
    assert keep_for_state.kept["mistakes", "LIN-63"] is kept

    ReferenceState.mark_changed()
    assert client.get("/mistaken-for/LIN-63/").content == first
    assert keep_for_state.kept["mistakes", "LIN-63"][0] == kept[0] + 1


def test_the_page_of_the_version_leads_there_without_working_it_out(client, demo):
    forget_everything()  # another test may have worked it out
    assert 'href="/mistaken-for/OVT-73/"' in client.get("/issue-versions/OVT-73/").content.decode()
    assert ("mistakes", "OVT-73") not in keep_for_state.kept


def test_a_later_visit_asks_the_database_next_to_nothing(client, demo):
    client.get("/mistaken-for/BLO-CV/")

    with CaptureQueriesContext(connection) as asked:
        client.get("/mistaken-for/BLO-CV/")

    assert len(asked) <= 2
