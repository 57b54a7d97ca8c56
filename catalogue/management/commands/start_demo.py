"""Bring up the site with the demo society in it."""

import errno
import fcntl
import signal
import socket
import subprocess
import sys
from contextlib import contextmanager

import waitress
from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.core.wsgi import get_wsgi_application

from catalogue.member_examples.demo import load_demo_examples
from catalogue.member_examples.demo_pictures import draw_demo_pictures, pictures_drawn
from catalogue.member_examples.marked_photographs.demo import load_demo_marked_photograph
from catalogue.member_examples.photographs.limits import LARGEST_REQUEST
from catalogue.reference.demo import DEMO_PASSWORD, SIGN_INS, NotTheDemo, load_demo
from catalogue.review.deputies.demo import load_demo_leave
from catalogue.review.importing.demo import load_demo_import
from catalogue.review.proposals.demo import load_demo_proposals
from catalogue.review.scans.demo import load_demo_scans
from catalogue.review.unreviewed.demo import load_demo_looks

HOST = "127.0.0.1"
HIGHEST_PORT = 65_535
# One for each version that has a piece: so many are drawn in some ten seconds.
FIRST_PICTURES = 60


class Command(BaseCommand):
    help = "Set up the database, load the demo society, and serve the site on this machine only."

    def add_arguments(self, parser):
        parser.add_argument("--port", type=int, default=8000)
        parser.add_argument("--no-serve", action="store_true", help="set everything up, then stop")
        parser.add_argument(
            "--pictures", type=int, default=FIRST_PICTURES, help="pictures drawn before the site starts"
        )

    def handle(self, *, port: int, no_serve: bool, pictures: int, **options):
        refuse_impossible_port(port)
        if not no_serve:
            refuse_taken_port(port)
        with folder_to_itself(port):
            self.set_up_and_serve(port, no_serve, pictures)

    def set_up_and_serve(self, port: int, no_serve: bool, pictures: int) -> None:
        call_command("migrate", verbosity=0)
        try:
            changed = load_demo()
            pieces = load_demo_examples()
            load_demo_looks()
            load_demo_proposals()
            load_demo_import()
            load_demo_leave()
            load_demo_marked_photograph()
            load_demo_scans()
        except NotTheDemo as problem:
            raise CommandError(str(problem)) from problem
        call_command("collectstatic", interactive=False, verbosity=0)
        drawn = draw_demo_pictures(max(0, pictures - pictures_drawn()))
        self.stdout.write("The demo society was loaded." if changed or pieces else "The demo society is there already.")
        names = ", ".join(f"{username} ({role.label.lower()})" for username, role in SIGN_INS)
        self.stdout.write(f"Sign in: http://{HOST}:{port}/account/login/  as {names}")
        self.stdout.write(f"Password of all members: {DEMO_PASSWORD}  (unless you have changed it)")
        self.stdout.write(f"Back office: http://{HOST}:{port}/admin/  for the author, the moderator and the secretary")
        if not no_serve:
            self.stdout.write(f"The site: http://{HOST}:{port}/  Stop it with Ctrl-C. Mail it sends is printed here.")
            if drawn:
                self.stdout.write("Pictures of the pieces are drawn while the site runs; the first are there.")
            self.stdout.flush()
            with rest_of_the_pictures():
                serve(port)


def refuse_impossible_port(port: int) -> None:
    if not 1 <= port <= HIGHEST_PORT:
        raise CommandError(f"There is no port {port}: a port is a number from 1 to {HIGHEST_PORT}, as --port 8001.")


def refuse_taken_port(port: int) -> None:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((HOST, port))
        except OSError as problem:
            raise unusable(port, problem) from problem


def unusable(port: int, problem: OSError) -> CommandError:
    """What to say of a port that cannot be had."""
    if problem.errno != errno.EADDRINUSE:
        reason = problem.strerror.lower()
        return CommandError(f"Port {port} cannot be used ({reason}). Choose another with --port 8001.")
    return CommandError(
        f"Port {port} of this machine is in use; perhaps the site runs already: http://{HOST}:{port}/ . "
        "Choose another with --port 8001."
    )


@contextmanager
def folder_to_itself(port: int):
    """One demo at a time sets up, or serves from, the data folder: a second is refused, in words, before it touches the
    database. However a process ends, the system lets go of its lock."""
    with (settings.DATA_FOLDER / "start_demo.lock").open("a+") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as problem:
            lock.seek(0)
            raise CommandError(
                f"The demo is being set up, or runs already, on the data folder {settings.DATA_FOLDER} "
                f"{lock.read().strip()}. Wait for that one or stop it, or give this one a folder of its own "
                "with CATALOGUE_DATA_FOLDER."
            ) from problem
        lock.truncate(0)
        lock.write(f"(for http://{HOST}:{port}/)")
        lock.flush()
        yield


@contextmanager
def rest_of_the_pictures():
    """Draws what is missing in a process of low priority, which ends with this one, also when it is told to from
    outside: by itself a process that is terminated leaves nothing time to end what it began."""
    drawing = subprocess.Popen(  # noqa: S603 - our own command
        [sys.executable, str(settings.BASE_DIR / "manage.py"), "draw_demo_pictures", "--workers", "1"],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,  # a Ctrl-C is for the site, which then ends the drawing
    )
    before = signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)
        drawing.terminate()
        drawing.wait()


def serve(port: int) -> None:
    """Serve until stopped; made only now, when the static files are collected. Slow phones do not block others."""
    try:
        server = waitress.create_server(
            get_wsgi_application(), host=HOST, port=port, threads=4, ident=None, max_request_body_size=LARGEST_REQUEST
        )
    except OSError as problem:  # something took the port while the demo was set up
        raise unusable(port, problem) from problem
    server.run()
