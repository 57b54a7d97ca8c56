"""What `python -m identification` says of faulty files and options."""

import pytest

from tests.identification.command_line import FEATURES, MATRIX, OBSERVATIONS, lines, run, run_here, without


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
        ("features", "feature,states,effort\nflap,a|b,inf\n", "column effort: found “inf”; accepted: a number over 0"),
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
    done = run_here("rank", *files(**{name: text}))

    assert (done.returncode, done.stdout) == (2, "")
    assert fault in done.stderr


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("", "features.csv, line 1: found “an empty file”; accepted: a header line"),
        ("feature,states\n", "features.csv, line 1, column feature: found “no feature”; accepted: one line for each"),
        ("feature;states\nflap;a|b\n", "features.csv, line 1: found “feature;states”; accepted: commas between the"),
    ],
)
def test_where_the_features_cannot_be_read_nothing_is_said_of_what_follows_from_them(files, text, fault):
    told = run_here("rank", *files(features=text)).stderr.splitlines()

    assert len(told) == 1
    assert told[0].startswith(fault)


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
    done = run_here("ask", *without(files(), "--observations"), option)

    assert done.returncode == 2
    assert "number" in done.stderr


def test_an_option_refused_by_the_program_itself_is_told_without_a_traceback(files):
    done = run("ask", *without(files(), "--observations"), "--limit=-1")

    assert (done.returncode, done.stdout) == (2, "")
    assert "number" in done.stderr
    assert "Traceback" not in done.stderr
