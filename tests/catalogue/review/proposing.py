"""A small society that proposes: a garment type with two versions, and people of every role."""

from types import SimpleNamespace

from catalogue.member_examples.models import Example
from catalogue.reference.models import ReferenceState, Source
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import (
    begin_change,
    begin_merge,
    begin_split,
    decide_on_proposal,
    revoke_approval,
    save_draft,
    send_proposal,
)
from catalogue.review.records.sealing import seal_records
from tests.catalogue.member_examples import pieces
from tests.making import make_feature, make_member, make_type, make_version


def cell(state: str, **fields) -> dict:
    """A cell of a row, as plain as it can be."""
    plain = {"how_often": "always", "share": None, "certainty": "", "first_year": None, "last_year": None, "note": ""}
    return {"state": state, **plain, "sizes": "", "makers": [], "sources": []} | fields


def make_society() -> SimpleNamespace:
    """Ada is an author; Mo, Mia and Max moderate; Ben is a member, Sue the secretary."""
    home = make_type("SMK", name="Smock", garment_class="jacket")
    closure = make_feature("closure", ("buttons", "zip", "none"), types=[home])
    cuff = make_feature("cuff", ("tab", "plain"), types=[home])
    one = make_version(home, "SMK-61", {closure: "buttons", cuff: "tab"}, name="Smock 61", date="1961/1975")
    other = make_version(home, "SMK-76", {closure: "buttons", cuff: "plain"}, name="Smock 76")
    seal_records([one.current_record_id, other.current_record_id])
    for code in ("S1", "S2"):
        Source.objects.create(code=code, title=f"Sheet {code}", kind="specification", grade="A")
    ReferenceState.mark_changed()
    return SimpleNamespace(
        home=home,
        smock=home,
        closure=closure,
        cuff=cuff,
        one=one,
        other=other,
        ada=make_member("Ada", role="author"),
        mo=make_member("Mo", role="moderator"),
        mia=make_member("Mia", role="moderator"),
        max=make_member("Max", role="moderator"),
        ben=make_member("Ben"),
        sue=make_member("Sue", role="secretary"),
    )


def drafted(by, version, rows: dict, *, sources=()) -> Proposal:
    """A draft that wants these rows otherwise."""
    version.refresh_from_db()
    made = begin_change(by=by, version=version)
    return save_draft(
        proposal=made, by=by, revision=made.revision, wanted=made.base | rows, grounds="A label says so.",
        sources=sources,
    )  # fmt: skip


def sent(by, version, rows: dict, **more) -> Proposal:
    return send_proposal(proposal=drafted(by, version, rows, **more), by=by)


def decide(proposal, decider, decision="approved", reason="The label was seen."):
    return decide_on_proposal(
        proposal=proposal, decider=decider, decision=decision, reason=reason, sending=proposal.times_sent
    )


def revoke(proposal, decider):
    return revoke_approval(proposal=proposal, decider=decider, reason="It was a slip.", sending=proposal.times_sent)


def merge_sent(society, rows: dict | None = None) -> Proposal:
    """That SMK-76 become part of SMK-61, as it is first offered or with these rows."""
    for one in (society.one, society.other):
        one.refresh_from_db()
    made = begin_merge(by=society.ada, stays=society.one, goes=society.other)
    wanted = {**made.base, **(made.rows if rows is None else rows)}
    made = save_draft(
        proposal=made, by=society.ada, revision=made.revision, wanted=wanted, grounds="One contract.", sources=[]
    )
    return send_proposal(proposal=made, by=society.ada)


def piece_of(society, version, owner=None, **seen: str) -> Example:
    """An accepted piece that is held as this version, with what its owner saw on it."""
    return pieces.accepted(society, version, owner or society.ben, **seen)


# SMK-76 of `make_society_to_split`, divided by its cuff.
DIVIDED = {"feature:cuff": [cell("tab")], "second:feature:cuff": [cell("plain")]}


def make_society_to_split() -> SimpleNamespace:
    """The society, where SMK-76 has two sorts of cuff on record."""
    society = make_society()
    both = [cell("tab", how_often="usually"), cell("plain", how_often="sometimes")]
    decide_both(society, sent(society.ada, society.other, {"feature:cuff": both}))
    society.other.refresh_from_db()
    return society


def decide_both(society, proposal):
    """The decision of the second of two."""
    decide(proposal, society.mo)
    return decide(proposal, society.mia)


def split_drafted(society, rows: dict | None = None, *, codes=("SMK-76A", "SMK-76B")) -> Proposal:
    """That SMK-76 be split by its cuff, or with these rows."""
    society.other.refresh_from_db()
    made = begin_split(by=society.ada, version=society.other, codes=codes, names=("Smock 76 tabbed", "Smock 76 plain"))
    wanted = {**made.base, **made.rows, **(DIVIDED if rows is None else rows)}
    return save_draft(
        proposal=made, by=society.ada, revision=made.revision, wanted=wanted, grounds="Two contracts.", sources=["S1"]
    )


def split_sent(society, rows: dict | None = None, **more) -> Proposal:
    return send_proposal(proposal=split_drafted(society, rows, **more), by=society.ada)
