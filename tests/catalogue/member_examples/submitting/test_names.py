"""Names of wearers: asked for before sending, masked word by word, gone everywhere when somebody asks."""

import re
from uuid import uuid4

import pytest

from catalogue.member_examples.actions import return_example
from catalogue.member_examples.models import Attribution, ExampleDecision, HiddenName, Observation
from catalogue.member_examples.submitting.names import MASK, masked, names_for, pattern_of
from catalogue.member_examples.words import NameOnLabel
from tests.catalogue.member_examples.pieces import draft, in_state, sent
from tests.catalogue.member_examples.submitting.forms_sent import step
from tests.forms import Sent
from tests.reading import text as text_of

TEXT = "SMOCK, FELL\n27-114-06\nR. Brandt, 1976"


@pytest.mark.parametrize(
    ("text", "words", "after", "names"),
    [
        (TEXT, [3, 4], "SMOCK, FELL\n27-114-06\n[name], 1976", ["R. Brandt"]),
        ("worn by (Ada Brandt).", [2, 3], "worn by ([name]).", ["Ada Brandt"]),
        ("Ada and Ben", [0, 2], "[name] and [name]", ["Ada", "Ben"]),
        ("Ada\nBen", [0, 1], "[name]\n[name]", ["Ada", "Ben"]),
        ("Ada", [7], "Ada", []),
        ("[name] Ada", [0, 1], "[name] [name]", ["Ada"]),
    ],
)
def test_ticked_words_are_masked_and_signs_around_them_stay(text, words, after, names):
    assert masked(text, words) == (after, names)


def test_a_name_is_found_in_any_capitals_and_spacing_and_never_inside_a_word():
    pattern = pattern_of(["R. Brandt"])

    assert pattern.sub(MASK, "r.  BRANDT, R. Brandts") == "[name], R. Brandts"
    assert pattern_of(["", "x"]) is None


def tick(client, example, *words: str, of: str = "label", **more):
    """Tick these words of the label on the page, as a finger would."""
    page = client.get(f"/my-pieces/{example.code}/names/").content.decode()
    boxes = re.findall(r'name="word" value="([^"]+)"><span>([^<]+)</span>', page)
    marks = dict(re.findall(r'name="(mark-[^"]+)" value="([^"]+)"', page))
    chosen = [value for value, word in boxes if word in words and value.startswith(of)]
    return client.post(f"/my-pieces/{example.code}/names/", {"mask": "yes", "word": chosen, **marks, **more})


def test_what_looks_like_a_name_is_ticked_beforehand_and_one_tap_masks_it(ada, society):
    example = draft(society, text="SMOCK FELL\nNAME: A. WREN\nDUNSALLOW 1974")
    page = ada.get(f"/my-pieces/{example.code}/names/").content.decode()
    ticked = re.findall(r'name="word" value="([^"]+)" checked><span>([^<]+)</span>', page)
    marks = dict(re.findall(r'name="(mark-[^"]+)" value="([^"]+)"', page))
    ada.post(f"/my-pieces/{example.code}/names/", {"mask": "yes", "word": [value for value, _ in ticked], **marks})

    assert [word for _, word in ticked] == ["A.", "WREN"]
    assert "What looks like a name is ticked already" in page
    assert example.labels.get().text == "SMOCK FELL\nNAME: [name]\nDUNSALLOW 1974"
    assert "is ticked already" not in ada.get(f"/my-pieces/{example.code}/names/").content.decode()


def test_a_ticked_name_is_masked_wherever_it_stands_in_the_piece(ada, society):
    example = draft(society, text=TEXT)
    step(ada, example, "condition", provenance="From R. BRANDT himself.")
    tick(ada, example, "R.", "Brandt,")
    example.refresh_from_db()
    label = example.labels.get()

    assert label.text == "SMOCK, FELL\n27-114-06\n[name], 1976"
    assert "BRANDT" not in label.bare.upper()
    assert example.provenance == "From [name] himself."  # the same name, though nobody ticked it there
    assert example.name_on_label == "masked"


@pytest.mark.parametrize(("allowed", "kept"), [({}, ""), ({"moderators": "yes"}, "R. Brandt")])
def test_the_plain_name_is_kept_only_where_the_owner_lets_the_moderators_see_it(ada, society, allowed, kept):
    example = draft(society, text=TEXT)
    tick(ada, example, "R.", "Brandt,", **allowed)

    assert HiddenName.objects.get().name == kept
    assert [row.name for row in names_for(example, moderator=True)] == [kept]
    assert [row.name for row in names_for(example, moderator=False)] == [""]


def test_moderators_read_the_plain_name_where_they_decide_and_nobody_reads_it_elsewhere(ada, client, society):
    example = draft(society, text=TEXT)
    tick(ada, example, "R.", "Brandt,", moderators="yes")
    step(ada, example, "review", token=uuid4())
    assert "Brandt" not in text_of(ada, f"/my-pieces/{example.code}/")
    client.force_login(society.mo)

    assert "Its owner lets moderators read it: R. Brandt." in text_of(client, f"/pieces-that-wait/{example.code}/")
    assert "Brandt" not in text_of(client, f"/examples/{example.code}/")


def test_who_is_asked_something_may_answer_in_words(ada, society):
    example = in_state(society, "returned")
    for page in (f"/my-pieces/{example.code}/", f"/my-pieces/{example.code}/size/"):
        assert f'href="/my/notices/{example.code}/"' in ada.get(page).content.decode()


def test_a_name_in_grounds_notes_and_places_is_masked_before_sending_too(ada, society):
    example = draft(society, text="SMOCK")
    step(ada, example, "held", version="SMK-76", grounds="Brandt wore it.")
    step(ada, example, "seen/cuff", answer="tab", note="Brandt sewed it")
    step(ada, example, "size", unit="cm", pit_to_pit="55", sleeve="60", method="by Brandt")
    label = {"kind": "size", "text": "3", "place": "on Brandt's pocket", "attachment": "sewn", "origin": "original"}
    step(ada, example, "labels/new", **label)
    looks = list(Observation.objects.values_list("pk", "answer", "state__code", "made_at"))
    shown = ada.get(f"/my-pieces/{example.code}/names/").content.decode()
    tick(ada, example, "Brandt", of="grounds")

    assert shown.count("How it was measured") == 1
    assert list(Attribution.objects.values_list("grounds", "version__code")) == [("[name] wore it.", "SMK-76")]
    assert Observation.objects.get().note == "[name] sewed it"
    assert list(Observation.objects.values_list("pk", "answer", "state__code", "made_at")) == looks
    assert set(example.measurements.values_list("method", flat=True)) == {"by [name]"}
    assert example.labels.last().place == "on [name]'s pocket"


def test_words_of_a_text_that_was_changed_meanwhile_are_not_masked_blindly(ada, society):
    example = draft(society, text=TEXT)
    label = example.labels.get()
    form = {"mask": "yes", "word": [f"label-{label.pk}:3"], f"mark-label-{label.pk}": "of another text"}
    answer = ada.post(f"/my-pieces/{example.code}/names/", form)

    assert answer.status_code == 400
    assert "changed meanwhile" in answer.content.decode()
    assert example.labels.get().text == TEXT


def test_nothing_is_sent_before_the_question_of_names_is_answered(ada, society):
    example = draft(society)
    refused = ada.post(f"/my-pieces/{example.code}/review/", {"token": uuid4()})
    step(ada, example, "names", name_on_label="none")
    went = ada.post(f"/my-pieces/{example.code}/review/", {"token": uuid4()})
    example.refresh_from_db()

    assert refused.status_code == 409
    assert "whether a wearer" in refused.content.decode()
    assert went.status_code == 302
    assert example.state == "submitted"


@pytest.mark.parametrize("said", ["", "nonsense", "masked"])
def test_saying_that_it_is_masked_where_nothing_is_does_not_do(ada, society, said):
    example = draft(society)
    answer = step(ada, example, "names", name_on_label=said)
    example.refresh_from_db()

    assert answer.status_code == 400
    assert example.name_on_label == "not_looked"


@pytest.mark.parametrize("state", ["draft", "submitted", "returned", "accepted", "declined", "withdrawn"])
def test_on_request_a_name_goes_everywhere_in_any_state_and_a_dated_note_stays(ada, society, state):
    example = in_state(society, state, text=TEXT)
    Observation.objects.create(
        example=example, observer=society.ada, feature=society.cuff, answer="cannot_tell", note="R. Brandt said so"
    )
    Attribution.objects.create(example=example, member=society.ada, version=society.old, grounds="R. Brandt wore it")
    HiddenName.objects.create(example=example, by=society.ada, name="Brandt")
    said = list(Observation.objects.order_by("pk").values_list("pk", "answer", "made_at"))

    ada.post(f"/examples/{example.code}/names/", {"names": "R. Brandt\n"})

    texts = [*example.labels.values_list("text", flat=True), *Observation.objects.values_list("note", flat=True)]
    texts += [*Attribution.objects.values_list("grounds", flat=True)]
    assert "Brandt" not in " ".join(texts)
    assert any(MASK in text for text in texts)
    assert not HiddenName.objects.exclude(name="").exists()
    assert HiddenName.objects.filter(on_request=True).count() == 1
    assert list(Observation.objects.order_by("pk").values_list("pk", "answer", "made_at")) == said
    page = ada.get(f"/my-pieces/{example.code}/").content.decode()
    assert "A name was removed at somebody's request" in page


def test_a_name_in_a_moderators_reason_goes_as_well(ada, society):
    example = sent(society)
    return_example(example=example, moderator=society.mo, reason="Is this R. Brandt's?", sending=1)
    ada.post(f"/examples/{example.code}/names/", {"names": "R. Brandt"})

    decision = ExampleDecision.objects.get()
    assert (decision.reason, decision.moderator) == ("Is this [name]'s?", society.mo)
    assert decision.owner_id == society.ada.pk


@pytest.mark.parametrize("typed", ["", " ", "\n\n", "x"])
def test_a_request_without_a_name_is_answered_in_words(ada, society, typed):
    example = in_state(society, "accepted")
    answer = ada.post(f"/examples/{example.code}/names/", {"names": typed})

    assert answer.status_code == 400
    assert not HiddenName.objects.exists()


def test_a_piece_with_ticked_words_goes_on_without_a_name_only_when_asked_once(ada, society):
    example = draft(society, text="SMOCK FELL\nNAME: A. WREN\nDUNSALLOW 1974")
    step(ada, example, "condition", provenance="It belonged to Sgt Ann Quillfeather.")
    asked = step(ada, example, "names", name_on_label="none")
    example.refresh_from_db()

    page = asked.content.decode()
    assert asked.status_code == 400
    assert "Four words are ticked below: leave them as they are?" in page
    assert 'value="none" checked' in page
    assert example.name_on_label == NameOnLabel.NOT_LOOKED

    again = ada.post(f"/my-pieces/{example.code}/names/", Sent(page).sent | {"name_on_label": "none", "mask": ""})
    example.refresh_from_db()
    assert (again.status_code, example.name_on_label) == (302, NameOnLabel.NONE)


def test_who_asks_for_help_with_a_name_is_asked_nothing(ada, society):
    example = draft(society, text="SMOCK FELL\nNAME: A. WREN")

    assert step(ada, example, "names", name_on_label="to_mask").status_code == 302
