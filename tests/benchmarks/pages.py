"""CPU and bytes of our pages, beside a minimal Django project in the same interleaved run. Prints, asserts nothing.

    python -m tests.benchmarks.pages [--rounds 3] [--seconds 2] [--without-large]

CPU is user and system time of the server's processes for one request, median of the rounds. Server of all: gunicorn,
two synchronous workers, SQLite, loopback, four clients, gzip accepted. The minimal project runs twice: with the
middleware that `startproject` writes (and whitenoise), as the baseline figures were taken, which a run must find again
before any figure counts; and with our own middleware and compression, which is what our pages are judged by.
"""

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.benchmarks.servers import Gunicorn, Sample, bytes_of, fetched, measured, minimal_environment, pass_cautions
from tests.site_server import DEMO_FOLDER, ROOT, society_environment

# What a list and a list with facets cost on this server, from five runs of 25 November 2026 (wrk, 2 cores).
LIST_TO_EMPTY = (10.0, 13.0)
FACETS_TO_LIST = (2.4, 2.9)
EMPTY, LIST, FACETS = "/empty/", "/list/", "/facets/"
MINIMAL = [(stack, path) for stack in ("default", "ours") for path in (EMPTY, LIST, FACETS)]
ANSWERS = "front_closure=cannot-tell&waist_draw=cannot-tell"
# Path, against which page of the minimal project, and at most how many times its CPU.
PAGES = [
    ("/", LIST, 1.5),
    ("/garment-types/", LIST, 1.5),
    ("/sources/", LIST, 1.5),
    ("/makers/", LIST, 1.5),
    ("/open-questions/", LIST, 1.5),
    ("/features/", LIST, 1.5),
    ("/search/?q=27-114-06", LIST, 1.5),
    ("/which/", LIST, 1.5),
    ("/which/BLO/", LIST, 2.0),
    (f"/which/BLO/?{ANSWERS}", LIST, 2.0),
    ("/which/any-garment/", LIST, 2.0),
    (f"/which/BLO/?{ANSWERS}&_stop=yes", LIST, 2.5),
    ("/issue-versions/BLO-86/", LIST, 2.5),
    ("/garment-types/BLO/", LIST, 2.5),
    ("/compare/?v=BLO-86&v=BLO-71", LIST, 2.5),
    ("/compare/?v=BLO-86&v=BLO-71&v=BLO-57&v=BLO-94", LIST, 4.0),
    ("/features/closure/", LIST, 1.5),
    ("/issue-versions/", FACETS, 1.3),
    ("/issue-versions/?kind=issue", FACETS, 1.3),
]
LARGE_PAGES = [("/issue-versions/", FACETS, 1.3), ("/issue-versions/?page=7", FACETS, 1.3), ("/sources/", LIST, 1.5)]
LARGE_TIMES = 80  # about as many versions as the minimal project has rows


def prepared_site(folder: Path, times: int) -> dict[str, str]:
    """A data folder with the demo society, so many times over."""
    environment = society_environment(folder) | {"PYTHONPATH": str(ROOT)}
    load = ["import_reference", str(DEMO_FOLDER)]
    for words in (["migrate", "-v0"], load, ["collectstatic", "--noinput", "-v0"]):
        run([str(ROOT / "manage.py"), *words], environment)
    if times > 1:
        program = "import django; django.setup(); from tests.making import multiply_reference; "
        run(["-c", f"{program}multiply_reference({times})"], environment)
    return environment


def run(words: list[str], environment: dict[str, str]) -> None:
    subprocess.run([sys.executable, *words], env=environment, cwd=ROOT, check=True, stdout=subprocess.DEVNULL)


def all_servers(scratch: Path, sites: dict[str, int]) -> dict[str, Gunicorn]:
    """The minimal project twice, and each of the sites with the demo society so many times over."""
    folders = {name: scratch / name for name in (*sites, "minimal")}
    for folder in folders.values():
        folder.mkdir()
    run(["-m", "tests.benchmarks.minimal_django.fill"], minimal_environment(folders["minimal"], "default"))
    application = "tests.benchmarks.minimal_django.wsgi"
    servers = {
        stack: Gunicorn(stack, application, minimal_environment(folders["minimal"], stack))
        for stack in ("default", "ours")
    }
    for name, times in sites.items():
        servers[name] = Gunicorn(name, "catalogue.wsgi", prepared_site(folders[name], times))
    return servers


def all_samples(servers: dict[str, Gunicorn], pages: list[tuple[str, str]], rounds: int, seconds: float) -> dict:
    """Every page once a round, so that whatever else the machine does falls on all of them alike."""
    samples: dict[tuple[str, str], list[Sample]] = {page: [] for page in pages}
    for name, path in pages:
        for _ in range(8):  # both workers have read the reference before anything counts
            fetched(servers[name].port, path)
    for number in range(rounds):
        print(f"round {number + 1} of {rounds}, load average {os.getloadavg()[0]:.1f}", file=sys.stderr)
        for name, path in pages:
            samples[name, path].append(measured(servers[name], path, seconds))
    return samples


def median(samples: list[Sample]) -> float:
    return statistics.median(sample.milliseconds for sample in samples)


def print_baseline(samples: dict) -> bool:
    """Both minimal projects; True when the baseline's proportions were found again."""
    print("\nMinimal Django project, CPU ms for one request (median)")
    print(f"{'middleware':<12}{'empty':>8}{'list':>8}{'facets':>8}{'list/empty':>12}{'facets/list':>13}")
    ratios = {}
    for stack in ("default", "ours"):
        empty, plain, facets = (median(samples[stack, path]) for path in (EMPTY, LIST, FACETS))
        ratios[stack] = plain / empty, facets / plain
        print(f"{stack:<12}{empty:>8.3f}{plain:>8.3f}{facets:>8.3f}{plain / empty:>12.1f}{facets / plain:>13.2f}")
    low, high = LIST_TO_EMPTY
    least, most = FACETS_TO_LIST
    found = low <= ratios["default"][0] <= high and least <= ratios["default"][1] <= most
    print(
        f"Baseline: list {low:g} to {high:g} times the empty answer, facets {least:g} to {most:g} times the list, with"
    )
    print("the default middleware. Our middleware compresses and adds headers, so its list/empty differs by design.")
    print("The baseline was found again: the figures count." if found else "NOT found again: NO FIGURE BELOW COUNTS.")
    return found


def print_pages(samples: dict, servers: dict[str, Gunicorn]) -> None:
    print(f"\n{'page':<62}{'ms':>7}{'min':>7}{'max':>7}{'times':>7}{'limit':>7}  {'of':<8}{'wire':>7}{'page B':>8}")
    for name, pages in (("site", PAGES), ("large site", LARGE_PAGES)):
        if name not in servers:
            continue
        print(f"{name} ({'the demo society' if name == 'site' else f'{LARGE_TIMES} times the demo society'})")
        for path, beside, limit in pages:
            rows = samples[name, path]
            times = median(rows) / median(samples["ours", beside])
            wire, whole = bytes_of(servers[name], path)
            low, high = min(r.milliseconds for r in rows), max(r.milliseconds for r in rows)
            mark = "" if times <= limit else "  OVER"
            faults = sum(row.faults for row in rows)
            print(
                f"{path[:61]:<62}{median(rows):>7.2f}{low:>7.2f}{high:>7.2f}{times:>7.2f}{limit:>7.1f}  "
                f"{beside.strip('/'):<8}{wire:>7}{whole:>8}{mark}{f'  {faults} NOT 200' if faults else ''}"
            )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--seconds", type=float, default=2.0)
    parser.add_argument("--without-large", action="store_true", help="leave out the site of many times the demo")
    options = parser.parse_args()
    sites = {"site": 1} | ({} if options.without_large else {"large site": LARGE_TIMES})
    pages = MINIMAL + [("site", path) for path, _, _ in PAGES]
    pages += [] if options.without_large else [("large site", path) for path, _, _ in LARGE_PAGES]
    servers: dict[str, Gunicorn] = {}
    with tempfile.TemporaryDirectory(prefix="catalogue-pages-") as scratch:
        try:
            servers = all_servers(Path(scratch), sites)
            pass_cautions(servers["site"].port, ["/which/BLO/", "/which/any-garment/"])
            samples = all_samples(servers, pages, options.rounds, options.seconds)
            print_baseline(samples)
            print_pages(samples, servers)
        finally:
            for server in servers.values():
                server.stop()


if __name__ == "__main__":
    main()
