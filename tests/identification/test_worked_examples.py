"""Worked examples of the methods that the engine uses: each with its published source or the library that gives it."""

import itertools
from math import log, log2, log10

import numpy as np
import pytest
from scipy import stats
from scipy.linalg import hadamard
from sklearn import metrics
from sklearn.naive_bayes import CategoricalNB
from statsmodels.nonparametric import kernels

from identification.engine import (
    PART_MISSING,
    CellState,
    Feature,
    Pack,
    States,
    Version,
    compile_pack,
    compiling,
    reasons,
    strength_word,
)
from identification.engine.borrowing import borrowed_shares, compare
from identification.engine.compiling import base_row, with_counts
from identification.engine.counting import Counted
from identification.engine.questions import gains
from tests.identification.exact_pack import known_exactly

# Quinlan 1986, Machine Learning 1:81, table of fourteen mornings (also packaged as weather.nominal).
WEATHER = """
sunny hot high false no | sunny hot high true no | overcast hot high false yes | rain mild high false yes
rain cool normal false yes | rain cool normal true no | overcast cool normal true yes | sunny mild high false no
sunny cool normal false yes | rain mild normal false yes | sunny mild normal true yes | overcast mild high true yes
overcast hot normal false yes | rain mild high true no
"""
MORNINGS = [part.split() for line in WEATHER.strip().splitlines() for part in line.split("|")]
OUTLOOK = ["outlook", "temperature", "humidity", "windy"]


def cell(*states: str) -> tuple[CellState, ...]:
    return tuple(CellState(state) for state in states)


def weather_pack() -> tuple[Pack, np.ndarray, np.ndarray]:
    """Playing and not playing as two versions, with each morning's columns coded as numbers."""
    columns = np.array(MORNINGS)
    coded = np.array([np.unique(column, return_inverse=True)[1] for column in columns.T]).T
    plays = coded[:, 4]
    features, table = [], []
    for place, name in enumerate(OUTLOOK):
        states = np.unique(columns[:, place])
        counts = np.array([[((coded[:, place] == s) & (plays == c)).sum() for c in (0, 1)] for s in range(len(states))])
        features.append(Feature(name, tuple(map(str, states))))
        table.append(counts / counts.sum(axis=0))
    return known_exactly(features, tuple(table), [(plays == 0).sum(), (plays == 1).sum()]), coded[:, :4], plays


# ---- what one answer says


def counted_shares(states, counts) -> np.ndarray:
    feature = Feature("flap", states)
    nothing = np.full((len(states), 1), np.nan)
    version = Version("v", {}, counts={"flap": counts})
    return with_counts(feature, [version], nothing, base_row(nothing))[:, 0]


def test_seven_of_nine_examples_make_a_share_of_eight_elevenths():
    """Laplace's rule; scipy.stats.beta gives the mean of the same posterior."""
    share = counted_shares(("square", "round"), {"square": 7, "round": 2})[0]

    assert share == pytest.approx(8 / 11)
    assert share == pytest.approx(stats.beta(1 + 7, 1 + 2).mean())


def test_a_state_never_seen_in_five_of_three_states_keeps_an_eighth():
    """scikit-learn's CategoricalNB with alpha = 1."""
    model = CategoricalNB(alpha=1.0, min_categories=[3]).fit([[0], [0], [1], [1], [1]], [0] * 5)

    share = counted_shares(("a", "b", "c"), {"a": 2, "b": 3})[2]
    assert share == pytest.approx(1 / 8)
    assert share == pytest.approx(np.exp(model.feature_log_prob_[0])[0, 2])


def test_a_part_that_may_be_lost_counts_less_when_absent_than_when_present():
    """Loss .3, gain .01, error .05, two versions: odds change by 2.87 and by 10.33 (recomputed twice, no source)."""
    feature = Feature("strap", ("none", "there"), absent="none", loss=0.3, gain=0.01, error=0.05)
    pack = compile_pack(
        [feature], [Version("with", {"strap": cell("there")}), Version("without", {"strap": cell("none")})]
    )

    with_it, without_it = pack.table[:, 0], pack.table[:, 1]
    assert without_it[0] / with_it[0] == pytest.approx(2.87, abs=0.005)
    assert with_it[1] / without_it[1] == pytest.approx(10.33, abs=0.005)


def test_words_of_frequency_are_rescaled_within_a_cell():
    """Usually .77 and sometimes .28 (Mosteller & Youtz 1990, from memory) share the cell in that proportion."""
    version = Version("v", {"flap": (CellState("square", 0.77), CellState("round", 0.28))})
    pack = compile_pack([Feature("flap", ("square", "round"))], [version])

    assert pack.recorded[0][:, 0] == pytest.approx([0.77 / 1.05, 0.28 / 1.05])


# ---- posterior


def test_quinlans_new_morning_is_played_with_a_chance_of_a_fifth():
    """Witten & Frank, Data Mining (from memory): products .0053 and .0206, P(yes) = .205; scikit-learn agrees."""
    pack, coded, plays = weather_pack()
    answers = {code: States((state,)) for code, state in zip(OUTLOOK, ("sunny", "cool", "high", "true"), strict=True)}

    model = CategoricalNB(alpha=1e-10, force_alpha=True).fit(coded, plays)
    new = [[2, 0, 0, 1]]
    assert pack.weigh(answers).posterior[1] == pytest.approx(0.205, abs=0.001)
    assert pack.weigh(answers).posterior == pytest.approx(model.predict_proba(new)[0], abs=1e-7)


@pytest.mark.parametrize(("weight", "printed"), [(1.0, 0.27993), (0.5, 0.24352)])
def test_quinlans_mornings_counted_as_examples_are_smoothed_as_by_scikit_learn(weight, printed, monkeypatch):
    """scikit-learn's CategoricalNB with alpha = 1 and .5: the chance that the new morning is played."""
    monkeypatch.setattr(compiling, "COUNT_WEIGHT", weight)
    exact, coded, plays = weather_pack()
    table = []
    for place, feature in enumerate(exact.features):
        counts = [np.bincount(coded[plays == c, place], minlength=len(feature.states)).tolist() for c in (0, 1)]
        versions = [
            Version(str(c), {}, counts={feature.code: dict(zip(feature.states, counts[c], strict=True))})
            for c in (0, 1)
        ]
        nothing = np.full((len(feature.states), 2), np.nan)
        table.append(with_counts(feature, versions, nothing, base_row(nothing)))
    pack = known_exactly(exact.features, tuple(table), [5, 9])
    answers = {code: States((state,)) for code, state in zip(OUTLOOK, ("sunny", "cool", "high", "true"), strict=True)}

    model = CategoricalNB(alpha=weight).fit(coded, plays)
    played = pack.weigh(answers).posterior[1]
    assert played == pytest.approx(printed, abs=5e-6)
    assert played == pytest.approx(model.predict_proba([[2, 0, 0, 1]])[0, 1])


def test_the_unrecorded_version_is_half_unlike_and_half_a_relative():
    """Two versions, one answer, by hand from the formula: Aitchison & Aitken 1976, Biometrika 63:413 (from memory)."""
    pack = compile_pack(
        [Feature("a", ("x", "y"))], [Version("one", {"a": cell("x")}), Version("two", {"a": cell("y")})]
    )
    likely, unlikely = 0.99 * 0.95 + 0.01 * 0.05, 0.01 * 0.95 + 0.99 * 0.05

    known = 0.95 * 0.5 * np.array([likely, unlikely])
    relative = 0.05 * 0.5 * 0.5 * sum(0.9 * chance + 0.1 * 0.5 for chance in (likely, unlikely))
    unlike = 0.05 * 0.5 * 0.5
    total = known.sum() + relative + unlike
    belief = pack.weigh({"a": States(("x",))})
    assert belief.posterior == pytest.approx(known / total)
    assert belief.unrecorded == pytest.approx((relative + unlike) / total)


# ---- the next question


def test_quinlans_gains_are_the_engines_gains():
    """Outlook .246, humidity .151, windy .048, temperature .029 of .940 bits; exact values by scikit-learn."""
    pack, coded, plays = weather_pack()
    gain, _ = gains(pack, pack.prior, np.zeros(2), 0.0)

    printed = {"outlook": 0.246, "temperature": 0.029, "humidity": 0.151, "windy": 0.048}
    assert dict(zip(OUTLOOK, gain, strict=True)) == pytest.approx(printed, abs=0.0015)
    exact = [metrics.mutual_info_score(plays, column) / log(2) for column in coded.T]
    assert gain == pytest.approx(exact, abs=1e-9)
    assert stats.entropy(pack.prior, base=2) == pytest.approx(0.940, abs=0.0005)
    assert [q.feature for q in pack.rank_questions(pack.weigh({}), {})] == [
        "outlook",
        "humidity",
        "windy",
        "temperature",
    ]


def test_gain_with_errors_is_the_mutual_information_of_version_and_answer():
    """H(A) - H(A | version) equals the mutual information of the joint table, worked out term by term."""
    features = [Feature("a", ("x", "y", "z"), error=0.1)]
    cells = [cell("x"), cell("y"), cell("x", "z"), ()]
    versions = [
        Version(f"v{i}", {"a": one} if one else {}, w)
        for i, (one, w) in enumerate(zip(cells, (4, 3, 2, 1), strict=True))
    ]
    pack = compile_pack(features, versions, unrecorded=0.0, blanks="pooled")

    joint = pack.table * pack.prior
    marginal = joint.sum(axis=1)
    expected = sum(
        joint[s, v] * log2(joint[s, v] / (marginal[s] * pack.prior[v]))
        for s, v in itertools.product(range(3), range(4))
    )
    gain, _ = gains(pack, pack.prior, np.zeros(4), 0.0)
    assert gain[0] == pytest.approx(expected, abs=1e-12)


# ---- explanation


def test_twenty_heads_in_a_row_give_sixty_decibans_and_twenty_after_the_prior():
    """Two-headed against fair coin, prior odds 1 to 10^4: General Report on Tunny 1945, p. 39; exact 60.21 and 20.21.

    scipy.stats.binom gives the chance of twenty heads.
    """
    tosses = [Feature(f"toss{i}", ("heads", "tails")) for i in range(20)]
    table = tuple(np.array([[1.0, 0.5], [0.0, 0.5]]) for _ in tosses)
    pack = known_exactly(tosses, table, [1, 10_000])
    answers = {toss.code: States(("heads",)) for toss in tosses}

    weights = reasons(pack, answers, "v0", "v1")
    posterior = pack.weigh(answers).posterior
    assert sum(reason.decibans for reason in weights) == pytest.approx(60.21, abs=0.005)
    assert sum(reason.decibans for reason in weights) == pytest.approx(-10 * log10(stats.binom(20, 0.5).pmf(20)))
    assert 10 * log10(posterior[0] / posterior[1]) == pytest.approx(20.21, abs=0.005)
    assert {reason.word for reason in weights} == {"slightly for"}


def test_ninety_five_of_a_hundred_is_nineteen_to_one():
    """Wald 1945, Ann. Math. Stat. 16:117 (from memory): ln 19 = 2.944 nats, 12.79 decibans."""
    assert log(0.95 / 0.05) == pytest.approx(2.944, abs=0.0005)
    assert 10 * log10(0.95 / 0.05) == pytest.approx(12.79, abs=0.005)
    assert strength_word(12.79) == "strongly for"
    assert [strength_word(db) for db in (6, -6, 2, -2, 0.5, -30)] == [
        "for", "against", "slightly for", "slightly against", "neither", "strongly against",
    ]  # fmt: skip


# ---- blank cells


def test_the_kernel_between_versions_is_aitchison_and_aitkens():
    """h = .1, three states: .9 the same, .05 another; ln of their ratio 2.890 (statsmodels' kernel)."""
    kernel = kernels.aitchison_aitken(np.array([0.1]), np.array([0, 1]), np.array([0]), num_levels=3)
    assert kernel.tolist() == pytest.approx([0.9, 0.05])
    assert log(0.9 / 0.05) == pytest.approx(2.890, abs=0.0005)

    states = np.array([[0, 1, 2, 0], [0, 1, 1, 0], [2, 0, 1, 0]])
    issued = [np.eye(3)[column].T for column in states.T]
    product = np.prod([kernel[[int(same) for same in states[0] != states[row]]] for row in (1, 2)], axis=1)
    apart = compare(issued).apart
    assert np.exp(-log(0.9 / 0.05) * (apart[0, 1] - apart[0, 2])) == pytest.approx(product[0] / product[1], rel=1e-5)


def test_a_blank_is_borrowed_from_relatives_only_where_that_predicts_better():
    families = [["a"] * 8] * 6 + [["b"] * 8] * 6
    related = blank_first(families)
    # Rows of a Hadamard matrix: any two agree in three of seven features, so that nobody is anybody's relative.
    strangers = blank_first([["ab"[int(sign < 0)] for sign in row[1:]] for row in hadamard(8)])

    borrowed = borrowed_shares(related, [base_row(shares) for shares in related])
    assert borrowed[0][0, 0] > 0.9
    assert borrowed_shares(strangers, [base_row(shares) for shares in strangers]) == {}


def blank_first(rows) -> list[np.ndarray]:
    """Columns of shares of the states a and b, the very first cell blank."""
    shares = [
        np.array([[float(s == "a") for s in column], [float(s == "b") for s in column]])
        for column in zip(*rows, strict=True)
    ]
    shares[0][:, 0] = np.nan
    return shares


# ---- a lost part


def test_a_missing_part_speaks_for_the_versions_that_had_it():
    """Chance that the version has the part, with the feature's error: by hand from the formula."""
    feature = Feature("strap", ("none", "there"), absent="none", loss=0.3, error=0.05)
    pack = compile_pack(
        [feature], [Version("with", {"strap": cell("there")}), Version("without", {"strap": cell("none")})]
    )
    had = np.array([0.99, 0.01])

    belief = pack.weigh({"strap": PART_MISSING})
    odds = (0.95 * had + 0.05 * (1 - had))[0] / (0.95 * had + 0.05 * (1 - had))[1]
    assert belief.posterior[0] / belief.posterior[1] == pytest.approx(odds)


def test_a_hand_made_count_weighs_as_an_answer():
    pack, _, _ = weather_pack()
    sunny = Counted("outlook", np.array([3 / 5, 2 / 9]), 0.5)

    assert pack.weigh_counted([sunny], {}).posterior == pytest.approx(
        pack.weigh({"outlook": States(("sunny",))}).posterior
    )
