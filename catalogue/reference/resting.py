"""What else rests on sources than claims: later slices say so, which this one may not import."""

from collections.abc import Callable, Iterable

Codes = Callable[[], Iterable[str]]
tellers: list[Codes] = []


def tells_of_sources(teller: Codes) -> Codes:
    """From now on the sources whose codes `teller()` gives are cited ones, whatever else cites them."""
    if teller not in tellers:
        tellers.append(teller)
    return teller


def codes_that_are_cited() -> set[str]:
    return {code for teller in tellers for code in teller()}
