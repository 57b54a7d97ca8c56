"""A member at work in the form, as a browser would do it without scripts."""

import re
from io import BytesIO

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from catalogue.member_examples.models import Example

VALUE = re.compile(r'name="(revision|token)" value="([^"]*)"')


def picture(colour: str = "olive", size: tuple[int, int] = (640, 480)) -> bytes:
    """A JPEG such as a phone makes, with where and with what it was taken."""
    image = Image.new("RGB", size, colour)
    exif = Image.Exif()
    exif[0x010F], exif[0x0112] = "Maker of phones", 1
    exif.get_ifd(0x8825).update({1: "N", 2: (54.0, 30.0, 0.0), 3: "W", 4: (3.0, 10.0, 0.0)})
    file = BytesIO()
    image.save(file, "JPEG", exif=exif)
    return file.getvalue()


def upload(name: str = "front.jpg", data: bytes | None = None) -> SimpleUploadedFile:
    return SimpleUploadedFile(name, picture() if data is None else data, content_type="image/jpeg")


def hidden(client, address: str) -> dict[str, str]:
    """The revision or token that the page's form carries."""
    return dict(VALUE.findall(client.get(address).content.decode()))


def begun(client, code: str = "", **fields) -> Example:
    """A draft begun by the first page."""
    carried = hidden(client, "/my-pieces/new/")
    answer = client.post("/my-pieces/new/", {"garment_type": code, **carried, **fields})
    assert answer.status_code == 302, answer.content.decode()
    return Example.objects.get(code=answer.url.split("/")[2])


def step(client, example: Example, name: str, **fields):
    """A step's form sent with these fields."""
    address = f"/my-pieces/{example.code}/{name}/"
    return client.post(address, {**hidden(client, address), **fields})


def send_pictures(client, example: Example, *files, **fields):
    return client.post(f"/my-pieces/{example.code}/photographs/", {"photographs": list(files), **fields})
