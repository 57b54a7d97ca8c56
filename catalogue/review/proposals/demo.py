"""The demo society's proposals: one in every state, a merge and two splits among them. They are made by the same
actions as on the pages, and never twice.

What was approved leaves the reference as the demo's files have it, so that they can be read in again: it was approved
and later changed back, or revoked.
"""

from collections.abc import Mapping, Sequence
from datetime import timedelta
from uuid import NAMESPACE_URL, uuid5

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.models import Example
from catalogue.member_examples.queries import read_evidence
from catalogue.reference.models import Feature, IssueVersion, OpenQuestion
from catalogue.review.examples_queue.actions import keep_as_something_else
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import (
    begin_change,
    begin_feature,
    begin_merge,
    begin_new_feature,
    begin_new_version,
    begin_on_question,
    begin_split,
    decide_on_proposal,
    revoke_approval,
    save_draft,
    send_proposal,
    write_word_on_proposal,
)
from catalogue.review.proposals.merged import contradicted
from catalogue.review.proposals.rules import DECIDED
from catalogue.review.proposals.standing import rows_of_version
from catalogue.review.proposals.words import FEATURE, SECOND
from catalogue.review.questions.actions import add_view, disown_view
from catalogue.review.sources.actions import add_source, take_back


@transaction.atomic
def load_demo_proposals() -> int:
    """How many were made; none where there is any proposal already."""
    if Proposal.objects.exists():
        return 0
    hand = Hand()
    other = "Called otherwise in a newsletter that was withdrawn."
    # Open: small, weighty with one who agreed, and one that a moderator wrote.
    hand.sent(
        "Turnstone", "OVT-73", {"other_names": ["storm trousers"]}, "Members of the harbour branch say so.", days_ago=12
    )
    half = hand.sent(
        "Plover", "CAP-61", {"date": "1961/1973"}, "No label after 1973 has turned up.", ["S13"], days_ago=75
    )
    hand.decides(half, "Dunlin", "approved", "The dated labels end there.")
    hand.says(half, "Curlew", "I have a cap with a label of 1974, but I cannot read its last figure.")
    hand.sent(
        "Dunlin", "HAT-74L", {"reason": "Summer hat for the fell stations"}, "The fells alone are too little said."
    )
    # Returned with a question.
    asked = hand.sent(
        "Sanderling", "TRO-94", {"note": "The knee patch is cut from the same cloth."}, "Seen on my pair."
    )
    hand.decides(asked, "Whimbrel", "returned", "On how many pieces? Please send in one that shows it.")
    # Declined.
    declined = hand.sent("Plover", "LIN-67", {"kind": "trial"}, "So few are known.", ["S07"])
    hand.decides(declined, "Dunlin", "declined", "The report on the flood names it as issued; few is not a trial.")
    # Approved, and changed back by a later one that was approved as well.
    named = hand.sent("Godwit", "COA-63C", {"other_names": ["winter coat"]}, "Two sellers and a member call it so.")
    hand.decides(named, "Dunlin", "approved", "Heard it myself.")
    back = hand.sent("Ruff", "COA-63C", {"other_names": []}, other, [hand.sources()])
    hand.decides(back, "Whimbrel", "approved", "The name belongs to another coat.")
    # Approved by two, then revoked by two.
    dated = hand.sent("Plover", "OVT-73", {"date": "1972/2009"}, "A label seems to read 1972.", ["S08"])
    for name in ("Dunlin", "Whimbrel"):
        hand.decides(dated, name, "approved", "The figure can be read so.")
    for name in ("Whimbrel", "Dunlin"):
        hand.revokes(dated, name, "The label was cleaned: it reads 1977.")
    # A new state that one has agreed to, a new feature returned, a note that was approved and revoked.
    hand.features()
    # Of open questions: a decision that was revoked, one that waits.
    hand.questions()
    # A version that came by a proposal, took up pieces, and was merged again: its address says what became of it.
    hand.merges_again("BLO-71", "BLO-73", "Blouse, working, harbour order")
    # A split that one has agreed to, and one that was revoked: the two addresses that it made lead back.
    hand.splits()
    return Proposal.objects.count()


class Hand:
    """Does as the people of the demo would."""

    def __init__(self):
        self.people = {one.username: one for one in Member.objects.admitted()}
        self.versions = {one.code: one for one in IssueVersion.objects.select_related("garment_type")}

    def sent(
        self, by: str, version: str, rows: Mapping[str, object], grounds: str, sources: Sequence[str] = (),
        *, days_ago: int = 0,
    ) -> Proposal:  # fmt: skip
        person, of = self.people[by], self.versions[version]
        of.refresh_from_db()
        made = begin_change(by=person, version=of)
        made = save_draft(
            proposal=made, by=person, revision=made.revision, wanted=made.base | rows, grounds=grounds, sources=sources
        )
        made = send_proposal(proposal=made, by=person)
        if days_ago:
            at = made.sent_at - timedelta(days=days_ago)
            Proposal.objects.filter(pk=made.pk).update(sent_at=at, made_at=at)
            made.refresh_from_db()
        return made

    def features(self) -> None:
        """Of features: one proposal that waits, one that was returned, one that was approved and revoked."""
        state = {"label": "Metal chain", "low": None, "high": None, "drawing": "", "position": 9}
        waits = self.sent_of_feature(
            "hanger", {"state:chain": state}, "Two smocks of one contract hang by a small chain.", ["S08"]
        )
        self.decides(waits, "Dunlin", "approved", "I have one of them here.")
        plover = self.people["Plover"]
        new = begin_new_feature(
            by=plover,
            garment_type=self.versions["SMK-76"].garment_type,
            code="thread_shine",
            name="Shine of the thread",
        )
        states = {
            f"state:{code}": {**state, "label": label, "position": n}
            for n, (code, label) in enumerate((("dull", "Dull"), ("shiny", "Shiny")))
        }
        new = save_draft(
            proposal=new, by=plover, revision=new.revision, sources=[],
            wanted=new.rows | states | {"question": "Does the sewing thread shine?", "seen": "daylight", "error": 0.2},
            grounds="Late contracts seem to be sewn with a thread that shines; it would tell them apart from outside.",
        )  # fmt: skip
        new = send_proposal(proposal=new, by=plover)
        self.decides(new, "Dunlin", "returned", "Does it not go dull in the wash? On how many pieces was it seen?")
        note = "A loop that was cut off leaves two stumps in the seam."
        small = self.sent_of_feature("hanger", {"error_note": note}, "Seen on three smocks.", [])
        self.decides(small, "Dunlin", "approved", "So it is on mine.")
        self.revokes(small, "Dunlin", "The stumps were those of a label.")

    def questions(self) -> None:
        """Of open questions: one settled by two people and opened again, and one that waits."""
        closed = self.sent_of_question("D4", "B", "A scale of issue and every piece speak against it.", ["S06", "S32"])
        for name in ("Dunlin", "Whimbrel"):
            self.decides(closed, name, "approved", "No paper and no piece shows them.")
        for name in ("Whimbrel", "Dunlin"):
            self.revokes(closed, name, "The cook spoke of one winter; its scale of issue is still to be found.")
        self.sent_of_question("D6", "B", "Nobody else remembers one, in ten years.", ["S13"])
        told = add_view(
            question=OpenQuestion.objects.get(code="D6"), by=self.people["Ruff"], holder="Curlew", sources=[],
            text="Curlew is said to have seen one in a shop window.",
        )  # fmt: skip
        disown_view(view=told, by=self.people["Curlew"], disowned=True)

    def sources(self) -> str:
        """Two that members added: one that stays, whose code is returned, and one that was listed already."""
        twice = add_source(
            by=self.people["Ruff"], kind="publication", title="Newsletter 31", date="2009-12", holder="Circle",
            grade="C",
        )  # fmt: skip
        take_back(addition=twice, by=self.people["Dunlin"], reason="It is S38 already.")
        return add_source(
            by=self.people["Ruff"], kind="testimony", title="Circle meeting notes: what sellers call the coats",
            date="2019-03", holder="Circle archive", grade="D", note="Read out at the spring meeting.",
        ).code  # fmt: skip

    def splits(self) -> None:
        """Of splits: one by the seam, which a change of makers brought, that waits; one by the colour, revoked."""
        waits = self.sent_as_split(
            "COA-85", ("COA-86", "Coat, strand, Pattern 85, untreated, felled"),
            ("COA-92", "Coat, strand, Pattern 85, untreated, overedged"),
            by="main_seam", states=("felled", "overedged"), sources=["S17"],
            rows={"date": "1986/1992", "second:date": "1992/2001", "second:continues": ["COA-86"]},
            grounds="Since the contracts went abroad in 1992 the long seams are overedged; before, they are felled.",
        )  # fmt: skip
        self.decides(waits, "Dunlin", "approved", "Every overedged one that I have seen is of a late contract.")
        self.says(waits, "Curlew", "Is that a change of specification, or only the way of one works?")
        undone = self.sent_as_split(
            "LIN-67", ("LIN-67D", "Liner, coat, Pattern 67, drab"), ("LIN-67S", "Liner, coat, Pattern 67, slate"),
            by="colour", states=("drab", "slate"), sources=["S07"],
            rows={}, grounds="Slate ones are spoken of as an issue of their own.",
        )  # fmt: skip
        for name in ("Dunlin", "Whimbrel"):
            self.decides(undone, name, "approved", "They were called for under two names.")
        for name in ("Whimbrel", "Dunlin"):
            self.revokes(undone, name, "One contract delivered both: the cloth ran out.")

    def sent_as_split(
        self, code: str, *both: tuple[str, str], by: str, states: tuple[str, str], rows: Mapping[str, object],
        grounds: str, sources: Sequence[str],
    ) -> Proposal:  # fmt: skip
        """That a version be split into two, by code and name, of which each shows one of the states."""
        plover, version = self.people["Plover"], self.versions[code]
        version.refresh_from_db()
        codes, names = zip(*both, strict=True)
        made = begin_split(by=plover, version=version, codes=codes, names=names)
        cells = {cell["state"]: {**cell, "how_often": "always", "share": None} for cell in made.base[f"{FEATURE}{by}"]}
        between = {f"{place}{FEATURE}{by}": [cells[state]] for place, state in zip(("", SECOND), states, strict=True)}
        made = save_draft(
            proposal=made, by=plover, revision=made.revision, wanted=made.base | made.rows | between | rows,
            grounds=grounds, sources=sources,
        )  # fmt: skip
        return send_proposal(proposal=made, by=plover)

    def sent_of_question(self, code: str, decided: str, grounds: str, sources: Sequence[str]) -> Proposal:
        plover = self.people["Plover"]
        made = begin_on_question(by=plover, question=OpenQuestion.objects.get(code=code))
        wanted = made.base | {DECIDED: decided}
        made = save_draft(
            proposal=made, by=plover, revision=made.revision, wanted=wanted, grounds=grounds, sources=sources
        )
        return send_proposal(proposal=made, by=plover)

    def sent_of_feature(self, code: str, rows: Mapping[str, object], grounds: str, sources: Sequence[str]) -> Proposal:
        plover = self.people["Plover"]
        made = begin_feature(by=plover, feature=Feature.objects.get(code=code))
        made = save_draft(
            proposal=made, by=plover, revision=made.revision, wanted=made.base | rows, grounds=grounds, sources=sources
        )
        return send_proposal(proposal=made, by=plover)

    def decides(self, proposal: Proposal, by: str, decision: str, reason: str) -> None:
        decide_on_proposal(
            proposal=proposal, decider=self.people[by], decision=decision, reason=reason, sending=proposal.times_sent
        )

    def merges_again(self, stays: str, code: str, name: str) -> None:
        """A version beside `stays`, approved by two, with some of its pieces, then held to be the same after all. What
        `stays` has on record is left as it is."""
        plover, both, first = self.people["Plover"], ("Dunlin", "Whimbrel"), self.versions[stays]
        first.refresh_from_db()
        new = begin_new_version(by=plover, garment_type=first.garment_type, code=code, name=name, copy_of=first)
        new = save_draft(
            proposal=new, by=plover, revision=new.revision, wanted=new.rows, sources=["S08"],
            grounds="Three pieces from the harbours seem to have come in one delivery.",
        )  # fmt: skip
        new = send_proposal(proposal=new, by=plover)
        for by in both:
            self.decides(new, by, "approved", "They can be told by their delivery.")
        for example in self.pieces_to_move(first):
            keep_as_something_else(
                example=example, moderator=self.people["Dunlin"], reason="From that delivery.",
                held_as=new.version, held="", believed=stays,
            )  # fmt: skip
        first.refresh_from_db()
        merge = begin_merge(by=plover, stays=first, goes=new.version)
        merge = save_draft(
            proposal=merge, by=plover, revision=merge.revision, wanted=merge.base, sources=["S08"],
            grounds="The delivery was of the same contract; nothing on the pieces tells them apart.",
        )  # fmt: skip
        merge = send_proposal(proposal=merge, by=plover)
        for by in both:
            self.decides(merge, by, "approved", "One contract, one version.")

    def pieces_to_move(self, version: IssueVersion) -> list[Example]:
        """Of the accepted pieces of a version that are not Dunlin's one that contradicts it, and two that do not."""
        rows = rows_of_version(version)
        seen = read_evidence(version.garment_type.code).by_version.get(version.code, [])
        against = {piece.code: bool(contradicted(piece, rows)) for piece in seen}
        pieces = list(Example.objects.filter(code__in=against).exclude(owner=self.people["Dunlin"]).order_by("code"))
        return [p for p in pieces if against[p.code]][:1] + [p for p in pieces if not against[p.code]][:2]

    def revokes(self, proposal: Proposal, by: str, reason: str) -> None:
        revoke_approval(proposal=proposal, decider=self.people[by], reason=reason, sending=proposal.times_sent)

    def says(self, proposal: Proposal, by: str, text: str) -> None:
        token = uuid5(NAMESPACE_URL, f"demo-word-{proposal.pk}-{by}")
        write_word_on_proposal(proposal=proposal, by=self.people[by], text=text, token=token)
