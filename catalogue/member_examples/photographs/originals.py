"""Photographs as they were sent in, where the society keeps them: for their owner's export, shown to nobody.

They hold what the pictures on pages do not: where and with what they were taken, and what was blurred later. So they
lie in a storage of their own that no view reads, under random names, and go as soon as anything of the piece has to go.
"""

import logging
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from secrets import token_hex

from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import storages

from catalogue.member_examples.photographs.file_kinds import kind_of
from catalogue.member_examples.photographs.keeping import NotKept, discard_file

log = logging.getLogger(__name__)
STORAGE = "originals"


def are_kept() -> bool:
    """Whether the society keeps pictures as they were sent in."""
    return settings.KEEP_ORIGINALS


def keep_original(data: bytes) -> str:
    """Writes a picture down as it was sent; returns its name. Raises NotKept, with nothing of it left."""
    key = token_hex(16)
    name = f"{key[:2]}/{key}"
    try:
        storages[STORAGE].save(name, ContentFile(data))
    except BaseException as problem:
        discard_file(storages[STORAGE], name)
        if isinstance(problem, OSError):
            raise NotKept(
                "The picture could not be kept: the site's disk is full or cannot be written to. Nothing was lost of "
                "what you sent before; please tell the secretary."
            ) from problem
        raise
    return name


@contextmanager
def kept_original(data: bytes | None) -> Iterator[str]:
    """Keeps a picture as it was sent while its row is written: its name, or nothing where none is given."""
    name = keep_original(data) if data is not None else ""
    try:
        yield name
    except BaseException:
        discard_originals([name])
        raise


def discard_originals(names: Iterable[str]) -> list[str]:
    """Deletes them; what is not there is no fault. Returns those that could not be deleted."""
    left = []
    for name in filter(None, names):
        discard_file(storages[STORAGE], name)
        try:
            there = storages[STORAGE].exists(name)
        except OSError:
            there = True
        if there:
            log.error("The picture %s, as it was sent in, could not be deleted", name)
            left.append(name)
    return left


def read_original(name: str) -> tuple[str, bytes]:
    """The ending of its kind and the bytes, for its owner. Raises OSError where it cannot be read."""
    with storages[STORAGE].open(name) as file:
        data = file.read()
    return {"JPEG": "jpg", "PNG": "png", "WebP": "webp", "HEIC": "heic"}.get(kind_of(data), "bin"), data
