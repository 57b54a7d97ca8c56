"""Two scans of the demo society's sources, one shown and one that waits, drawn from records and marked so."""

from io import BytesIO

from catalogue.accounts.models import Member
from catalogue.member_examples.demo_photographs.photograph import demo_photograph
from catalogue.member_examples.demo_photographs.piece import DemoPiece
from catalogue.member_examples.models import Label
from catalogue.reference.models import Source, SourceScan
from catalogue.reference.snapshots import type_facts
from catalogue.reference.words import NamesOnScan
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import decide_on_proposal, save_draft, send_proposal
from catalogue.review.scans.actions import begin_scan

# Source, version whose label is drawn, who puts it in.
SHOWN = ("S22", "SMK-61", "Turnstone")
WAITS = ("S24", "SMK-74L", "Godwit")


def load_demo_scans() -> bool:
    """Puts them in where no source has a scan; returns whether anything was written."""
    if SourceScan.objects.exists():
        return False
    made = sent(*SHOWN)
    decide_on_proposal(
        proposal=made, decider=Member.objects.get(username="Dunlin"), decision="approved",
        reason="Legible, and no wearer’s name on it.", sending=made.times_sent,
    )  # fmt: skip
    sent(*WAITS)
    return True


def sent(source: str, version: str, by: str) -> Proposal:
    person, home = Member.objects.get(username=by), type_facts(version.partition("-")[0])
    labels = Label.objects.filter(example__held_as__code=version, example__state="accepted").exclude(text="")
    label = labels.order_by("pk").select_related("example").first()
    text = label.text.replace("\n", " / ")
    piece = DemoPiece(f"label of {version}", home, {}, home.versions[version], label_text=text)
    made = begin_scan(
        by=person, source=Source.objects.get(code=source), file=BytesIO(demo_photograph(piece, "main_label"))
    )
    wanted = {
        "shows": f"Drawn in place of a photograph: the label of {label.example.code}, one of those recorded",
        "credit": by,
        "licence": "CC BY 4.0",
        "names": NamesOnScan.NONE.value,
    }
    made = save_draft(
        proposal=made, by=person, revision=made.revision, wanted=wanted, sources=[],
        grounds="Shows how the year stands on such a label.",
    )  # fmt: skip
    return send_proposal(proposal=made, by=person)
