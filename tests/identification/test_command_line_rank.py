"""`python -m identification rank`: files in, one line of JSON a specimen out."""

import math
import subprocess
import sys

import pytest

from identification.engine import compile_pack
from tests.benchmarks.simulated import draw_pieces, simulate
from tests.identification.command_line import FEATURES, MATRIX, OBSERVATIONS, ROOT, lines, run, text_of, write_problem
from tests.identification.slow_model import SlowModel


def test_specimens_are_ranked_in_order_of_first_appearance_and_chances_sum_to_one(files):
    ranked = lines(run("rank", *files()))

    assert [line["specimen"] for line in ranked] == ["s2", "s1"]
    assert [line["posterior"][0][0] for line in ranked] == ["P71", "P57"]
    for line in ranked:
        chances = [chance for _, chance in line["posterior"]]
        assert chances == sorted(chances, reverse=True)
        assert sum(chances) + line["unrecorded"] == pytest.approx(1)


def test_evidence_adds_up_to_the_posterior_odds_less_the_prior_odds(files):
    priors = {"P52": 3, "P57": 1, "P71": 2, "P86": 1}
    for line in lines(run("rank", *files())):
        (best, first), (second, other) = line["posterior"][:2]
        odds = 10 * math.log10(first / other) - 10 * math.log10(priors[best] / priors[second])
        assert sum(one["decibans"] for one in line["evidence"]) == pytest.approx(odds)
    by_feature = {one["feature"]: one["answer"] for one in line["evidence"]}
    assert by_feature == {"flap": "square", "button": "horn"}


def test_pooled_ranks_are_those_of_the_slow_model_through_the_files(tmp_path):
    reference = simulate(30, 20, 9)
    pieces = draw_pieces(reference, 8, 2, error=0.1)
    write_problem(tmp_path, reference, pieces)
    paths = [f"--{name}={tmp_path / name}.csv" for name in ("features", "matrix", "observations")]
    slow = SlowModel(reference.features, reference.versions, 0.2)

    ranked = lines(run("rank", *paths, "--blanks=pooled", "--unrecorded=0.2"))
    for line, (_, answers) in zip(ranked, pieces, strict=True):
        posterior, unrecorded = slow.posterior({code: text_of(answer) for code, answer in answers.items()})
        expected = dict(zip([v.code for v in reference.versions], posterior, strict=True))
        assert line["unrecorded"] == pytest.approx(unrecorded, abs=1e-9)
        assert len(line["posterior"]) >= 20
        for code, chance in line["posterior"]:
            assert chance == pytest.approx(expected[code], abs=1e-9)


def test_a_byte_order_mark_windows_line_ends_and_blank_lines_change_nothing(files):
    plain = run("rank", *files()).stdout
    windows = {
        name: b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode() + b"\r\n\r\n"
        for name, text in (("features", FEATURES), ("matrix", MATRIX), ("observations", OBSERVATIONS))
    }

    assert run("rank", *files(**windows)).stdout == plain


def test_quoted_cells_and_letters_of_any_language_are_read(files):
    features = 'feature,states\n"Knöpfe, vorn","Messing|„Horn“"\n'
    ranked = lines(
        run(
            "rank",
            *files(
                features=features,
                matrix='version,"Knöpfe, vorn"\nЖ1,Messing\nЖ2,„Horn“\n',
                observations='specimen,feature,answer\ns,"Knöpfe, vorn",„Horn“\n',
            ),
        )
    )

    assert ranked[0]["posterior"][0][0] == "Ж2"


def test_a_dash_is_a_state_of_a_feature_without_a_parent_where_the_matrix_has_it(files):
    features = "feature,states\nsleeve,long|short\n"
    matrix = "version,sleeve\nshirt,long\nvest,-\n"
    ranked = lines(
        run("rank", *files(features=features, matrix=matrix, observations="specimen,feature,answer\ns,sleeve,-\n"))
    )

    assert ranked[0]["posterior"][0][0] == "vest"


def test_the_program_needs_no_site(files):
    """With Django made unimportable every mode still works."""
    program = "import sys; sys.modules['django'] = None; from identification.__main__ import main; sys.exit(main())"
    command = [sys.executable, "-c", program, "rank", *files()]
    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, timeout=60)

    assert done.returncode == 0, done.stderr
    assert compile_pack([], []).version_codes == ()
