"""What leads back to itself: a feature that is a detail of its own detail, a version that descends from itself."""

from collections.abc import Iterable, Mapping
from graphlib import CycleError, TopologicalSorter


def circles(above: Mapping[str, Iterable[str]]) -> list[list[str]]:
    """Circles of "A stands below B", each as its codes from one to the next above; no code stands in two of them."""
    left = {code: set(codes) for code, codes in above.items()}
    found = []
    while True:
        try:
            TopologicalSorter(left).prepare()
        except CycleError as problem:
            circle = problem.args[1][:0:-1]  # the library lists it from above to below, with its first code twice
            found.append(circle)
            for code in circle:
                left.pop(code, None)
        else:
            return found


def begun_with(code: str, circle: list[str]) -> str:
    """The circle in words, from the code and back to it."""
    place = circle.index(code)
    return " → ".join([*circle[place:], *circle[:place], code])


def circle_through(code: str, above: Mapping[str, Iterable[str]]) -> str:
    """A circle that leads from the code back to it, in words; empty where none does."""
    found = next((circle for circle in circles(above) if code in circle), None)
    return begun_with(code, found) if found else ""
