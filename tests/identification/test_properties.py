"""What must hold for every table and every answer."""

from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from identification.engine import (
    ALTERED,
    CANNOT_TELL,
    PART_MISSING,
    CellState,
    Feature,
    Finish,
    States,
    Version,
    compile_pack,
    expected_questions,
    next_step,
    prior_decibans,
    reasons,
    verdict,
)

few = settings(max_examples=60, deadline=None)


@st.composite
def problems(draw):
    """Features (some of them parts, some details), versions with blanks and variable cells, and answers."""
    number = draw(st.integers(2, 5))
    features: list[Feature] = []
    for place in range(number):
        states = tuple(f"s{i}" for i in range(draw(st.integers(2, 4))))
        is_part = draw(st.booleans())
        parts = [feature for feature in features if feature.absent]
        parent = draw(st.sampled_from([None, *parts])) if parts else None
        features.append(
            Feature(
                f"f{place}",
                states,
                effort=draw(st.sampled_from([1.0, 2.5])),
                error=draw(st.sampled_from([0.0, 0.03, 0.2])),
                absent=states[0] if is_part else None,
                loss=0.1 if is_part else 0.0,
                gain=0.01 if is_part else 0.0,
                parent=parent.code if parent else None,
                shown_when=parent.states[1:] if parent else (),
            )
        )
    versions = [
        Version(
            f"v{place}",
            {f.code: cell for f in features if (cell := draw(cells_of(f)))},
            weight=draw(st.sampled_from([0.5, 1.0, 8.0])),
            kind=draw(st.sampled_from(["issue", "reproduction", "conversion"])),
            piece_seen=draw(st.sampled_from([True, True, True, False])),
        )
        for place in range(draw(st.integers(1, 5)))
    ]
    answers = {f.code: answer for f in features if (answer := draw(answers_to(f))) is not None}
    return features, versions, answers


def cells_of(feature: Feature):
    states = st.lists(st.sampled_from(feature.states), min_size=0, max_size=2, unique=True)
    return states.map(lambda chosen: tuple(CellState(state) for state in chosen))


def answers_to(feature: Feature):
    one = st.sampled_from(feature.states).map(lambda state: States((state,)))
    plain = st.sampled_from([CANNOT_TELL, PART_MISSING, ALTERED])
    several = st.lists(st.sampled_from(feature.states), min_size=1, max_size=3, unique=True).map(
        lambda states: States(tuple(states))
    )
    return st.one_of(st.none(), one, one, several, plain, st.tuples(one, one))


@few
@given(problems())
def test_chances_are_chances_and_sum_to_one(problem):
    features, versions, answers = problem
    belief = compile_pack(features, versions).weigh(answers)

    assert (belief.posterior >= 0).all()
    assert np.isclose(belief.posterior.sum() + belief.unrecorded, 1)


@few
@given(problems(), st.randoms())
def test_the_order_of_answers_does_not_matter(problem, random):
    features, versions, answers = problem
    shuffled = dict(random.sample(list(answers.items()), len(answers)))
    pack = compile_pack(features, versions)

    assert np.allclose(pack.weigh(answers).posterior, pack.weigh(shuffled).posterior, atol=1e-12)
    assert next_step(pack, answers) == next_step(pack, shuffled)


@few
@given(problems())
def test_cannot_tell_changes_no_chance(problem):
    features, versions, answers = problem
    pack = compile_pack(features, versions, unanswered_parent="enabling")
    unknown = {f.code: CANNOT_TELL for f in features if f.code not in answers}

    assert np.allclose(pack.weigh(answers).posterior, pack.weigh(answers | unknown).posterior, atol=1e-12)


@few
@given(problems())
def test_no_answer_makes_a_version_impossible(problem):
    features, versions, answers = problem

    assert (compile_pack(features, versions).weigh(answers).posterior > 0).all()


@few
@given(problems())
def test_new_names_for_everything_change_nothing(problem):
    features, versions, answers = problem
    named = [
        replace(
            f,
            code=f"x {f.code}",
            states=tuple(f"{s}!" for s in f.states),
            absent=f"{f.absent}!" if f.absent else None,
            parent=f"x {f.parent}" if f.parent else None,
            shown_when=tuple(f"{s}!" for s in f.shown_when),
        )
        for f in features
    ]
    recoded = [
        replace(
            v,
            code=f"é{v.code}",
            cells={f"x {c}": tuple(CellState(f"{s.state}!") for s in cell) for c, cell in v.cells.items()},
        )
        for v in versions
    ]
    renamed = {f"x {code}": new_words(answer) for code, answer in answers.items()}

    before, after = compile_pack(features, versions), compile_pack(named, recoded)
    assert np.allclose(before.weigh(answers).posterior, after.weigh(renamed).posterior, atol=1e-12)
    step, other = next_step(before, answers), next_step(after, renamed)
    assert step == other if isinstance(step, Finish) else f"x {step.feature}" == other.feature


def new_words(answer):
    if isinstance(answer, tuple):
        return tuple(map(new_words, answer))
    return States(tuple(f"{state}!" for state in answer.states)) if isinstance(answer, States) else answer


@few
@given(problems(), st.randoms())
def test_another_order_of_versions_features_and_states_changes_only_the_order(problem, random):
    features, versions, answers = problem
    turned_features = [replace(f, states=tuple(random.sample(f.states, len(f.states)))) for f in features]
    random.shuffle(turned_features)
    turned_versions = random.sample(versions, len(versions))
    before = compile_pack(features, versions).weigh(answers)
    after = compile_pack(turned_features, turned_versions).weigh(answers)

    of_version = dict(zip([v.code for v in turned_versions], after.posterior, strict=True))
    assert np.allclose(before.posterior, [of_version[v.code] for v in versions], atol=1e-9)
    assert np.isclose(before.unrecorded, after.unrecorded, atol=1e-9)


@few
@given(problems())
def test_reading_back_is_the_same_either_way_round(problem):
    features, versions, answers = problem
    turned = {code: answer[::-1] if isinstance(answer, tuple) else answer for code, answer in answers.items()}
    pack = compile_pack(features, versions)

    # A part above may be there by the second answer only, so the details of read-back parts are left out.
    read_back = {code for code, answer in answers.items() if isinstance(answer, tuple)}
    above = {f.code: f.parent for f in features}
    kept = [code for code in answers if not read_back & set(parts_above(code, above))]
    one, other = ({code: given[code] for code in kept} for given in (answers, turned))
    assert np.allclose(pack.weigh(one).posterior, pack.weigh(other).posterior, atol=1e-12)


def parts_above(code, above):
    while (code := above[code]) is not None:
        yield code


@few
@given(problems())
def test_decibans_and_the_prior_add_up_to_the_posterior_odds(problem):
    features, versions, answers = problem
    pack = compile_pack(features, versions)
    if len(versions) < 2:
        return
    one, other = pack.version_codes[:2]
    posterior = pack.weigh(answers).posterior
    total = sum(reason.decibans for reason in reasons(pack, answers, one, other)) + prior_decibans(pack, one, other)

    assert np.isclose(total, 10 * np.log10(posterior[0] / posterior[1]), atol=1e-6)


@few
@given(problems())
def test_a_verdict_never_names_the_unseen_and_always_names_the_inseparable(problem):
    features, versions, answers = problem
    pack = compile_pack(features, versions)
    found = verdict(pack, answers)
    seen = {v.code for v in versions if v.piece_seen}

    assert set(found.named) <= seen
    if found.named:
        twins = set(pack.inseparable_from(found.leader)) & seen
        assert {found.leader, *twins} <= set(found.named)
    if found.kind == "issued":
        assert not found.unchecked


@few
@given(problems())
def test_a_walk_asks_nothing_twice_but_to_read_back_and_comes_to_an_end(problem):
    features, versions, _ = problem
    pack = compile_pack(features, versions)
    random = np.random.default_rng(1)
    answers: dict[str, object] = {}
    for _ in range(2 * len(features) + 4):
        step = next_step(pack, answers)
        if isinstance(step, Finish):
            break
        given = States((str(random.choice(pack.features[pack.place[step.feature]].states)),))
        assert (step.feature in answers) == (step.purpose == "read_back")
        answers[step.feature] = (answers[step.feature], given) if step.feature in answers else given
    assert isinstance(step, Finish)


@few
@given(problems())
def test_expected_questions_are_the_same_again_and_no_more_than_there_are(problem):
    features, versions, answers = problem
    pack = compile_pack(features, versions)
    left = expected_questions(pack, answers)

    assert 0 <= left <= len(features) - len(answers)
    assert left == expected_questions(pack, answers)
