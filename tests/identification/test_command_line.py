"""`python -m identification` as somebody else's program sees it: files in, lines of JSON out."""

import csv
import json
import math
import subprocess
import sys
from pathlib import Path

import pytest

from identification.engine import States, compile_pack
from tests.benchmarks.simulated import draw_pieces, simulate
from tests.identification.slow_model import SlowModel

ROOT = Path(__file__).resolve().parent.parent.parent
FEATURES = """feature,states,effort,error,absent,loss,gain,parent,shown_when
closure,buttons|zip,1,0.03,,,,,
flap,none|square|round,1.5,0.05,none,0.1,0.01,,
button,brass|horn,,,,,,flap,square|round
"""
MATRIX = """version,prior,closure,flap,button
P52,3,buttons,square,brass
P57,,buttons,square:0.8|round:0.2,horn
P71,2,zip,none,-
P86,,,square|round,
"""
OBSERVATIONS = """specimen,feature,answer
s2,closure,zip
s1,flap,square
s1,button,horn
s1,closure,?
s2,flap,none
s2,button,-
"""


def run(*words, text: str = "", cwd=ROOT) -> subprocess.CompletedProcess:
    """Run the program without any site setting in its environment."""
    command = [sys.executable, "-m", "identification", *map(str, words)]
    return subprocess.run(command, input=text, capture_output=True, text=True, cwd=cwd, encoding="utf-8", timeout=60)


def lines(done: subprocess.CompletedProcess) -> list[dict]:
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


@pytest.fixture
def files(tmp_path):
    """The three files of a small table; `files(features=…)` writes another text instead."""

    def write(**texts) -> list[str]:
        words = []
        for name, text in {"features": FEATURES, "matrix": MATRIX, "observations": OBSERVATIONS, **texts}.items():
            path = tmp_path / f"{name}.csv"
            path.write_bytes(text if isinstance(text, bytes) else text.encode())
            words += [f"--{name}", str(path)]
        return words

    return write


def without(words: list[str], option: str) -> list[str]:
    place = words.index(option)
    return words[:place] + words[place + 2 :]


# ---- rank


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


def text_of(answer) -> str:
    return answer.states[0] if isinstance(answer, States) else "?"


def write_problem(folder, reference, pieces) -> None:
    columns = ["feature", "states", "effort", "error", "absent", "loss", "gain", "parent", "shown_when"]
    features = [
        [
            f.code,
            "|".join(f.states),
            f.effort,
            f.error,
            f.absent or "",
            f.loss,
            f.gain,
            f.parent or "",
            "|".join(f.shown_when),
        ]
        for f in reference.features
    ]
    cells = [
        [v.code, v.weight, *(cell_text(v.cells.get(f.code, ())) for f in reference.features)]
        for v in reference.versions
    ]
    seen = [
        [f"s{i}", code, text_of(answer)] for i, (_, answers) in enumerate(pieces) for code, answer in answers.items()
    ]
    save(folder / "features.csv", columns, features)
    save(folder / "matrix.csv", ["version", "prior", *(f.code for f in reference.features)], cells)
    save(folder / "observations.csv", ["specimen", "feature", "answer"], seen)


def cell_text(cell) -> str:
    return "|".join(one.state if one.share is None else f"{one.state}:{one.share!r}" for one in cell)


def save(path, header, rows) -> None:
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([header, *rows])


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


# ---- faults


def test_every_fault_of_every_file_is_told_at_once_with_its_place_and_what_is_accepted(files):
    words = files(
        features=FEATURES.replace("buttons|zip,1,0.03", "buttons,0,1.5").replace("flap,square|round", "flop,square"),
        matrix=MATRIX.replace("P57,", "P52,-1").replace("square|round", "square:0.5|round"),
        observations=OBSERVATIONS + "s1,flap,round\ns3,flapp,square\ns4,flap,sqare\n",
    )
    done = run("rank", *words)
    told = done.stderr.splitlines()

    assert (done.returncode, done.stdout) == (2, "")
    for fault in (
        "features.csv, line 2, column states: found “buttons”; accepted: two or more different states",
        "features.csv, line 2, column effort: found “0”; accepted: a number over 0",
        "features.csv, line 2, column error: found “1.5”; accepted: a chance from 0 to 1",
        "features.csv, line 4, column parent: found “flop”; accepted: a feature of this file (did you mean flap?)",
        "matrix.csv, line 3, column version: found “P52”; accepted: a name not used in line 2",
        "matrix.csv, line 3, column prior: found “-1”; accepted: a number from 0",
        "matrix.csv, line 5, column flap: found “square:0.5|round”; accepted: each state once, with a share each",
        "observations.csv, line 8, column feature: found “flap”; accepted: at most one answer",
        "observations.csv, line 9, column feature: found “flapp”; accepted: a feature of the features file (did you",
        "observations.csv, line 10, column answer: found “sqare”; accepted: ?, -, or one of none, square, round",
    ):
        assert any(line.startswith(fault) for line in told), fault


@pytest.mark.parametrize(
    ("name", "text", "fault"),
    [
        ("features", "", "features.csv, line 1: found “an empty file”; accepted: a header line"),
        ("features", b"feature,states\n\xff\xfe,a|b\n", "features.csv, line 2: found “bytes that are not UTF-8”"),
        ("features", 'feature,states\n"flap,a|b\n', "features.csv, line 2: found “unexpected end of data”"),
        ("features", "feature,states\nflap,a|b,c\n", "features.csv, line 2: found “3 cells”; accepted: 2 cells"),
        ("features", "feature,stats\nflap,a|b\n", "accepted: a column named states (did you mean stats?)"),
        ("features", "feature,states,states\nflap,a|b,a|b\n", "line 1, column states: found “the column twice”"),
        ("features", "feature,states,error\nflap,a|b,nan\n", "column error: found “nan”; accepted: a chance"),
        ("features", "feature,states,effort\nflap,a|b,inf\n", "column effort: found “inf”; accepted: a number from 0"),
        ("features", "feature,states\nflap,a|?\n", "column states: found “a|?”"),
        ("features", "feature,states,absent\nflap,a|b,c\n", "column absent: found “c”; accepted: one of a, b"),
        ("features", "feature,states,parent,shown_when\na,x|y,b,x\nb,x|y,a,x\n", "accepted: a feature that is no"),
        ("features", "feature,states,parent,shown_when\na,x|y,,\nb,x|y,a,\n", "found “”; accepted: states of a"),
        ("matrix", "version,closure,flap,button\n", "matrix.csv, line 1, column version: found “no version”"),
        ("matrix", "version,closure,flap\nP52,zip,none\n", "column button: found “no such column”"),
        ("matrix", MATRIX.replace("prior", "priority"), "found “priority”; accepted: version, prior or"),
        ("matrix", MATRIX.replace("square:0.8|round:0.2", "square:0|round:0"), "found “square:0|round:0”"),
        ("matrix", "version,prior,closure,flap,button\nP52,0,zip,none,-\n", "column prior: found “0 in every line”"),
        ("observations", "specimen,feature,answer\n,closure,zip\n", "column specimen: found “”; accepted: a name"),
        ("observations", "specimen,feature,answer\ns,closure,\n", "found “”; accepted: ?, -, or one of buttons, zip"),
    ],
)  # fmt: skip
def test_a_faulty_file_is_told_in_words(files, name, text, fault):
    done = run("rank", *files(**{name: text}))

    assert (done.returncode, done.stdout) == (2, "")
    assert fault in done.stderr
    assert "Traceback" not in done.stderr


def test_a_file_that_is_not_there_is_named(files):
    words = files()
    words[words.index("--matrix") + 1] = "nowhere/matrix.csv"
    done = run("rank", *words)

    assert done.returncode == 2
    assert "matrix.csv: found “No such file or directory”; accepted: a file that can be read" in done.stderr


def test_a_column_that_is_not_used_is_told_and_stops_nothing(files):
    features = "feature,states,note\nclosure,buttons|zip,x\nflap,none|square|round,\nbutton,brass|horn,\n"
    done = run("rank", *files(features=features, matrix=MATRIX, observations=OBSERVATIONS))

    assert "features.csv: column note is not used" in done.stderr
    assert len(lines(done)) == 2


@pytest.mark.parametrize(
    "option", ["--unrecorded=1", "--unrecorded=x", "--unrecorded=nan", "--confident=0", "--limit=-1", "--limit=2.5"]
)
def test_an_option_out_of_range_is_refused_in_words(files, option):
    done = run("ask", *without(files(), "--observations"), option)

    assert done.returncode == 2
    assert "number" in done.stderr
    assert "Traceback" not in done.stderr


# ---- ask


def talk(files, *messages, options=()) -> list[dict]:
    text = "".join(line if isinstance(line, str) else json.dumps(line) + "\n" for line in messages)
    return lines(run("ask", *without(files(), "--observations"), *options, text=text))


def test_a_dialogue_asks_answers_and_ends_in_a_verdict(files):
    first, *_ = talk(files, {"start": "s1"})
    replies = talk(files, {"start": "s1"}, *({"answer": "?"} for _ in range(3)))

    assert {"ask", "top", "unrecorded"} == first.keys()
    assert len(first["top"]) == 3
    # The detail is never asked while its part was not seen.
    assert [reply.get("ask") for reply in replies] == ["closure", "flap", None, None]
    assert replies[2].keys() == {"done", "reason", "asked", "posterior", "unrecorded"}
    assert (replies[2]["done"], replies[2]["reason"], replies[2]["asked"]) == (True, "exhausted", 2)
    assert replies[2]["unrecorded"] == pytest.approx(0.05)
    assert replies[3].keys() == {"error"}


def test_a_detail_is_asked_once_its_part_was_seen(files):
    seen = talk(files, {"start": "s1"}, {"answer": "buttons"}, {"answer": "square"})
    not_seen = talk(files, {"start": "s1"}, {"answer": "buttons"}, {"answer": "none"})

    assert [reply.get("ask") for reply in seen] == ["closure", "flap", "button"]
    assert not_seen[2]["reason"] == "exhausted"


def test_a_malformed_line_gets_an_error_and_the_question_stays_open(files):
    replies = talk(
        files,
        {"start": "s1"},
        "no json\n",
        "[1]\n",
        "\n",
        {"answer": "velcro"},
        {"answer": 7},
        {"x": 1},
        {"answer": "zip"},
    )

    assert [list(reply) == ["error"] for reply in replies] == [False, True, True, True, True, True, False]
    assert "accepted: ?, -, or one of buttons, zip" in replies[3]["error"]
    assert replies[-1]["ask"] != replies[0]["ask"]


def test_stop_gives_the_verdict_so_far_and_a_new_start_forgets_everything(files):
    replies = talk(files, {"start": "s1"}, {"answer": "zip"}, {"stop": True}, {"answer": "zip"}, {"start": "s2"})

    assert (replies[2]["reason"], replies[2]["asked"]) == ("stopped", 1)
    assert "error" in replies[3]
    assert replies[4] == replies[0]


def test_the_limit_and_the_confidence_stop_a_dialogue(files):
    limited = talk(files, {"start": "s"}, {"answer": "?"}, options=["--limit=1"])
    at_once = talk(files, {"start": "s"}, options=["--limit=0"])
    easily_sure = talk(files, {"start": "s"}, {"answer": "zip"}, options=["--confident=0.5"])

    assert (limited[1]["reason"], limited[1]["asked"]) == ("limit", 1)
    assert (at_once[0]["reason"], at_once[0]["asked"]) == ("limit", 0)
    assert easily_sure[1]["reason"] == "confident"
    assert easily_sure[1]["posterior"][0][0] == "P71"


def test_each_reply_is_flushed_before_the_next_line_is_written(files):
    """A scorer waits for the reply to each line; a reply kept back would hang it."""
    command = [sys.executable, "-m", "identification", "ask", *without(files(), "--observations")]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, cwd=ROOT) as process:
        for message in ({"start": "s"}, {"answer": "?"}):
            process.stdin.write(json.dumps(message) + "\n")
            process.stdin.flush()
            assert "ask" in json.loads(process.stdout.readline())
        process.stdin.close()
        assert process.wait(timeout=20) == 0


def test_the_program_needs_no_site(files):
    """With Django made unimportable every mode still works."""
    program = "import sys; sys.modules['django'] = None; from identification.__main__ import main; sys.exit(main())"
    command = [sys.executable, "-c", program, "rank", *files()]
    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, timeout=60)

    assert done.returncode == 0, done.stderr
    assert compile_pack([], []).version_codes == ()


# ---- figures


def figure(**request) -> dict:
    return lines(run("figures", text=json.dumps(request) + "\n"))[0]


def figures(*requests) -> list[dict]:
    return lines(run("figures", text="".join(json.dumps(request) + "\n" for request in requests)))


def test_range_ends_are_those_of_strauss_and_sadler():
    """Strauss & Sadler 1989: for 95 % the range reaches 4.8325, 1.4647, .5002, .2128 times beyond at n = 3, 5, 10, 20
    (recomputed with scipy.optimize.brentq)."""
    dated = {n: [1900 + 100 * i / (n - 1) for i in range(n)] for n in (3, 5, 10, 20)}
    found = figures(*({"kind": "range_ends", "years": years, "level": 0.95} for years in dated.values()))

    assert [line["high"] - 2000 for line in found] == pytest.approx([483.25, 146.47, 50.02, 21.28], abs=0.005)
    assert [1900 - line["low"] for line in found] == pytest.approx([line["high"] - 2000 for line in found])
    assert {(line["first"], line["last"]) for line in found} == {(1900.0, 2000.0)}


def test_unseen_versions_are_counted_as_by_chao_and_good():
    """Spiders of iNEXT: S 26, n 168, f1 12, f2 4 gives 43.893; S 37, n 252, f1 14, f2 4 gives 61.403 (arithmetic).
    Coverage .76: scikit-bio goods_coverage([1]*12 + [2]*4 + [3]*10)."""
    girdled = [1] * 12 + [2] * 4 + [3] * 9 + [168 - 12 - 8 - 27]
    logged = [1] * 14 + [2] * 4 + [3] * 18 + [252 - 14 - 8 - 54]
    found = figures(
        {"kind": "unseen", "counts": girdled},
        {"kind": "unseen", "counts": logged},
        {"kind": "unseen", "counts": [1] * 12 + [2] * 4 + [3] * 10},
        {"kind": "unseen", "counts": [5, 1, 1, 1]},
    )

    assert (len(girdled), sum(girdled), len(logged), sum(logged)) == (26, 168, 37, 252)
    assert found[0]["chao1"] == pytest.approx(43.893, abs=5e-4)
    assert found[1]["chao1"] == pytest.approx(61.403, abs=5e-4)
    assert found[2]["coverage"] == pytest.approx(0.76)
    assert found[3]["chao1"] == pytest.approx(4 + 7 / 8 * 3)


def test_a_weighted_price_quantile_is_the_smallest_price_that_reaches_the_share():
    """Prices 1 2 3 4 with weights 1 1 1 3: median 3; type 1 of numpy.quantile(method="inverted_cdf")."""
    np = pytest.importorskip("numpy")
    prices, weights, quantiles = [4, 1, 3, 2, 9.5], [3, 1, 1, 1, 0], [0, 0.25, 0.5, 0.75, 1]
    found = figure(kind="price", prices=prices, weights=weights, quantiles=quantiles)["quantiles"]

    kept = [(p, w) for p, w in zip(prices, weights, strict=True) if w]
    expected = np.quantile([p for p, _ in kept], quantiles, weights=[w for _, w in kept], method="inverted_cdf")
    assert found == expected.tolist() == [1, 2, 3, 4, 4]


def test_agreement_is_krippendorffs_alpha():
    """Krippendorff 2011, four raters by twelve units with gaps: nominal .743 (from memory)."""
    raters = [
        "1 2 3 3 2 1 4 1 2 . . .",
        "1 2 3 3 2 2 4 1 2 5 . 3",
        ". 3 3 3 2 3 4 2 2 5 1 .",
        "1 2 3 3 2 4 4 1 2 5 1 .",
    ]
    units = [[None if r == "." else r for r in unit] for unit in zip(*(line.split() for line in raters), strict=True)]

    assert figure(kind="agreement", ratings=units)["alpha"] == pytest.approx(0.743, abs=5e-4)
    assert figure(kind="agreement", ratings=[["a", "a"], ["a", "a"]])["alpha"] == 1


@pytest.mark.parametrize(
    ("request_", "words"),
    [
        ({"kind": "horoscope"}, "kind is one of range_ends, unseen, price, agreement"),
        ({}, "kind is one of"),
        ({"kind": ["price"]}, "kind is one of"),
        ({"kind": "range_ends", "years": [1950, 1960]}, "level is missing"),
        ({"kind": "range_ends", "years": [1950], "level": 0.95}, "two different years"),
        ({"kind": "range_ends", "years": ["1950", "1960"], "level": 0.95}, "a list of numbers"),
        ({"kind": "unseen", "counts": [0]}, "nothing was counted"),
        ({"kind": "unseen", "counts": [1.5]}, "whole numbers"),
        ({"kind": "price", "prices": [], "weights": [], "quantiles": [0.5]}, "each price needs a weight"),
        ({"kind": "price", "prices": [1], "weights": [1], "quantiles": [2]}, "from 0 to 1"),
        ({"kind": "agreement", "ratings": [["a", None]]}, "no unit has two ratings"),
        ({"kind": "agreement", "ratings": "aa"}, "a list of units"),
    ],
)
def test_a_figure_that_cannot_be_worked_out_is_an_error_in_words(request_, words):
    assert words in figure(**request_)["error"]
