"""Two moderators decide one proposal at once, each in a process of their own: one decision, one record, one notice.

On a database file, as a society has it, and on PostgreSQL where `CATALOGUE_DATABASE_URL` names one.
"""

from tests.catalogue.accounts.test_two_processes import BEGIN, begun, said, said_at_once
from tests.catalogue.review.test_two_at_once import site  # noqa: F401 - the same two databases

PROPOSED = (
    BEGIN
    + """
from tests.catalogue.review.proposing import decide, make_society_to_split, piece_of, sent, split_sent
society = make_society_to_split()
piece_of(society, society.other, cuff="plain")
small = sent(society.ben, society.one, {"name": "Fell smock"})
weighty = sent(society.ada, society.one, {"date": "1962"})
split = split_sent(society)
decide(split, society.max)
print(json.dumps([small.pk, weighty.pk, split.pk]))
"""
)
DECIDE = (
    BEGIN
    + """
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import NotDone
from tests.catalogue.review.proposing import decide
decider, numbers = Member.objects.get(username=sys.argv[1]), sys.argv[2:]
for proposal in [Proposal.objects.get(pk=number) for number in numbers]:
    wait_for_the_word()
    try:
        print(json.dumps(decide(proposal, decider).kind), flush=True)
    except NotDone as refusal:
        print(json.dumps(str(refusal)), flush=True)
"""
)
STANDS = (
    BEGIN
    + """
from django.db.models import Q
from catalogue.reference.models import VersionRecord
from catalogue.review.models import FollowedPiece, Notice, Proposal
def stands(proposal):
    kinds = list(proposal.decisions.values_list("kind", flat=True))
    told = Notice.objects.filter(proposal_decision__proposal=proposal, member=proposal.by).count()
    of_it = Q(decision__proposal=proposal) | Q(further__decision__proposal=proposal)
    moved = FollowedPiece.objects.filter(decision__proposal=proposal).count()
    return [proposal.state, kinds, VersionRecord.objects.filter(of_it).count(), told, moved]
print(json.dumps([stands(Proposal.objects.get(pk=number)) for number in sys.argv[1:]]))
"""
)


def test_of_two_who_approve_a_small_thing_at_once_one_does_and_a_weighty_one_gets_both(site):  # noqa: F811
    proposals = said(begun(site, PROPOSED))
    both = begun(site, DECIDE, "Mo", *proposals), begun(site, DECIDE, "Mia", *proposals)
    of_the_small, of_the_weighty, of_the_split = said_at_once(*both, rounds=3)
    small, weighty, split = said(begun(site, STANDS, *proposals))

    words = sorted(of_the_small, key=lambda one: one != "approved")
    assert words[0] == "approved"
    assert "there is nothing to decide" in words[1]
    assert small == ["approved", ["approved"], 1, 1, 0]
    assert sorted(of_the_weighty) == ["agreed", "approved"]
    assert weighty == ["approved", ["agreed", "approved"], 1, 2, 0]
    # Of a split that one had agreed to, one more is needed: three records, the piece moves once.
    words = sorted(of_the_split, key=lambda one: one != "approved")
    assert words[0] == "approved"
    assert "there is nothing to decide" in words[1]
    assert split == ["approved", ["agreed", "approved"], 3, 2, 1]
