"""Who is told, in the same transaction, that records or features were written: later slices, which this one may not
import."""

from collections.abc import Callable, Sequence

from catalogue.accounts.models import Member

Told = Callable[[Sequence[int]], None]
listeners: list[Told] = []
feature_listeners: list[Callable] = []


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


def tell_of_features(listener: Callable) -> Callable:
    """From now on `listener(by=, why=, standing=)` is called when features, what uses them, or what versions are called
    may have changed."""
    if listener not in feature_listeners:
        feature_listeners.append(listener)
    return listener


def features_may_have_changed(*, by: Member | None, why: str, standing: str) -> None:
    """Called within the transaction that wrote features, or what versions are called. `standing`: as of a record of a
    version that was written so."""
    for listener in feature_listeners:
        listener(by=by, why=why, standing=standing)
