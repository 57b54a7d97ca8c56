"""Two moderators decide one proposal at once, each in a process of their own: one decision, one record, one notice.

On a database file, as a society has it, and on PostgreSQL where `CATALOGUE_DATABASE_URL` names one.
"""

import time

from tests.catalogue.accounts.test_two_processes import BEGIN, begun, said
from tests.catalogue.review.test_two_at_once import site  # noqa: F401 - the same two databases

PROPOSED = (
    BEGIN
    + """
from tests.catalogue.review.proposing import make_society, sent
society = make_society()
small = sent(society.ben, society.one, {"name": "Fell smock"})
weighty = sent(society.ada, society.one, {"date": "1962"})
print(json.dumps([small.pk, weighty.pk]))
"""
)
DECIDE = (
    BEGIN
    + """
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import NotDone
from tests.catalogue.review.proposing import decide
proposal, decider = Proposal.objects.get(pk=sys.argv[2]), Member.objects.get(username=sys.argv[1])
time.sleep(max(0, float(sys.argv[3]) - time.time()))
try:
    print(json.dumps(decide(proposal, decider).kind))
except NotDone as refusal:
    print(json.dumps(str(refusal)))
"""
)
STANDS = (
    BEGIN
    + """
from catalogue.reference.models import VersionRecord
from catalogue.review.models import Notice, Proposal
proposal = Proposal.objects.get(pk=sys.argv[1])
kinds = list(proposal.decisions.values_list("kind", flat=True))
told = Notice.objects.filter(proposal_decision__proposal=proposal, member=proposal.by).count()
records = VersionRecord.objects.filter(decision__proposal=proposal).count()
print(json.dumps([proposal.state, kinds, records, told]))
"""
)


def test_of_two_who_approve_a_small_thing_at_once_one_does_and_a_weighty_one_gets_both(site):  # noqa: F811
    small, weighty = said(begun(site, PROPOSED))

    at = time.time() + 6
    both = [begun(site, DECIDE, who, small, at) for who in ("Mo", "Mia")]
    words = sorted(map(said, both), key=lambda one: one != "approved")
    assert words[0] == "approved"
    assert "there is nothing to decide" in words[1]
    assert said(begun(site, STANDS, small)) == ["approved", ["approved"], 1, 1]

    at = time.time() + 6
    both = [begun(site, DECIDE, who, weighty, at) for who in ("Mo", "Mia")]
    assert sorted(map(said, both)) == ["agreed", "approved"]
    assert said(begun(site, STANDS, weighty)) == ["approved", ["agreed", "approved"], 1, 2]
