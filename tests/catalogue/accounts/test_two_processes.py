"""Two processes of one site, on a database file as a society has it: what one counts or decides the other knows."""

import json
import subprocess
import sys

import pytest

from tests.site_server import ROOT, Server

BEGIN = """
import json, sys
import django; django.setup()
from django.test import Client
from catalogue.accounts.models import JoinRequest, Member
def wait_for_the_word():
    print("ready", flush=True); sys.stdin.readline()
"""
PEOPLE = (
    BEGIN
    + """
from django.utils import timezone
from catalogue.accounts.actions import ask_to_join
from tests.making import make_member
make_member("Ada")
make_member("Mo", role="moderator"); make_member("Mia", role="moderator")
ask_to_join(member=make_member("Wim", admitted_at=None), words="", now=timezone.now())
make_member("Sue", role="secretary"); make_member("Sam", role="secretary")
"""
)
TRY = (
    BEGIN
    + """
name, password, times, where = sys.argv[1:]
client = Client(HTTP_HOST="localhost")
answers = []
for _ in range(int(times)):
    page = client.post(where, {"login": name, "username": name, "password": password}, follow=True).content.decode()
    answers.append("too many" if "Too many attempts" in page else "in" if "Sign out" in page else "wrong")
print(json.dumps(answers))
"""
)
DECIDE = (
    BEGIN
    + """
from django.utils import timezone
from catalogue.accounts.actions import decide_request
from catalogue.accounts.refusals import CannotDo
mine, decider = JoinRequest.objects.get(), Member.objects.get(username=sys.argv[1])
wait_for_the_word()
try:
    decide_request(request=mine, decider=decider, admit=sys.argv[2] == "admit", reason="because", now=timezone.now())
    print(json.dumps("done"), flush=True)
except CannotDo as refusal:
    print(json.dumps(str(refusal)), flush=True)
"""
)
DEMOTE = (
    BEGIN
    + """
from django.utils import timezone
from catalogue.accounts.actions import change_role
from catalogue.accounts.refusals import CannotDo
by, member = (Member.objects.get(username=name) for name in sys.argv[1:3])
wait_for_the_word()
try:
    change_role(member=member, after="member", by=by, reason="because", now=timezone.now())
    print(json.dumps("done"), flush=True)
except CannotDo as refusal:
    print(json.dumps(str(refusal)), flush=True)
"""
)
STATES = (
    BEGIN
    + """
asked = JoinRequest.objects.get()
print(json.dumps([asked.state, asked.member.is_admitted, Member.objects.secretaries().count()]))
"""
)


@pytest.fixture(scope="module")
def site(new_folder):
    """A migrated data folder with a few people; nothing is served."""
    site = Server(new_folder("two_processes", "empty"))
    site.environment |= {"CATALOGUE_DEBUG": "yes", "PYTHONPATH": str(ROOT)}
    assert begun(site, PEOPLE).wait() == 0
    return site


def begun(site, program: str, *words) -> subprocess.Popen:
    command = [sys.executable, "-c", program, *map(str, words)]
    return subprocess.Popen(
        command, env=site.environment, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )


def said(process: subprocess.Popen):
    out, _ = process.communicate(timeout=120)
    return json.loads(out)


def said_at_once(*processes: subprocess.Popen, rounds: int = 1) -> list[list]:
    """For each round, what each says that was begun and waits for the word, which all get at the same moment."""
    answers = []
    for _ in range(rounds):
        assert [process.stdout.readline() for process in processes] == ["ready\n"] * len(processes)
        for process in processes:
            process.stdin.write("\n")
            process.stdin.flush()
        answers.append([json.loads(process.stdout.readline()) for process in processes])
    for process in processes:
        process.communicate(timeout=120)
    return answers


def test_wrong_passwords_of_two_processes_are_counted_together(site):
    """Five in five minutes for one name; the back office has no sign-in of its own that would let more through."""
    first = said(begun(site, TRY, "Ada", "wrong", 3, "/account/login/"))
    second = said(begun(site, TRY, "Ada", "wrong", 3, "/account/login/"))
    right = said(begun(site, TRY, "Ada", "a-long-password", 1, "/account/login/"))
    in_the_office = said(begun(site, TRY, "Ada", "a-long-password", 1, "/admin/login/?next=/admin/"))

    assert first == ["wrong", "wrong", "wrong"]
    assert second == ["wrong", "wrong", "too many"]
    assert right == ["too many"]
    assert in_the_office != ["in"]


def test_of_two_moderators_at_once_one_decides_and_the_other_is_told(site):
    [both] = said_at_once(begun(site, DECIDE, "Mo", "admit"), begun(site, DECIDE, "Mia", "decline"))
    words = sorted(both, key=lambda one: one != "done")
    state, admitted, _ = said(begun(site, STATES))

    assert words[0] == "done"
    assert "decided" in words[1]
    assert admitted == (state == "admitted")


def test_two_secretaries_who_take_the_office_from_each_other_at_once_leave_one(site):
    [both] = said_at_once(begun(site, DEMOTE, "Sue", "Sam"), begun(site, DEMOTE, "Sam", "Sue"))
    words = sorted(both, key=lambda one: one != "done")

    assert words == ["done", "Only the secretary changes roles."]
    assert said(begun(site, STATES))[2] == 1
