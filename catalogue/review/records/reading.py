"""A record read back from its seal: the state of that time, in the words of that time, for the pages and figures."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from catalogue.reference.facts import CellFacts, CitationFacts, FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.models import VersionRecord
from catalogue.reference.words import Stance
from catalogue.review.records.bodies import FORMAT, body_of, records_to_read
from catalogue.review.records.sealing import digest_of


@dataclass(frozen=True)
class ReadRecord:
    """A record as it was. `home` is today's garment type with the names of that day; `version` holds the old state.

    `stands`: whether it is the one in force. `left_over`: cells of features that the type does not ask for any more.
    """

    record: VersionRecord
    intact: bool
    stands: bool
    home: TypeFacts
    version: VersionFacts
    left_over: tuple[tuple[str, CellFacts], ...]

    @cached_property
    def sources(self) -> list[CitationFacts]:
        """Each source that the record names, once, in the order of the profile."""
        cells = [cell for cells in self.version.cells.values() for cell in cells]
        cells += [cell for _, cell in self.left_over]
        return list({one.source: one for cell in cells for one in cell.citations}.values())

    @property
    def recorded(self) -> int:
        """How many features it speaks of."""
        return len(self.version.cells) + len({name for name, _ in self.left_over})


def read_record(record: VersionRecord, home: TypeFacts, today: VersionFacts) -> ReadRecord:
    """The record from its sealed body; from the tables where there is no seal that can be trusted (`intact` is False).

    `home`, `today`: the garment type and the version as the reference has them now.
    """
    body, intact = sealed_body(record)
    if body is None:
        body = json.loads(body_of(records_to_read(VersionRecord.objects.filter(pk=record.pk)).get()))
    words = body["words"]
    then = home_then(home, words["states"].values())
    cells, left_over = cells_then(then, body)
    named = words["version"]
    version = replace(
        today,
        name=named["name"],
        kind=named["kind"],
        date=named["date"],
        certainty=named["certainty"],
        issuer=named["issuer"],
        citations=(),
        stock_numbers=(),
        record_number=record.number,
        standing=body["record"]["standing"],
        cells=cells,
    )
    return ReadRecord(record, intact, record.number == today.record_number, then, version, left_over)


def sealed_body(record: VersionRecord) -> tuple[dict | None, bool]:
    """The body, and whether its digest is that of the seal. No body where there is no seal, or where it was changed."""
    seal = getattr(record, "seal", None)
    if seal is None or digest_of(seal.previous, seal.body) != seal.digest:
        return None, False
    body = json.loads(seal.body)
    if body["format"] != FORMAT:
        raise ValueError(f"seal {seal.number} has the format {body['format']}, which this version of the site lacks")
    return body, True


def home_then(home: TypeFacts, states) -> TypeFacts:
    """The garment type with features and states called as they were called then, as far as the record names them."""
    features = dict(home.features)
    for named in states:
        feature = features.get(named["feature"])
        if feature:
            features[feature.code] = renamed(feature, named)
    return replace(home, features=features)


def renamed(feature: FeatureFacts, named: Mapping[str, str]) -> FeatureFacts:
    states = tuple(replace(s, label=named["label"]) if s.code == named["state"] else s for s in feature.states)
    return replace(feature, name=named["feature_name"], states=states)


def cells_then(home: TypeFacts, body: Mapping) -> tuple[dict[str, tuple[CellFacts, ...]], tuple]:
    """Cells by feature in the type's reading order, states in the order of their feature; and what is left over."""
    found: dict[str, list[CellFacts]] = {}
    left_over = []
    for cell in body["record"]["cells"]:
        named = body["words"]["states"][str(cell["state"])]
        facts = cell_then(cell, named, body["words"])
        if facts.feature in home.features:
            found.setdefault(facts.feature, []).append(facts)
        else:
            left_over.append((named["feature_name"], facts))
    return {
        code: tuple(sorted(found[code], key=lambda cell: place_of(feature, cell)))
        for code, feature in home.features.items()
        if code in found
    }, tuple(left_over)


def place_of(feature: FeatureFacts, cell: CellFacts) -> int:
    known = [state.code for state in feature.states]
    return known.index(cell.state) if cell.state in known else len(known)


def cell_then(cell: Mapping, named: Mapping[str, str], words: Mapping) -> CellFacts:
    return CellFacts(
        feature=named["feature"],
        state=named["state"],
        label=named["label"],
        how_often=cell["how_often"],
        share=cell["share"],
        certainty=cell["certainty"],
        sizes=tuple(cell["sizes"].split()),
        makers=tuple(sorted(words["makers"][str(maker)] for maker in cell["makers"])),
        first_year=cell["first_year"],
        last_year=cell["last_year"],
        note=cell["note"],
        citations=tuple(
            CitationFacts(
                source=words["sources"][str(source)]["code"],
                title=words["sources"][str(source)]["title"],
                grade=words["sources"][str(source)]["grade"],
                contradicts=stance == Stance.CONTRADICTS,
            )
            for source, stance in cell["sources"]
        ),
    )
