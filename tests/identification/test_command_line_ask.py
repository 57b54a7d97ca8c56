"""`python -m identification ask`: a dialogue in lines."""

import json
import subprocess
import sys

import pytest

from tests.identification.command_line import ROOT, lines, run, without


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
