"""The mail of those who want their notices once a day or once a week."""

from django.core.management.base import CommandError
from django.utils import timezone

from catalogue.management.with_tables import TablesCommand
from catalogue.review.notices.telling import send_digests


class Command(TablesCommand):
    help = "Sends one mail to each member who wants notices once a day or once a week; to be run by cron or a timer."

    def handle(self, *args, **options):
        sent, failed = send_digests(now=timezone.now())
        self.stdout.write(f"{sent} sent.")
        if failed:
            raise CommandError(f"{failed} could not be sent; they go with the next run.")
