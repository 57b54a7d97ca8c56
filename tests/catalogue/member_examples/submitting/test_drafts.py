"""Every step keeps what it was given, once, and nobody but the owner sees it."""

from uuid import uuid4

import pytest
from django.utils import timezone

from catalogue.member_examples.actions import return_example
from catalogue.member_examples.models import Example, Label, Measurement, Observation
from catalogue.member_examples.submitting.lengths import millimetres
from catalogue.reference.models import FeaturePlace
from tests.catalogue.member_examples.pieces import accepted, draft, in_state, sent
from tests.catalogue.member_examples.submitting.forms_sent import begun, hidden, step
from tests.reading import text, words


def test_the_first_page_begins_a_draft_of_the_person_signed_in(ada, society):
    example = begun(ada, "SMK", sold_as="Ling smock, rare!", seen_on="2024-05~", venue="market")

    assert (example.owner, example.state, example.garment_type) == (society.ada, "draft", society.smock)
    assert (example.sold_as, example.seen_on, example.venue) == ("Ling smock, rare!", "2024-05~", "market")


def test_the_first_form_sent_twice_begins_one_draft(ada):
    form = {"garment_type": "SMK", **hidden(ada, "/my-pieces/new/")}

    first, again = ada.post("/my-pieces/new/", form), ada.post("/my-pieces/new/", form)

    assert first.url == again.url
    assert Example.objects.count() == 1


def test_a_forged_owner_reviewer_or_state_in_the_form_changes_nothing(ada, society):
    example = begun(ada, "SMK", owner=society.ben.pk, state="accepted", held_as=society.old.pk, reviewer=society.mo.pk)
    step(ada, example, "condition", condition="good", owner=society.ben.pk, state="accepted", code="E999")
    example.refresh_from_db()

    assert (example.owner, example.state, example.held_as, example.condition) == (society.ada, "draft", None, "good")


def test_answers_of_a_walk_come_along_with_its_garment_type(ada, society):
    address = "/my-pieces/new/?_type=SMK&closure=zip&cuff=cannot-tell&nonsense=1"
    page = ada.get(address).content.decode()
    ada.post(address, {"garment_type": "SMK", **hidden(ada, address)})

    assert "Your 2 answers on the smock come along" in page
    rows = Observation.objects.order_by("pk").values_list("feature__code", "answer", "state__code")
    assert list(rows) == [("closure", "seen", "zip"), ("cuff", "cannot_tell", None)]


def test_answers_of_a_walk_stay_behind_when_another_type_is_chosen(ada, society):
    address = "/my-pieces/new/?_type=SMK&closure=zip"
    ada.post(address, {"garment_type": "", **hidden(ada, address)})

    assert not Observation.objects.exists()


def test_the_verdict_leads_to_the_form_with_its_answers(client, society):
    page = client.get("/which/SMK/?_stop=yes&closure=zip&closure=buttons").content.decode()

    assert 'href="/my-pieces/new/?_type=SMK&amp;closure=buttons"' in page


def test_each_step_is_kept_and_leads_to_the_next(ada, society):
    example = begun(ada, "SMK")
    went = step(ada, example, "size", size_mark="3 R", unit="in", pit_to_pit="22 1/2", sleeve="61 cm")
    example.refresh_from_db()

    assert went.url == f"/my-pieces/{example.code}/condition/"
    assert example.size_mark == "3 R"
    lengths = Measurement.objects.order_by("pk").values_list("what", "mm", "by__username")
    assert list(lengths) == [("pit_to_pit", 572, "Ada"), ("sleeve", 610, "Ada")]


@pytest.mark.parametrize(
    ("typed", "unit", "mm"),
    [
        ("55", "cm", 550),
        ("55,5", "cm", 555),
        ("22", "in", 559),  # 25.4 mm to the inch exactly: international yard and pound agreement, 1959 (from memory)
        ("21½", "in", 546),
        ("21 1/2 in", "cm", 546),
        ('22"', "cm", 559),
        ("610mm", "cm", 610),
        ("301", "cm", None),
        ("0", "cm", None),
        ("-4", "cm", None),
        ("٥٥", "cm", None),
        ("5 5", "cm", None),
        ("1e3", "cm", None),
    ],
)
def test_lengths_are_read_as_people_write_them(typed, unit, mm):
    assert millimetres(typed, unit) == mm


def test_a_length_that_cannot_be_read_keeps_no_good_one_out(ada):
    example = begun(ada, "SMK")
    answer = step(ada, example, "size", size_mark="3", unit="cm", pit_to_pit="wide", sleeve="61")
    page = answer.content.decode()
    example.refresh_from_db()

    assert answer.status_code == 400
    assert "“wide” is no length" in page
    assert 'value="wide"' in page
    assert example.size_mark == "3"
    assert list(Measurement.objects.values_list("what", "mm")) == [("sleeve", 610)]


def test_a_page_with_a_fault_says_one_thing_about_what_is_saved(ada):
    example = begun(ada, "SMK")
    lengths = step(ada, example, "size", unit="cm", pit_to_pit="wide", sleeve="61").content.decode()
    label = step(ada, example, "labels/new", kind="main", attachment="sewn", origin="original").content.decode()

    assert "but for what is marked below." in lengths
    assert "Not saved yet" not in lengths
    assert "Not saved yet. The draft is as it was: saved " in label
    assert "Only you see it" not in lengths + label


def test_the_script_that_saves_is_told_what_was_kept_beside_a_fault(ada):
    example = begun(ada, "SMK")
    address = f"/my-pieces/{example.code}/garment/"
    form = {"garment_type": "SMK", "sold_as": "A smock", "seen_on": "yesterday", **hidden(ada, address)}
    answer = ada.post(address, form, headers={"X-Saves-Quietly": "yes"})
    example.refresh_from_db()

    assert answer.status_code == 400
    assert answer.json()["saved"].startswith("Saved ")
    assert answer.json()["revision"] == example.revision
    assert (example.sold_as, example.seen_on) == ("A smock", "")


@pytest.mark.parametrize("quietly", [{}, {"X-Saves-Quietly": "yes"}])
@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"grounds": "The print, and the zip."}, "not chosen"),
        ({"version": "SMK-61"}, "without grounds"),
        ({"grounds": "The print, and the zip.", "version": ""}, "not chosen"),
    ],
)
def test_half_of_what_it_is_stays_in_the_draft_until_the_rest_is_said(ada, society, quietly, typed, words):
    example = begun(ada, "SMK")
    address = f"/my-pieces/{example.code}/held/"
    answer = ada.post(address, {**hidden(ada, address), **typed}, headers=quietly)
    page, review = (ada.get(f"/my-pieces/{example.code}/{name}/").content.decode() for name in ("held", "review"))

    assert answer.status_code == (200 if quietly else 302)
    assert not example.attributions.exists()
    assert ("The print, and the zip." in page) == ("grounds" in typed)
    assert (" checked" in page) == bool(typed.get("version"))
    assert words in review

    step(ada, example, "held", grounds="The print, and the zip.", version="SMK-61")
    example.refresh_from_db()
    assert example.attributions.get().version == society.old
    assert (example.begun_held, example.begun_grounds) == ("", "")


def test_what_saves_itself_adds_no_words_to_a_piece_that_moderators_have_read_until_it_is_sent(ada, society):
    example = in_state(society, "returned", closure="zip")
    address = f"/my-pieces/{example.code}/held/"
    for grounds in ("The", "The print", "The print."):
        form = {**hidden(ada, address), "version": "SMK-61", "grounds": grounds}
        assert ada.post(address, form, headers={"X-Saves-Quietly": "yes"}).status_code == 200
    assert not example.attributions.filter(by="member").exists()

    step(ada, example, "names", name_on_label="none")
    step(ada, example, "review")
    said = example.attributions.get(by="member")
    assert (said.version, said.grounds) == (society.old, "The print.")


def test_the_script_that_saves_is_told_when_it_was_and_with_which_revision(ada):
    example = begun(ada, "SMK")
    address = f"/my-pieces/{example.code}/condition/"
    form = {"provenance": "from a market", **hidden(ada, address)}
    said = ada.post(address, form, headers={"X-Saves-Quietly": "yes"}).json()
    example.refresh_from_db()

    assert said["saved"].startswith("Saved ")
    assert said["revision"] == example.revision == 1
    assert example.provenance == "from a market"


def test_a_draft_changed_elsewhere_is_not_overwritten_unasked(ada):
    example = begun(ada, "SMK")
    address = f"/my-pieces/{example.code}/condition/"
    old = hidden(ada, address)
    step(ada, example, "condition", provenance="typed on the phone")

    answer = ada.post(address, {"provenance": "typed at the desk", **old})
    example.refresh_from_db()

    assert answer.status_code == 409
    assert "typed at the desk" in answer.content.decode()
    assert example.provenance == "typed on the phone"


def test_the_same_saving_again_after_a_broken_line_is_no_conflict(ada):
    example = begun(ada, "SMK")
    address = f"/my-pieces/{example.code}/condition/"
    form = {"provenance": "from a market", **hidden(ada, address)}

    assert [ada.post(address, form).status_code for _ in range(2)] == [302, 302]
    example.refresh_from_db()
    assert example.revision == 1


def test_a_label_sent_twice_is_one_label_and_another_is_another(ada):
    example = begun(ada, "SMK")
    form = {"kind": "main", "place": "neck", "text": "SMOCK\n27-114-06", "attachment": "sewn", "origin": "original"}
    for said in (form["text"], form["text"], "3 R"):
        step(ada, example, "labels/new", **(form | {"text": said}))

    assert list(Label.objects.values_list("text", "bare")) == [("SMOCK\n27-114-06", "SMOCK2711406"), ("3 R", "3R")]


def test_a_label_of_which_nothing_is_left_is_a_trace(ada):
    example = begun(ada, "SMK")
    nothing = step(ada, example, "labels/new", kind="main", attachment="not_known", origin="not_known")
    trace = step(ada, example, "labels/new", kind="main", attachment="not_known", origin="trace")

    assert (nothing.status_code, trace.status_code) == (400, 302)


def test_a_label_is_changed_and_taken_out(ada):
    example = begun(ada, "SMK")
    form = {"kind": "main", "attachment": "sewn", "origin": "original"}
    step(ada, example, "labels/new", text="SMOK", **form)
    label = Label.objects.get()
    step(ada, example, f"labels/{label.pk}", text="SMOCK", **form)
    assert Label.objects.get().text == "SMOCK"

    ada.post(f"/my-pieces/{example.code}/labels/{label.pk}/drop/")
    again = ada.post(f"/my-pieces/{example.code}/labels/{label.pk}/drop/")

    assert not Label.objects.exists()
    assert again.status_code == 302


def test_an_alteration_names_its_place_and_what_it_takes_the_meaning_from(ada):
    example = begun(ada, "SMK")
    fields = {"part": "cuffs", "kind": "replaced", "by": "wearer", "where": "sleeve_left:cuff", "features": ["cuff"]}
    step(ada, example, "alterations/new", **fields)
    row = example.alterations.get()

    assert (row.part, row.view, row.region, [f.code for f in row.features.all()]) == (
        "cuffs", "sleeve_left", "cuff", ["cuff"],
    )  # fmt: skip


@pytest.mark.parametrize("side", ["left", "right"])
def test_what_is_looked_for_at_the_altered_place_says_nothing_any_more_unless_ticked_otherwise(ada, society, side):
    FeaturePlace.objects.create(feature=society.cuff, view="sleeve_left", region="cuff")
    example = begun(ada, "SMK")
    fields = {"part": "cuffs", "kind": "replaced", "by": "wearer", "where": f"sleeve_{side}:cuff"}
    step(ada, example, "alterations/new", **fields)
    row = example.alterations.get()
    assert [feature.code for feature in row.features.all()] == ["cuff"]

    page = text(ada, f"/my-pieces/{example.code}/alterations/")
    assert f"({side.title()} sleeve" in page
    assert "says nothing any more: feature cuff" in page
    step(ada, example, f"alterations/{row.pk}", **fields)  # nothing ticked, at the same place
    assert not row.features.exists()


def test_what_was_altered_counts_for_nothing_in_the_sites_own_opinion_of_a_draft(ada, society):
    example = draft(society, closure="zip", cuff="tab")
    before = words(text(ada, f"/my-pieces/{example.code}/held/"))
    fields = {"part": "zip", "kind": "replaced", "by": "wearer", "where": "", "features": ["closure"]}
    step(ada, example, "alterations/new", **fields)
    after = words(text(ada, f"/my-pieces/{example.code}/held/"))

    assert "Feature closure: Zip" in before
    assert "Feature closure: Zip" not in after
    assert "Feature cuff: Tab" in after
    assert "closure" not in ada.get(f"/my-pieces/{example.code}/seen/next/").url


def test_one_question_a_page_the_best_one_next_until_none_would_tell_more(ada, society):
    example = begun(ada, "SMK")
    asked = []
    for _ in range(5):
        where = ada.get(f"/my-pieces/{example.code}/seen/next/").url
        if "?go=on" not in where:
            break
        asked.append(where.split("/")[4])
        ada.post(where.split("?")[0], {"answer": "cannot-tell", "go": "on"})

    assert sorted(asked) == ["closure", "cuff"]
    assert where == f"/my-pieces/{example.code}/seen/"


@pytest.mark.parametrize("answer", ["cannot-tell", "part-missing", "altered", "no-such-part", "zip"])
def test_every_kind_of_answer_is_taken(ada, answer):
    example = begun(ada, "SMK")
    step(ada, example, "seen/closure", answer=answer)

    row = Observation.objects.get()
    assert (row.state.code if row.state else row.answer.replace("_", "-")) == answer


def test_in_a_draft_the_latest_answer_stands_alone_and_can_be_taken_back(ada):
    example = begun(ada, "SMK")
    step(ada, example, "seen/closure", answer="buttons")
    step(ada, example, "seen/closure", answer="zip")
    assert [row.state.code for row in Observation.objects.all()] == ["zip"]

    step(ada, example, "seen/closure", back="yes")
    assert not Observation.objects.exists()


def test_once_a_moderator_has_seen_it_every_word_is_kept(ada, society):
    example = in_state(society, "returned", closure="zip")
    step(ada, example, "seen/closure", answer="buttons")
    step(ada, example, "seen/closure", back="yes")

    said = [row.state.code if row.state else row.answer for row in Observation.objects.order_by("pk")]
    assert said == ["zip", "buttons", "cannot_tell"]


@pytest.mark.parametrize("answer", ["nonsense", "", "x" * 5_000])
def test_what_is_no_answer_is_said_so_and_kept_out(ada, answer):
    example = begun(ada, "SMK")
    said = step(ada, example, "seen/closure", answer=answer)

    assert said.status_code == 400
    assert "Choose what you see" in said.content.decode()
    assert not Observation.objects.exists()


def test_own_attribution_and_the_sites_stand_side_by_side(ada, society):
    example = begun(ada, "SMK")
    step(ada, example, "seen/closure", answer="zip")
    step(ada, example, "seen/cuff", answer="tab")
    step(ada, example, "held", version="SMK-61", grounds="The seller says so.")
    page = ada.get(f"/my-pieces/{example.code}/held/").content.decode()

    assert example.attributions.get().version == society.old
    assert "It does not agree with you" in page
    assert "Version SMK-76" in page


def test_after_acceptance_the_owner_adds_and_overwrites_nothing(ada, society):
    example = accepted(society, society.new, closure="zip")
    before = (Observation.objects.count(), example.attributions.count())
    step(ada, example, "seen/closure", answer="buttons")
    step(ada, example, "held", version="_cannot_say", grounds="Looked again in daylight.")
    record = step(ada, example, "condition", provenance="overwritten")
    example.refresh_from_db()

    assert (Observation.objects.count(), example.attributions.count()) == (before[0] + 1, before[1] + 1)
    assert example.provenance == ""
    assert record.url == f"/my-pieces/{example.code}/?stands=yes"
    assert "add an observation instead" in ada.get(record.url).content.decode()


def test_questions_of_a_moderator_stand_above_every_step(ada, society):
    example = sent(society)
    return_example(example=example, moderator=society.mo, reason="Is the zip of metal?", sending=1)

    for name in ("garment", "photographs", "seen", "labels", "size", "condition", "held", "names", "review"):
        page = ada.get(f"/my-pieces/{example.code}/{name}/").content.decode()
        assert "Is the zip of metal?" in page, name
        assert "Mo asks" in page, name


def test_an_old_draft_is_named_as_such_and_never_deleted(ada, society):
    example = draft(society)
    Example.objects.filter(pk=example.pk).update(changed_at=timezone.now() - timezone.timedelta(days=200))
    page = ada.get("/my-pieces/").content.decode()

    assert "Not touched since" in page
    assert "kept until you delete it" in page
    assert Example.objects.filter(pk=example.pk).exists()


def test_a_draft_is_deleted_after_a_question_and_a_sent_piece_is_not(ada, society):
    gone, stays = draft(society), sent(society)
    assert ada.get(f"/my-pieces/{gone.code}/delete/").status_code == 200
    assert Example.objects.filter(pk=gone.pk).exists()

    ada.post(f"/my-pieces/{gone.code}/delete/")
    unasked = ada.get(f"/my-pieces/{stays.code}/delete/").content.decode()
    assert "This is no draft any more" in unasked
    assert "Delete it</button>" not in unasked
    refused = ada.post(f"/my-pieces/{stays.code}/delete/")

    assert list(Example.objects.all()) == [stays]
    assert refused.status_code == 409


@pytest.mark.parametrize("garment_type", ["NONE", "'; drop table", "x" * 3_000])
def test_a_garment_type_that_is_not_there_begins_nothing(ada, garment_type):
    answer = ada.post("/my-pieces/new/", {"garment_type": garment_type, "token": uuid4()})

    assert answer.status_code == 400
    assert not Example.objects.exists()


def test_a_name_of_300_signs_with_marks_that_turn_its_direction_is_refused_in_words_and_kept(ada):
    typed = "\u202egnimoc" + "x" * 300
    answer = ada.post("/my-pieces/new/", {"garment_type": "SMK", "sold_as": typed, "token": uuid4()})

    assert answer.status_code == 400
    assert "At most 200 signs fit here" in answer.content.decode()
    assert "x" * 300 in answer.content.decode()


def test_marks_that_turn_the_direction_of_text_are_left_out_and_other_scripts_stay(ada):
    example = begun(ada, "SMK", sold_as="\u202eSmock\u2066 معطف\u200f")

    assert example.sold_as == "Smock معطف"


def test_ten_thousand_fields_are_answered_in_words(ada):
    answer = ada.post("/my-pieces/new/", {f"f{n}": "x" for n in range(10_000)})

    assert answer.status_code == 400
    assert "more fields than any page" in answer.content.decode()


def test_the_page_of_questions_asks_no_more_of_the_database_with_more_answers(
    ada, society, django_assert_max_num_queries
):
    example = begun(ada, "SMK")
    ada.get(f"/my-pieces/{example.code}/seen/")
    step(ada, example, "seen/closure", answer="zip")
    step(ada, example, "seen/cuff", answer="tab")
    ada.get(f"/my-pieces/{example.code}/seen/")

    with django_assert_max_num_queries(12):
        ada.get(f"/my-pieces/{example.code}/seen/")
