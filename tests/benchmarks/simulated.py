"""Invented references whose versions descend from one another, and pieces of them as people describe them.

A version differs from its predecessor in one to three features; parts can be lost, details exist only where their part
is there; a quarter of the cells are not recorded, one in ten has two states; abundance is log-normal. A simulation,
not a study of real garments.
"""

from dataclasses import dataclass, replace

import numpy as np

from identification.engine import CANNOT_TELL, CellState, Feature, States, Version

PARTS, DETAILS = 0.40, 0.15
SIDE_BRANCH = 1 / 8
NOT_RECORDED, TWO_STATES = 0.25, 0.10
LOSS, GAIN = 0.10, 0.01
CANNOT_TELL_SHARE = 0.15
NONE = "none"


@dataclass(frozen=True)
class Simulated:
    """`truth`: versions × features, the state of each as a number, -1 where a detail does not exist."""

    features: list[Feature]
    versions: list[Version]
    full_versions: list[Version]
    truth: np.ndarray

    @property
    def prior(self) -> np.ndarray:
        weights = np.array([version.weight for version in self.versions])
        return weights / weights.sum()


def simulate(versions: int, features: int, seed: int, error: float = 0.05) -> Simulated:
    """A reference of so many versions and features. The same arguments give the same reference."""
    random = np.random.default_rng([seed, versions, features])
    made = made_features(features, random, error)
    looks = descend(versions, made, random)
    truth = np.array([shown(look, made) for look in looks])
    full = full_record(truth, made, random)
    kept = [replace(one, cells={code: cell for code, cell in one.cells.items() if keeps(cell, random)}) for one in full]
    return Simulated(made, kept, full, truth)


def keeps(cell, random) -> bool:
    return random.random() >= NOT_RECORDED or cell[0].state == "-"


def made_features(number: int, random, error: float) -> list[Feature]:
    parts, details = round(PARTS * number), round(DETAILS * number)
    roles = random.permutation(["part"] * parts + ["detail"] * details + ["plain"] * (number - parts - details))
    made: list[Feature] = []
    for place in np.argsort(roles == "detail", kind="stable"):
        states = int(random.integers(2, 5))
        if roles[place] == "part":
            kinds = (NONE, *(f"kind{i}" for i in range(1, states)))
            made.append(Feature(f"part{place}", kinds, error=error, absent=NONE, loss=LOSS, gain=GAIN))
            continue
        forms = tuple(f"form{i}" for i in range(states))
        with_details = [feature for feature in made if feature.absent]
        parent = with_details[random.integers(len(with_details))] if roles[place] == "detail" and with_details else None
        shown_when = parent.states[1:] if parent else ()
        parent_code = parent.code if parent else None
        made.append(Feature(f"look{place}", forms, error=error, parent=parent_code, shown_when=shown_when))
    return made


def shown(look, features: list[Feature]) -> tuple[int, ...]:
    """States as they can be seen: -1 for the detail of a part that is not there."""
    place = {feature.code: i for i, feature in enumerate(features)}
    return tuple(
        -1 if feature.parent and look[place[feature.parent]] == 0 else int(state)
        for state, feature in zip(look, features, strict=True)
    )


def descend(number: int, features: list[Feature], random) -> list[np.ndarray]:
    """Looks of all versions; no two look alike."""
    first = [random.integers(1 if f.absent and random.random() < 0.75 else 0, len(f.states)) for f in features]
    looks = [np.array(first)]
    known = {shown(looks[0], features)}
    while len(looks) < number:
        branches = len(looks) > 2 and random.random() < SIDE_BRANCH
        look = looks[int(random.integers(len(looks))) if branches else -1].copy()
        visible = [i for i, state in enumerate(shown(look, features)) if state >= 0]
        for i in random.choice(visible, int(random.integers(1, 4)), replace=False):
            look[i] = (look[i] + random.integers(1, len(features[i].states))) % len(features[i].states)
        if shown(look, features) not in known:
            known.add(shown(look, features))
            looks.append(look)
    return looks


def full_record(truth: np.ndarray, features: list[Feature], random) -> list[Version]:
    """Every cell recorded, one in ten with a second state."""
    weights = np.exp(random.normal(0, 1, len(truth)))
    versions = []
    for row, weight in zip(truth, weights, strict=True):
        cells = {}
        for state, feature in zip(row, features, strict=True):
            share, other = random.uniform(0.1, 0.5), int(random.integers(1, len(feature.states)))
            if state < 0:
                cells[feature.code] = (CellState("-"),)
            elif random.random() < TWO_STATES:
                second = feature.states[(state + other) % len(feature.states)]
                cells[feature.code] = (CellState(feature.states[state], 1 - share), CellState(second, share))
            else:
                cells[feature.code] = (CellState(feature.states[state]),)
        versions.append(Version(f"v{len(versions):04d}", cells, float(weight)))
    return versions


def draw_piece(
    reference: Simulated, version: int, random, *, error: float, cannot_tell: float = CANNOT_TELL_SHARE, looks: int = 1
) -> dict[str, object]:
    """Every answer about one piece of a version; details of a part that is not on it have no answer.

    With two `looks` each is a pair: the same piece looked at twice, erring each time anew.
    """
    found: dict[str, int] = {}
    answers: dict[str, object] = {}
    cells = reference.full_versions[version].cells
    for feature in reference.features:
        states = len(feature.states)
        numbers = random.random(6)
        if feature.parent and found[feature.parent] <= 0:
            found[feature.code] = -1
            continue
        state = drawn_state(cells[feature.code], feature, numbers[0])
        if feature.absent and state > 0 and numbers[1] < feature.loss:
            state = 0
        elif feature.absent and state == 0 and numbers[1] < feature.gain:
            state = 1 + int(numbers[2] * (states - 1))
        found[feature.code] = state
        answers[feature.code] = answer(feature, state, numbers[3:], error, cannot_tell)
        if looks > 1:
            again = answer(feature, state, random.random(3), error, cannot_tell)
            answers[feature.code] = (answers[feature.code], again)
    return answers


def answer(feature: Feature, state: int, numbers, error: float, cannot_tell: float) -> object:
    """What is said of a state: right, wrong, or cannot tell. `numbers`: three from nought to one."""
    if numbers[2] < cannot_tell:
        return CANNOT_TELL
    if numbers[0] < error:
        state = (state + 1 + int(numbers[1] * (len(feature.states) - 1))) % len(feature.states)
    return States((feature.states[state],))


def drawn_state(cell, feature: Feature, number: float) -> int:
    """A state of the cell by its shares; of a part added later, any."""
    if cell[0].state == "-":
        return int(number * len(feature.states))
    shares = np.cumsum([1.0 if one.share is None else one.share for one in cell])
    chosen = min(int(np.searchsorted(shares, number * shares[-1], side="right")), len(cell) - 1)
    return feature.states.index(cell[chosen].state)


def draw_pieces(reference: Simulated, number: int, seed: int, **how) -> list[tuple[int, dict[str, object]]]:
    """(version, answers) of pieces drawn by abundance."""
    random = np.random.default_rng(seed)
    versions = random.choice(len(reference.versions), number, p=reference.prior)
    return [(int(version), draw_piece(reference, int(version), random, **how)) for version in versions]
