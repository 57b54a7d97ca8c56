"""Who is told, in the same transaction, that records were written: later slices, which this one may not import."""

from collections.abc import Callable, Sequence

Told = Callable[[Sequence[int]], None]
listeners: list[Told] = []


def tell_of_records(listener: Told) -> Told:
    """From now on `listener` gets the keys of all records just written, complete with their cells."""
    if listener not in listeners:
        listeners.append(listener)
    return listener


def records_were_written(records: Sequence[int]) -> None:
    """Called within the transaction that wrote them. What a listener raises takes the records back as well."""
    if records:
        for listener in listeners:
            listener(records)
