"""Bring the society's CSV files in."""

from pathlib import Path

from django.core.management.base import CommandError

from catalogue.accounts.models import Member
from catalogue.management.with_tables import TablesCommand
from catalogue.member_examples.actions import NotDone
from catalogue.reference.actions import FaultyFolder, Tell, import_reference, tell_nobody, wrote
from catalogue.reference.plurals import counted
from catalogue.reference.review_state import review_is_on
from catalogue.review.importing.actions import Outcome, propose_import
from catalogue.review.scans.moving import bring_scans_in, has_scans
from catalogue.typed_words import can_be_read

UNDER_REVIEW = (
    "Nothing was imported: this reference is under review, so that changes of versions become proposals. Say who "
    "proposes them and on what they rest: --by EMAIL --because TEXT. (CATALOGUE_REVIEW says when a reference is.)"
)
SCANS_LEFT = (
    "The scans beside the spreadsheets are left: say who puts them in and why, --by EMAIL --because TEXT, and import "
    "the folder again."
)


class Command(TablesCommand):
    help = (
        "Import a folder of the society's CSV files (DEVELOPERS.md lists the columns). All or nothing. Under review "
        "(CATALOGUE_REVIEW) versions are not written: each that is changed becomes a proposal."
    )

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path)
        parser.add_argument("--by", default="", metavar="EMAIL", help="the member who brings them in")
        parser.add_argument("--because", default="", metavar="TEXT", help="on what the changes rest")

    def handle(self, *, folder: Path, by: str, because: str, verbosity: int, **options):
        tell = self.stdout.write if verbosity else tell_nobody
        member = member_at(by) if by else None
        try:
            if review_is_on():
                if member is None or not can_be_read(because):
                    raise CommandError(UNDER_REVIEW)
                tell_outcome(propose_import(folder=folder, by=member, because=because, tell=tell), tell)
                self.bring_scans_in(folder, member, because, tell)
                return
            counts = import_reference(folder=folder, tell=tell, by=member, because=because.strip())
        except FaultyFolder as problem:
            for fault in problem.faults:
                self.stderr.write(str(fault))
            raise CommandError(f"Nothing was imported: {counted(len(problem.faults), 'fault')}.") from problem
        except NotDone as refusal:
            raise CommandError(f"Nothing was imported: {refusal}") from refusal
        tell_counts(counts, tell)
        tell("Imported." if wrote(counts) else "Nothing had changed, so nothing was written.")
        self.bring_scans_in(folder, member, because, tell)

    def bring_scans_in(self, folder: Path, member: Member | None, because: str, tell: Tell) -> None:
        """Those beside the spreadsheets, once these are in; each waits for a moderator."""
        if not has_scans(folder):
            return
        if member is None or not can_be_read(because):
            tell(SCANS_LEFT)
            return
        done = bring_scans_in(folder=folder, by=member, because=because)
        for words in done.refused:
            self.stderr.write(words)
        tell(
            f"Scans of sources: {counted(len(done.written), 'proposal')} written, {done.there} there already, "
            f"{len(done.refused)} refused. A moderator lets each be shown."
        )


def member_at(address: str) -> Member:
    """The one admitted member with this verified e-mail address. Raises CommandError."""
    found = Member.objects.admitted().filter(emailaddress__email__iexact=address.strip(), emailaddress__verified=True)
    members = list(found.distinct())
    if len(members) != 1:
        raise CommandError(f"Nothing was imported: no member has the verified e-mail address {address}.")
    return members[0]


def tell_counts(counts, tell: Tell) -> None:
    for sheet, count in counts.items():
        tell(f"{sheet.replace('_', ' ')}: {count}")


def tell_outcome(outcome: Outcome, tell: Tell) -> None:
    """What was written at once, then each version of which no proposal was written, and how many were."""
    tell_counts(outcome.counts, tell)
    for line in outcome.waits:
        tell(f"Waits until the version stands; import the folder again then: {line}")
    for line in outcome.left:
        tell(f"Left: {line}")
    for line in outcome.refused:
        tell(f"Refused: {line}")
    numbers = f" ({', '.join(map(str, outcome.written))})" if outcome.written else ""
    tell(
        f"{counted(len(outcome.written), 'proposal')} written{numbers}, {len(outcome.left)} left, "
        f"{len(outcome.refused)} refused. Versions stay as they are until proposals are approved."
    )
