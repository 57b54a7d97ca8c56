"""Bring up the site with the demo society in it."""

import errno
import socket

import waitress
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.core.wsgi import get_wsgi_application

from catalogue.member_examples.demo import load_demo_examples
from catalogue.reference.demo import DEMO_PASSWORD, SIGN_INS, NotTheDemo, load_demo

HOST = "127.0.0.1"
HIGHEST_PORT = 65_535


class Command(BaseCommand):
    help = "Set up the database, load the demo society, and serve the site on this machine only."

    def add_arguments(self, parser):
        parser.add_argument("--port", type=int, default=8000)
        parser.add_argument("--no-serve", action="store_true", help="set everything up, then stop")

    def handle(self, *, port: int, no_serve: bool, **options):
        refuse_impossible_port(port)
        if not no_serve:
            refuse_taken_port(port)
        call_command("migrate", verbosity=0)
        try:
            changed = load_demo()
            pieces = load_demo_examples()
        except NotTheDemo as problem:
            raise CommandError(str(problem)) from problem
        call_command("collectstatic", interactive=False, verbosity=0)
        self.stdout.write("The demo society was loaded." if changed or pieces else "The demo society is there already.")
        names = ", ".join(f"{username} ({role.label.lower()})" for username, role, _ in SIGN_INS)
        self.stdout.write(f"Back office: http://{HOST}:{port}/admin/  sign in as {names}")
        self.stdout.write(f"Password of all four: {DEMO_PASSWORD}  (unless you have changed it)")
        if not no_serve:
            self.stdout.write(f"The site: http://{HOST}:{port}/  Stop it with Ctrl-C.")
            self.stdout.flush()
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
            if problem.errno != errno.EADDRINUSE:
                reason = problem.strerror.lower()
                raise CommandError(
                    f"Port {port} cannot be used ({reason}). Choose another with --port 8001."
                ) from problem
            raise CommandError(
                f"Port {port} of this machine is in use; perhaps the site runs already: http://{HOST}:{port}/ . "
                "Choose another with --port 8001."
            ) from problem


def serve(port: int) -> None:
    """Serve until stopped; made only now, when the static files are collected. Slow phones do not block others."""
    waitress.serve(get_wsgi_application(), host=HOST, port=port, threads=4, ident=None)
