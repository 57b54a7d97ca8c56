"""Histories of details as plain data that JSON can hold, and back, figure for figure."""

from dataclasses import asdict, fields

import numpy as np

from identification.dating.change_over import Change, DatedPiece, Elsewhere, History, MakerApart, Shown
from identification.dating.fits import Curve

ARRAYS = ("middles", "weights", "years", "share")


def as_plain(history: History) -> dict:
    """Lists, words and numbers only; `history_from` makes the same history of them again."""
    return {
        "shown": history.shown.value,
        "pieces": history.pieces,
        "changes": [change_as_plain(change) for change in history.changes],
        "confounded": [list(pair) for pair in history.confounded],
    }


def change_as_plain(change: Change) -> dict:
    curve = {name: getattr(change.curve, name).tolist() for name in ARRAYS} | {"floor": change.curve.floor}
    kept = {one.name: getattr(change, one.name) for one in fields(change)}
    for name in ("again", "already"):
        if kept[name]:
            kept[name] = asdict(kept[name]) | {"makers": list(kept[name].makers)}
    return kept | {
        "curve": curve,
        "odd": [asdict(piece) for piece in change.odd],
        "makers_apart": [asdict(maker) for maker in change.makers_apart],
    }


def history_from(plain: dict) -> History:
    """The history that `as_plain` was given, also after a way through JSON."""
    return History(
        Shown(plain["shown"]),
        plain["pieces"],
        tuple(change_from(change) for change in plain["changes"]),
        tuple((before, after) for before, after in plain["confounded"]),
    )


def change_from(plain: dict) -> Change:
    curve = {name: np.array(plain["curve"][name], dtype=float) for name in ARRAYS}
    return Change(
        **plain
        | {
            "curve": Curve(**curve, floor=plain["curve"]["floor"]),
            "odd": tuple(DatedPiece(**piece) for piece in plain["odd"]),
            "makers_apart": tuple(MakerApart(**maker) for maker in plain["makers_apart"]),
            "again": elsewhere_from(plain["again"]),
            "already": elsewhere_from(plain["already"]),
        }
    )


def elsewhere_from(plain: dict | None) -> Elsewhere | None:
    return Elsewhere(**plain | {"makers": tuple(plain["makers"])}) if plain else None
