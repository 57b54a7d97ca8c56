"""CPU and queries of the gallery at 100,000 pieces, by every filter and on deep pages, beside the list of a minimal
Django project in the same interleaved run. Prints, asserts nothing.

    python -m tests.benchmarks.gallery [--pieces 100000] [--rounds 3] [--seconds 2]

Judged by: at most 1.5 times the minimal project's list. What is narrowed is worked out at the first visit after a
change, which is printed apart, in milliseconds of the whole answer.
"""

import argparse
import random
import tempfile
import time
from pathlib import Path

from tests.benchmarks.pages import LIST, all_samples, median, prepared_site, run
from tests.benchmarks.servers import Gunicorn, fetched, minimal_environment

FILTERS = [
    "/examples/",
    "/examples/?page=2",
    "/examples/?page=2000",
    "/examples/?page=4166",
    "/examples/?type=BLO",
    "/examples/?type=BLO&page=300",
    "/examples/?version=BLO-86",
    "/examples/?maker=DUN",
    "/examples/?size=4",
    "/examples/?condition=good",
    "/examples/?year_from=1970&year_to=1974",
    "/examples/?looked=more",
    "/examples/?looked=one",
    "/examples/?type=BLO&shows=cuff:tab_button",
    "/examples/?type=BLO&maker=DUN&size=4&condition=good&year_from=1970",
    "/examples/?q=E50000",
    "/examples/?q=27-114-06",
    "/examples/?q=no+such+label",
]
SIZES = ("1", "2", "3", "4", "5", "6", "160/88", "168/92", "174/96", "182/104")
MAKERS_SHARE, YEARS = 0.8, range(1952, 2010)


def fill(pieces: int) -> None:
    """So many accepted pieces of the demo's versions, each with a label, two photographs and four looks."""
    from django.db import transaction
    from django.utils import timezone

    from catalogue.accounts.models import Member
    from catalogue.member_examples.models import Example, Label, Observation, Photograph
    from catalogue.member_examples.models.particulars import bare_text
    from catalogue.member_examples.words import Condition
    from catalogue.reference.models import FeatureState, IssueVersion, Maker, ReferenceState

    draw, now = random.Random(1981), timezone.now()
    people = [Member.objects.create(username=f"Member {i}", role="member", is_active=True) for i in range(40)]
    versions = list(IssueVersion.objects.in_force().select_related("garment_type"))
    makers = list(Maker.objects.all())
    states = {v.pk: list(FeatureState.objects.filter(cells__record=v.current_record_id)[:30]) for v in versions}
    files = [
        {"name": f"none-{longer}.webp", "longer": longer, "width": longer, "height": longer * 3 // 4}
        for longer in (320, 800, 1600)
    ]
    for begin in range(0, pieces, 5_000):
        with transaction.atomic():
            of_these = [(n, draw.choice(versions)) for n in range(begin, min(begin + 5_000, pieces))]
            made = Example.objects.bulk_create(
                Example(
                    code=f"E{n + 1:03d}", owner=people[n % 40], garment_type=v.garment_type, held_as=v,
                    state="accepted", times_sent=1, submitted_at=now, size_mark=draw.choice(SIZES),
                    maker=draw.choice(makers) if draw.random() < MAKERS_SHARE else None,
                    condition=draw.choice(Condition.values), label_year=draw.choice(YEARS),
                )
                for n, v in of_these
            )  # fmt: skip
            texts = [f"SMOCK\nSIZE 4\n{draw.randint(10, 99)}-{draw.randint(100, 999)}-06" for _ in made]
            Label.objects.bulk_create(
                Label(example=one, text=text, bare=bare_text(text)) for one, text in zip(made, texts, strict=True)
            )
            Photograph.objects.bulk_create(
                Photograph(
                    example=one, view=view, files=files, width=1600, height=1200, position=place,
                    sha256=f"{one.pk:060x}{place:04x}",
                )
                for one in made
                for place, view in enumerate(("front", "main_label"))
            )  # fmt: skip
            looks = []
            for one, (n, v) in zip(made, of_these, strict=True):
                for state in draw.sample(states[v.pk], min(4, len(states[v.pk]))):
                    who = people[(n + (n % 10 == 0)) % 40]
                    looks.append(Observation(example=one, observer=who, feature_id=state.feature_id, state=state))
            Observation.objects.bulk_create(looks)
    ReferenceState.mark_changed()


def first_visits(server: Gunicorn) -> dict[str, float]:
    found = {}
    for path in FILTERS:
        began = time.perf_counter()
        status, _ = fetched(server.port, path)
        found[path] = (time.perf_counter() - began) * 1000
        assert status == 200, (path, status)
    return found


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--pieces", type=int, default=100_000)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--seconds", type=float, default=2.0)
    options = parser.parse_args()
    servers: dict[str, Gunicorn] = {}
    with tempfile.TemporaryDirectory(prefix="catalogue-gallery-") as scratch:
        try:
            ours, minimal = Path(scratch) / "ours", Path(scratch) / "minimal"
            ours.mkdir(), minimal.mkdir()
            run(["-m", "tests.benchmarks.minimal_django.fill"], minimal_environment(minimal, "default"))
            environment = prepared_site(ours, 1)
            program = (
                f"import django; django.setup(); from tests.benchmarks.gallery import fill; fill({options.pieces})"
            )
            run(["-c", program], environment)
            application = "tests.benchmarks.minimal_django.wsgi"
            servers["ours"] = Gunicorn("ours", application, minimal_environment(minimal, "ours"))
            servers["site"] = Gunicorn("site", "catalogue.wsgi", environment)
            first = first_visits(servers["site"])
            pages = [("ours", LIST)] + [("site", path) for path in FILTERS]
            samples = all_samples(servers, pages, options.rounds, options.seconds)
            base = median(samples["ours", LIST])
            print(f"minimal list: {base:.2f} ms of CPU; {options.pieces} pieces")
            print(f"{'page':<72}{'ms':>8}{'times':>7}{'first visit, ms':>17}")
            for path in FILTERS:
                spent = median(samples["site", path])
                over = "" if spent <= 1.5 * base else "  OVER"
                print(f"{path:<72}{spent:>8.2f}{spent / base:>7.2f}{first[path]:>17.0f}{over}")
        finally:
            for server in servers.values():
                server.stop()


if __name__ == "__main__":
    main()
