from django.core.management.base import CommandError

from catalogue.management.with_tables import TablesCommand
from catalogue.reference.plurals import counted
from catalogue.review.features.recording import faults_of_features
from catalogue.review.records.as_decided import faults_of_backings, faults_of_decided_versions
from catalogue.review.records.decisions import faults_of_decisions
from catalogue.review.records.verifying import faults, faults_of_versions, is_known, newest, newest_of_decisions


class Command(TablesCommand):
    help = "Verifies that records and decisions are still as they were sealed. Names each fault; fails where one is."

    def add_arguments(self, parser):
        parser.add_argument(
            "--noted",
            action="append",
            default=[],
            metavar="DIGEST",
            help="a digest that this command gave earlier: it must still stand in the chain; may be repeated",
        )

    def handle(self, *args, **options):
        found = [
            *faults(),
            *faults_of_versions(),
            *faults_of_features(),
            *faults_of_decisions(),
            *faults_of_decided_versions(),
            *faults_of_backings(),
        ]
        found += [f"the digest {one} does not stand in the chain" for one in options["noted"] if not is_known(one)]
        for fault in found:
            self.stderr.write(fault)
        if found:
            raise CommandError(f"{counted(len(found), 'fault')} found.")
        last = newest()
        if last is None:
            self.stdout.write("No record has been written yet.")
            return
        self.stdout.write(
            f"{counted(last.number, 'record')} sealed, no fault. The newest digest, to be noted elsewhere:"
        )
        self.stdout.write(last.digest)
        if decided := newest_of_decisions():
            self.stdout.write(f"{counted(decided.number, 'decision')} sealed. The newest digest of theirs:")
            self.stdout.write(decided.digest)
