"""Two moderators decide on one piece at once, each in a process of their own: one decision stands, one notice is made.

On a database file, as a society has it, and on PostgreSQL where `CATALOGUE_DATABASE_URL` names one.
"""

import os
from urllib.parse import urlsplit, urlunsplit

import pytest

from tests.catalogue.accounts.test_two_processes import BEGIN, begun, said, said_at_once
from tests.site_server import ROOT, Server

PIECES = (
    BEGIN
    + """
from tests.catalogue.member_examples.pieces import make_society, sent
society = make_society()
print(json.dumps([sent(society, closure="zip").code for _ in range(3)]))
"""
)
DECIDE = (
    BEGIN
    + """
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.models import Example
from catalogue.reference.models import IssueVersion
from catalogue.review.examples_queue.actions import decide_on_piece
moderator, decision, codes = Member.objects.get(username=sys.argv[1]), sys.argv[2], sys.argv[3:]
version = IssueVersion.objects.get(code="SMK-76") if decision == "accepted" else None
for piece in [Example.objects.get(code=code) for code in codes]:
    wait_for_the_word()
    try:
        decide_on_piece(
            example=piece, moderator=moderator, decision=decision, reason="x", sending=1, held_as=version
        )
        print(json.dumps("done"), flush=True)
    except NotDone as refusal:
        print(json.dumps(str(refusal)), flush=True)
"""
)
STANDS = (
    BEGIN
    + """
from catalogue.member_examples.models import Example
from catalogue.review.models import Notice
def stands(piece):
    told = Notice.objects.filter(decision__example=piece)
    return [piece.state, list(piece.decisions.values_list("decision", flat=True)), told.count()]
print(json.dumps([stands(Example.objects.get(code=code)) for code in sys.argv[1:]]))
"""
)


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def site(request, tmp_path_factory, new_folder):
    """A migrated data folder or database with three pieces that wait; nothing is served."""
    on_server = request.param == "postgresql"
    site = Server(tmp_path_factory.mktemp("postgresql") if on_server else new_folder("sqlite", "empty"))
    site.environment |= {"CATALOGUE_DEBUG": "yes", "PYTHONPATH": str(ROOT)}
    if on_server:
        yield from on_postgresql(site)
    else:
        yield site


def on_postgresql(site):
    """The same on a new database of the server that the run is given, which goes again afterwards."""
    given = os.environ.get("CATALOGUE_DATABASE_URL", "")
    if not given.startswith("postgres"):
        pytest.skip("CATALOGUE_DATABASE_URL names no PostgreSQL")
    psycopg = pytest.importorskip("psycopg")
    name = f"two_at_once_{os.getpid()}"
    with psycopg.connect(given, autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}")
        site.environment["CATALOGUE_DATABASE_URL"] = urlunsplit(urlsplit(given)._replace(path=f"/{name}"))
        try:
            site.manage("migrate", "--verbosity=0")
            yield site
        finally:
            connection.execute(f"DROP DATABASE {name} WITH (FORCE)")


def test_of_two_moderators_who_decide_at_once_one_does_and_the_other_is_told(site):
    codes = said(begun(site, PIECES))
    both = begun(site, DECIDE, "Mo", "accepted", *codes), begun(site, DECIDE, "Mia", "declined", *codes)
    rounds = said_at_once(*both, rounds=len(codes))

    for words in rounds:
        assert sorted(words, key=lambda one: one != "done")[0] == "done"
        assert "Look again before you decide" in max(words, key=lambda one: one != "done")
    for state, decisions, told in said(begun(site, STANDS, *codes)):
        assert decisions == [state]
        assert told == 1
