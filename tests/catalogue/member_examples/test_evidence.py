"""Accepted pieces are evidence at once, and nobody's piece bears witness for itself."""

import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.actions import Look, add_observation, attribute_anew, withdraw_example
from catalogue.member_examples.comparing import Beside, compared
from catalogue.member_examples.evidence import Said, agreed_state
from catalogue.member_examples.models import Alteration, Example, Photograph
from catalogue.member_examples.pictures import picture_of
from catalogue.member_examples.queries import evidence_of
from catalogue.member_examples.words import Shot
from catalogue.reference.models import FeaturePlace, FeatureState, Maker, ReferenceState
from catalogue.reference.snapshots import type_facts
from identification import engine
from identification.profiles_from_catalogue import pack_of_type
from identification.walk_through.packs import pack_for
from tests.catalogue.member_examples.pieces import accepted, in_state, make_society
from tests.making import make_feature, record
from tests.reading import data, text, words


def seen(observer: str, state: str) -> Said:
    return Said(observer, "seen", state)


def test_people_who_see_the_same_agree_and_of_each_the_last_look_counts():
    assert agreed_state([seen("Ada", "zip")]) == "zip"
    assert agreed_state([seen("Ada", "zip"), seen("Ben", "buttons"), seen("Ada", "buttons")]) == "buttons"
    assert agreed_state([seen("Ada", "zip"), seen("Ben", "zip"), seen("Cy", "buttons")]) == "zip"


def test_as_many_for_one_state_as_for_another_is_no_agreement():
    assert agreed_state([seen("Ada", "zip"), seen("Ben", "buttons")]) == ""
    assert agreed_state([]) == ""


def test_cannot_tell_counts_for_nothing_and_a_changed_part_for_no_version():
    assert agreed_state([seen("Ada", "zip"), Said("Ben", "cannot_tell"), Said("Cy", "cannot_tell")]) == "zip"
    assert agreed_state([Said("Ben", "cannot_tell")]) == ""
    assert agreed_state([seen("Ada", "zip"), Said("Ben", "altered")]) == ""
    assert agreed_state([seen("Ada", "none"), Said("Ben", "part_missing")]) == ""


@pytest.mark.parametrize(
    ("said", "recorded", "altered", "beside"),
    [
        ([seen("Ada", "zip")], ["zip"], False, Beside.AGREES),
        ([seen("Ada", "zip")], ["buttons", "zip"], False, Beside.AGREES),
        ([seen("Ada", "zip")], ["buttons"], False, Beside.DISAGREES),
        ([seen("Ada", "zip")], [], False, Beside.NOT_RECORDED),
        ([seen("Ada", "zip"), seen("Ben", "buttons")], ["zip"], False, Beside.DISPUTED),
        ([seen("Ada", "zip")], ["buttons"], True, Beside.ALTERED),
        ([Said("Ada", "altered")], ["buttons"], False, Beside.ALTERED),
        ([Said("Ada", "part_missing")], ["buttons"], False, Beside.GONE),
        ([Said("Ada", "cannot_tell")], ["buttons"], False, Beside.SAYS_NOTHING),
        ([Said("Ada", "no_such_part")], [], False, Beside.SAYS_NOTHING),
    ],
)
def test_what_was_seen_beside_the_record(said, recorded, altered, beside):
    assert compared(said, recorded, altered=altered).beside == beside


@pytest.fixture
def society(db):
    return make_society()


def counts(version: str, feature: str) -> dict[str, int]:
    shown = evidence_of("SMK").of(version, feature)
    return {state: len(codes) for state, codes in shown.by_state.items()}


def pack():
    return pack_for(type_facts("SMK"), engine.Context(), ReferenceState.current_number())


def chance(version: str, **answers: str) -> float:
    made = pack()
    belief = made.weigh({feature: engine.States((state,)) for feature, state in answers.items()})
    return float(belief.posterior[made.version_codes.index(version)])


def test_only_accepted_pieces_count(society):
    for state in ("draft", "submitted", "returned", "declined", "withdrawn"):
        in_state(society, state, closure="zip")
    assert counts("SMK-61", "closure") == {}

    accepted(society, society.old, closure="zip")
    assert counts("SMK-61", "closure") == {"zip": 1}


def test_accepting_withdrawing_and_attributing_anew_change_the_counts_at_once(society):
    first = accepted(society, society.old, closure="buttons", cuff="tab")
    assert counts("SMK-61", "cuff") == {"tab": 1}
    second = accepted(society, society.old, owner=society.ben, cuff="tab")
    assert counts("SMK-61", "cuff") == {"tab": 2}

    withdraw_example(example=second, member=society.ben)
    assert counts("SMK-61", "cuff") == {"tab": 1}
    attribute_anew(example=first, moderator=society.mia, reason="x", held_as=society.new, believed=society.old)
    assert (counts("SMK-61", "cuff"), counts("SMK-76", "cuff")) == ({}, {"tab": 1})


def test_an_accepted_piece_moves_the_packs_probabilities_and_a_withdrawn_one_moves_them_back(society):
    before = chance("SMK-61", cuff="tab")
    piece = accepted(society, society.old, cuff="tab")
    after = chance("SMK-61", cuff="tab")
    assert after > before

    withdraw_example(example=piece, member=society.ada)
    assert chance("SMK-61", cuff="tab") == before


def test_the_counted_share_is_the_dirichlet_mean_of_the_record_and_the_pieces(society):
    """Good 1965 (from memory): (n_s + a q_s) / (n + a), here a = 1 for each of 3 states and the record says band."""
    for owner in (society.ada, society.ben, society.mia):
        accepted(society, society.old, owner=owner, cuff="tab")

    made = pack()
    row = made.version_codes.index("SMK-61")
    issued = (0 + 3 * 1.0) / (3 + 3), (3 + 3 * 0.0) / (3 + 3), 0.0
    base = made.base_issued[list(made.place).index("cuff")]
    expected = [0.98 * share + 0.02 * part for share, part in zip(issued, base, strict=True)]
    assert made.doubted[list(made.place).index("cuff")][:, row] == pytest.approx(expected)


def test_a_look_by_another_member_at_an_accepted_piece_counts_at_once(society):
    piece = accepted(society, society.old, cuff="tab")
    add_observation(example=piece, member=society.ben, look=Look(feature=society.cuff, state="band"))
    assert counts("SMK-61", "cuff") == {}

    add_observation(example=piece, member=society.mo, look=Look(feature=society.cuff, state="band"))
    assert counts("SMK-61", "cuff") == {"band": 1}


def test_an_altered_feature_is_no_evidence(society):
    piece = accepted(society, society.old, cuff="none", closure="buttons")
    altered = Alteration.objects.create(example=piece, kind="cut_off", part="sleeves")
    altered.features.add(society.cuff)
    ReferenceState.mark_changed()

    assert (counts("SMK-61", "cuff"), counts("SMK-61", "closure")) == ({}, {"buttons": 1})


def test_a_piece_is_judged_without_its_own_witness(society):
    piece = accepted(society, society.old, cuff="tab")
    facts, evidence = type_facts("SMK"), evidence_of("SMK")
    alone = pack_of_type(facts)
    without = pack_of_type(facts, None, evidence, without=piece.code)
    with_it = pack_of_type(facts, None, evidence)
    answers = {"cuff": engine.States(("tab",))}

    assert without.weigh(answers).posterior == pytest.approx(alone.weigh(answers).posterior)
    assert with_it.weigh(answers).posterior[0] > without.weigh(answers).posterior[0]


def test_states_limited_to_other_makers_are_not_brought_back_by_counts(society):
    made = record(society.old, {society.closure: "buttons", society.cuff: ("band", "tab")})
    limited = made.cells.get(state__code="tab")
    limited.makers.add(Maker.objects.create(code="GAR", name="Garradine"))
    other = Maker.objects.create(code="DUN", name="Dunsallow")
    for _ in range(5):
        accepted(society, society.old, cuff="tab")
    facts, evidence = type_facts("SMK"), evidence_of("SMK")
    at_dun = pack_of_type(facts, engine.Context(maker=other.code), evidence)
    row, column = at_dun.version_codes.index("SMK-61"), list(at_dun.place).index("cuff")

    assert at_dun.doubted[column][1, row] == pytest.approx(0.02 * at_dun.base_issued[column][1])


def test_a_version_page_says_on_how_many_pieces_each_state_is_seen_and_leads_to_them(client, society):
    first = accepted(society, society.old, cuff="band", closure="buttons")
    second = accepted(society, society.old, owner=society.ben, cuff="band")
    third = accepted(society, society.old, owner=society.mia, cuff="tab")
    page = text(client, "/issue-versions/SMK-61/")

    assert "Seen on 2 of 3 examples; otherwise tab on 1" in words(page)
    assert "Seen on 1 of 1 example" in words(page)
    gallery = text(client, "/examples/?version=SMK-61&shows=cuff%3Aband")
    assert "/examples/?version=SMK-61&amp;shows=cuff%3Aband" in client.get("/issue-versions/SMK-61/").content.decode()
    shown = [piece.code for piece in (first, second, third) if f"/examples/{piece.code}/" in gallery]
    assert shown == [first.code, second.code]


def test_the_rows_of_a_version_page_follow_each_piece_and_each_record(client, society):
    accepted(society, society.old, cuff="band")
    assert "Seen on 1 of 1 example" in words(text(client, "/issue-versions/SMK-61/"))

    accepted(society, society.old, owner=society.ben, cuff="tab")
    page = words(text(client, "/issue-versions/SMK-61/"))
    assert "Seen on 1 of 2 examples; otherwise tab on 1" in page

    cuff = FeatureState.objects.get(feature__code="cuff", code="tab").feature
    record(society.old, {cuff: "tab"})
    page = words(text(client, "/issue-versions/SMK-61/"))
    assert "Seen on 1 of 2 examples; otherwise band on 1" in page


def test_a_state_seen_but_not_recorded_is_named_and_not_taken_for_the_record(client, society):
    pocket = make_feature("pocket", ("left", "none"), types=[society.smock])
    ReferenceState.mark_changed()
    piece = accepted(society, society.old)
    add_observation(example=piece, member=society.ada, look=Look(feature=pocket, state="left"))
    page = words(text(client, "/issue-versions/SMK-61/"))

    assert "Seen on examples, not in the record Feature pocket: left on 1 of 1" in page


def test_a_question_leads_to_pieces_that_show_each_answer_and_a_verdict_to_the_nearest(client, society):
    near = accepted(society, society.new, closure="zip", cuff="tab")
    far = accepted(society, society.new, owner=society.ben, closure="buttons", cuff="tab")
    question = text(client, "/which/SMK/?_ask=closure")
    verdict = words(text(client, "/which/SMK/?closure=zip&cuff=tab&_stop=yes"))

    assert "/examples/?type=SMK&amp;shows=closure%3Azip" in client.get("/which/SMK/?_ask=closure").content.decode()
    assert "Zip 1 piece" in words(question)
    assert f"Most alike: {near.code} agrees in 2 of 2 {far.code} agrees in 1 of 2" in verdict


def test_a_verdict_shows_the_fronts_of_the_nearest_pieces_but_none_that_is_hidden(client, society):
    near = accepted(society, society.new, closure="zip", cuff="tab")
    far = accepted(society, society.new, owner=society.ben, closure="buttons", cuff="tab")
    shown = photographed(near, Shot.FRONT)
    others = [photographed(near, Shot.BACK), photographed(far, Shot.FRONT, hidden=True)]
    verdict = client.get("/which/SMK/?closure=zip&cuff=tab&_stop=yes").content.decode()

    assert picture_of(shown).small in verdict
    assert not [one for one in others if picture_of(one).small in verdict]


def photographed(piece, view: str, **fields) -> Photograph:
    place = piece.photographs.count()
    files = [{"name": f"{piece.code}-{place}.webp", "longer": 320, "width": 320, "height": 240}]
    digest = f"{piece.pk:032x}{place:032x}"
    row = Photograph.objects.create(
        example=piece, view=view, position=place, files=files, width=320, height=240, sha256=digest, **fields
    )
    ReferenceState.mark_changed()
    return row


def test_an_answer_opens_to_photographs_of_it_that_everybody_may_see(client, society):
    FeaturePlace.objects.create(feature=society.cuff, view="sleeve_left", region="cuff")
    piece = accepted(society, society.old, cuff="band")
    whole, close = photographed(piece, "front"), photographed(piece, "cuff")
    withheld = photographed(accepted(society, society.old, owner=society.ben, cuff="tab"), "cuff", hidden=True)
    waiting = photographed(in_state(society, "submitted", cuff="tab"), "cuff")
    page = text(client, "/which/SMK/?_ask=cuff")
    [image] = re.findall(r"<img[^>]*examples/photographs[^>]*>", page)

    assert f'src="/examples/photographs/{close.pk}-320.webp"' in image
    assert all(part in image for part in ('loading="lazy"', 'width="320"', 'height="240"', f'alt="{piece.code}: '))
    assert f'<a href="/examples/{piece.code}/">{image}</a>' in page
    assert not any(f"photographs/{row.pk}-" in page for row in (whole, withheld, waiting))


def test_an_answer_opens_to_at_most_three_photographs_however_many_there_are(client, society):
    FeaturePlace.objects.create(feature=society.cuff, view="sleeve_left", region="cuff")
    asked = []
    for many in (1, 5):
        for state in ("band", "tab"):
            while Example.objects.filter(observations__state__code=state).count() < many:
                photographed(accepted(society, society.old, cuff=state), "cuff")
        client.get("/which/SMK/?_ask=cuff")
        with CaptureQueriesContext(connection) as found:
            page = text(client, "/which/SMK/?_ask=cuff")
        asked.append(len(found))
        assert page.count('src="/examples/photographs/') == 2 * min(many, 3)

    assert asked[0] == asked[1]


def test_the_walk_as_data_counts_the_pieces_too(client, society):
    before = data(client, "/which/SMK.json?cuff=tab")
    accepted(society, society.old, cuff="tab")

    assert data(client, "/which/SMK.json?cuff=tab") != before
