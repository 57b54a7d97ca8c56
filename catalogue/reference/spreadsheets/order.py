"""In which order codes stand."""

from collections.abc import Mapping, Sequence


def positions(held: Mapping[str, int], given: Sequence[str]) -> dict[str, int]:
    """The place of each code: in the order given where it names all that are held; else new ones go behind the held.

    Codes that keep their order keep their numbers.
    """
    in_order = sorted(held, key=lambda code: (held[code], code))
    new = [code for code in given if code not in held]
    order = list(given) if held.keys() <= set(given) else [*in_order, *new]
    if order[: len(in_order)] == in_order:
        behind = max(held.values(), default=-1) + 1
        return dict(held) | {code: behind + place for place, code in enumerate(new)}
    return {code: place for place, code in enumerate(order)}
