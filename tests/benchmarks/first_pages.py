"""How long the first visit after a change takes where a garment type is large. Prints, asserts nothing.

    python -m tests.benchmarks.first_pages [--small]

One simulated type of 600 versions and 80 features, a quarter of the cells not recorded, in a database of its own
(SQLite). Seconds of the clock; `--small` takes 100 versions. Each page is visited with nothing kept, and once more;
the ratio is to reading the same cells as plain rows, in the same run. Judged by: 2.2 s for 600 x 80.
"""

import argparse
import os
from time import perf_counter

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
PAGES = (
    "/",
    "/garment-types/",
    "/search/?q=smock",
    "/garment-types/BIG/",
    "/issue-versions/{version}/",
    "/which/BIG/",
    "/which/BIG/?{answer}&_stop=yes",
    "/which/BIG/key/",
    "/which/claim/?v={version}",
    "/which/any-garment/",
    "/mistaken-for/{version}/",
    "/health/BIG/",
)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--small", action="store_true", help="100 versions and 40 features")
    size = (100, 40) if parser.parse_args().small else (600, 80)
    django.setup()
    from django.test.utils import setup_test_environment

    setup_test_environment()
    from django.db import connection

    connection.creation.create_test_db(verbosity=0)
    measure(*size)


def measure(versions: int, features: int) -> None:
    from django.test import Client

    from catalogue.reference.actions import import_matrix
    from catalogue.reference.models import FeatureState, IssueVersion, ProfileCell, ReferenceState
    from catalogue.reference.snapshots import forget_everything
    from tests.benchmarks.simulated import simulate

    made = simulate(versions, features, 711)
    import_matrix(type_code="BIG", name="Big", features=made.features, versions=made.versions)
    version = IssueVersion.objects.values_list("code", flat=True)[versions // 2]
    state = FeatureState.objects.select_related("feature").first()
    answer = f"{state.feature.code}={state.code}"
    client = Client()
    client.get("/about/")
    began = perf_counter()
    rows = len(
        list(ProfileCell.objects.values_list("record_id", "state__feature__code", "state__code", "state__label"))
    )
    plain = perf_counter() - began
    print(f"{versions} versions, {features} features, {rows:,} cells; as plain rows {plain:.2f} s")
    print(f"{'page':<45}{'first, s':>9}{'times':>8}{'then, ms':>10}")
    for page in PAGES:
        address = page.format(version=version, answer=answer)
        forget_everything()
        ReferenceState.mark_changed()
        first, status = timed(client, address)
        again, _ = timed(client, address)
        print(f"{address[:44]:<45}{first:>9.2f}{first / plain:>8.1f}{again * 1000:>10.1f}", status, flush=True)


def timed(client, address: str) -> tuple[float, str]:
    """Seconds that the page took, and what went wrong with it, if anything."""
    began = perf_counter()
    status = client.get(address).status_code
    return perf_counter() - began, "" if status == 200 else f"  STATUS {status}"


if __name__ == "__main__":
    main()
