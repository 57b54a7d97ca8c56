"""Where the sizes of a photograph lie: in the site's default storage, under names of our own, never as static files.

The names are random, so nobody can guess the address of a picture that is not shown to them, and nothing of the name
that the member's device gave is kept.
"""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from secrets import token_hex

from django.core.files.base import ContentFile
from django.core.files.storage import Storage, default_storage

FOLDER = "photographs"


class NotKept(OSError):
    """The picture could not be written down; the words are for the member."""


def keep(sizes: Mapping[int, bytes], *, storage: Storage | None = None) -> str:
    """Writes all sizes of one photograph, or none; returns its key, from which `file_name` makes the names.

    Raises NotKept when the storage fails, as on a full disk; nothing of the photograph is left then.
    """
    storage = storage or default_storage
    key = token_hex(16)
    try:
        for longer, data in sizes.items():
            wanted = file_name(key, longer)
            given = storage.save(wanted, ContentFile(data))
            if given != wanted:
                discard_file(storage, given)
                raise OSError(f"The storage wrote {given} in place of {wanted}")
    except BaseException as problem:  # also when the process is being ended
        discard(key, sizes, storage=storage)
        if isinstance(problem, OSError):
            raise NotKept(
                "The picture could not be kept: the site's disk is full or cannot be written to. Nothing was lost of "
                "what you sent before; please tell the secretary."
            ) from problem
        raise
    return key


@contextmanager
def kept(sizes: Mapping[int, bytes], *, storage: Storage | None = None) -> Iterator[str]:
    """Keeps a photograph while its row is written: the files go away again when the block fails.

    Put the transaction inside the block, so that the files go when its end fails, too. Raises NotKept.
    """
    key = keep(sizes, storage=storage)
    try:
        yield key
    except BaseException:
        discard(key, sizes, storage=storage)
        raise


def discard(key: str, sizes: Mapping[int, bytes] | tuple[int, ...], *, storage: Storage | None = None) -> None:
    """Removes every size of a photograph; what is not there is no fault."""
    for longer in sizes:
        discard_file(storage or default_storage, file_name(key, longer))


def discard_file(storage: Storage, name: str) -> None:
    with suppress(OSError):  # a file that cannot be removed must not hide why it was to go
        storage.delete(name)


def file_name(key: str, longer: int) -> str:
    """The name of one size in the storage, its folder made from the key so that no folder grows large."""
    return f"{FOLDER}/{key[:2]}/{key[2:4]}/{key}-{longer}.webp"


def read(key: str, longer: int, *, storage: Storage | None = None) -> bytes:
    """One stored size. Raises FileNotFoundError where it is not there."""
    with (storage or default_storage).open(file_name(key, longer)) as file:
        return file.read()
