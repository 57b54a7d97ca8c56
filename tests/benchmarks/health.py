"""CPU of the reference's health: 5,000 versions and 100,000 accepted pieces. Prints, asserts nothing.

    python -m tests.benchmarks.health [--small]

100 garment types: 80 of 50 versions, and one of 1,000, with 60 features of four states each; a fifth of the cells is
not recorded; each piece was looked at for six features, every fifth by two members. Measured (CPU of this process,
`time.process_time`, SQLite): everything worked out for the first time; after one decision on a piece of a type of 50
and of the type of 1,000; the page in a process that has everything in memory, beside the list of sources.
"""

import argparse
import os
import random
import sys
import time

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--small", action="store_true", help="4 types of 50, one of 100, 1,000 pieces")
    small = parser.parse_args().small
    django.setup()
    from django.test.utils import get_runner, setup_test_environment  # noqa: F401, PLC0415

    setup_test_environment()
    from django.db import connection  # noqa: PLC0415

    connection.creation.create_test_db(verbosity=0)
    measure(*((4, 100, 1_000) if small else (80, 1_000, 100_000)))


def measure(types: int, large: int, pieces: int) -> None:
    from django.test import Client  # noqa: PLC0415

    from catalogue.member_examples.actions import accept_example, add_observations, start_example, submit_example
    from catalogue.reference import snapshots

    everything = Society(types, large, pieces)
    print(f"{types} types of 50 versions, one of {large}, {pieces} pieces", flush=True)
    client = Client()
    report("everything, for the first time", lambda: client.get("/health/"))
    for words, home in (("a type of 50", everything.types[0]), (f"the type of {large}", everything.types[-1])):
        everything.accept_one(home, start_example, add_observations, submit_example, accept_example)
        report(f"after one decision on a piece of {words}", lambda: client.get("/health/"))
    snapshots.forget_everything()
    report("another process, from the table", lambda: client.get("/health/"))
    for _ in range(3):
        client.get("/sources/")
    health, listed = per_visit(client, "/health/"), per_visit(client, "/sources/")
    print(f"from memory: {health * 1e3:.2f} ms, list of sources {listed * 1e3:.2f} ms: {health / listed:.2f} times")


def report(words: str, act) -> None:
    began = time.process_time()
    answer = act()
    print(f"{words}: {time.process_time() - began:.2f} s CPU (status {answer.status_code})", flush=True)
    sys.stdout.flush()


def per_visit(client, address: str, visits: int = 50) -> float:
    began = time.process_time()
    for _ in range(visits):
        client.get(address)
    return (time.process_time() - began) / visits


class Society:
    """A made-up society of the wanted size, by a fixed seed."""

    FEATURES, STATES, LOOKS = 60, 4, 6

    def __init__(self, types: int, large: int, pieces: int):
        from catalogue.reference.models import Feature, FeatureState, GarmentType, ReferenceState, Source, TypeFeature
        from tests.making import make_member

        self.draw = random.Random(1979)
        self.owner, self.second = make_member("Ada"), make_member("Ben")
        self.moderator = make_member("Mo", role="moderator")
        Source.objects.bulk_create(
            [Source(code=f"S{i:03}", kind="order", title=f"Order {i}", grade="A") for i in range(60)]
        )
        self.features = Feature.objects.bulk_create(
            [Feature(code=f"f{i}", name=f"Feature {i}", question=f"{i}?", position=i) for i in range(self.FEATURES)]
        )
        made = FeatureState.objects.bulk_create(
            [
                FeatureState(feature=feature, code=f"s{i}", label=f"State {i}", position=i)
                for feature in self.features
                for i in range(self.STATES)
            ]
        )
        self.states = {f.pk: made[n * self.STATES : (n + 1) * self.STATES] for n, f in enumerate(self.features)}
        self.types = GarmentType.objects.bulk_create(
            [GarmentType(code=f"T{i:03}", name=f"Type {i}") for i in range(types + 1)]
        )
        TypeFeature.objects.bulk_create(
            [
                TypeFeature(garment_type=home, feature=feature, position=n)
                for home in self.types
                for n, feature in enumerate(self.features)
            ]
        )
        self.truth: dict[int, dict[int, object]] = {}
        self.versions = {
            home.pk: self.write_versions(home, 50 if home is not self.types[-1] else large) for home in self.types
        }
        self.write_pieces(pieces)
        ReferenceState.mark_changed()

    def write_versions(self, home, many: int) -> list:
        from catalogue.reference.models import IssueVersion, ProfileCell, VersionRecord

        versions = IssueVersion.objects.bulk_create(
            [
                IssueVersion(
                    code=f"{home.code}-{i}", name=f"Version {i}", garment_type=home, kind="issue", position=i,
                    rarity=1 + i % 5, from_year=1950 + i % 40, to_year=1960 + i % 40,
                )
                for i in range(many)
            ]
        )  # fmt: skip
        records = VersionRecord.objects.bulk_create([VersionRecord(version=v, number=1) for v in versions])
        cells = []
        for version, record in zip(versions, records, strict=True):
            version.current_record = record
            truth = {f.pk: self.draw.choice(self.states[f.pk]) for f in self.features}
            self.truth[version.pk] = truth
            cells += [ProfileCell(record=record, state=s) for s in truth.values() if self.draw.random() > 0.2]
        ProfileCell.objects.bulk_create(cells, batch_size=5_000)
        IssueVersion.objects.bulk_update(versions, ["current_record"], batch_size=500)
        return versions

    def write_pieces(self, many: int) -> None:
        from django.utils import timezone

        from catalogue.member_examples.models import Example, Observation

        homes = [self.draw.choice(self.types) for _ in range(many)]
        held = [self.draw.choice(self.versions[home.pk]) for home in homes]
        now = timezone.now()
        made = Example.objects.bulk_create(
            [
                Example(
                    code=f"E{i}", owner=self.owner, garment_type=home, held_as=version, state="accepted",
                    times_sent=1, submitted_at=now, label_year=1950 + i % 50,
                )
                for i, (home, version) in enumerate(zip(homes, held, strict=True))
            ],
            batch_size=2_000,
        )  # fmt: skip
        looks = []
        for i, (example, version) in enumerate(zip(made, held, strict=True)):
            for feature in self.draw.sample(self.features, self.LOOKS):
                for who in (self.owner, self.second) if i % 5 == 0 else (self.owner,):
                    slip = self.draw.random() < 0.08
                    state = self.draw.choice(self.states[feature.pk]) if slip else self.truth[version.pk][feature.pk]
                    looks.append(Observation(example=example, observer=who, feature=feature, state=state))
        Observation.objects.bulk_create(looks, batch_size=5_000)

    def accept_one(self, home, start, observe, submit, accept) -> None:
        """One more piece of a type by the society's own ways."""
        from uuid import uuid4

        from catalogue.member_examples.actions import Look

        example = start(owner=self.owner, fields={"garment_type": home})
        version = self.versions[home.pk][0]
        state = self.truth[version.pk][self.features[0].pk]
        observe(example=example, member=self.owner, looks=[Look(feature=self.features[0], state=state.code)])
        example = submit(example=example, member=self.owner, token=uuid4())
        accept(example=example, moderator=self.moderator, reason="agrees", sending=1, held_as=version)


if __name__ == "__main__":
    main()
