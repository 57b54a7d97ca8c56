"""Draw the pictures of the demo society's pieces that are not there yet."""

import os

from catalogue.management.with_tables import TablesCommand
from catalogue.member_examples.demo_pictures import draw_demo_pictures


class Command(TablesCommand):
    help = "Draw what the demo society's pieces lack in pictures. Stop it at any time; it goes on where it was."

    def add_arguments(self, parser):
        parser.add_argument("--most", type=int, help="at most so many pictures; all, if not said")
        parser.add_argument("--workers", type=int, help="processes that draw; one for each core, if not said")

    def handle(self, *, most: int | None, workers: int | None, **options):
        os.nice(10)  # the site itself goes first
        self.stdout.write(f"{draw_demo_pictures(most, workers=workers)} pictures drawn.")
