"""Everything the site knows of a member, as a zip: JSON for programs, text for reading, files beside them."""

import json
import zipfile
from datetime import datetime
from tempfile import TemporaryFile
from typing import BinaryIO

from django.core.serializers.json import DjangoJSONEncoder

from catalogue.accounts.models import Member
from catalogue.accounts.sections import parts_of_a_person


def export_of(member: Member, now: datetime) -> BinaryIO:
    """The zip, as an open file that goes when it is closed: a member's pictures together may be larger than the memory.
    `my-data.json` and `my-data.txt` say the same."""
    parts = [(part, part.export(member)) for part in parts_of_a_person()]
    data = {part.name: found for part, found in parts if found is not None}
    headings = {part.name: part.heading for part, _ in parts}
    file = TemporaryFile()  # noqa: SIM115 - whoever asked for it closes it
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("my-data.json", as_json(data))
        packed.writestr("my-data.txt", as_text(data, headings, member=member, now=now))
        for part, _ in parts:
            for name, content in part.files(member):
                packed.writestr(f"{part.name}/{name}", content, zipfile.ZIP_STORED)  # pictures, which pack no further
    file.seek(0)
    return file


def as_json(data: dict) -> str:
    return json.dumps(data, cls=DjangoJSONEncoder, ensure_ascii=False, indent=2) + "\n"


def as_text(data: dict, headings: dict, *, member: Member, now: datetime) -> str:
    """The same for reading: a heading for each part, then its lines."""
    lines = [f"What this site knows of {member.username}, on {now:%d %B %Y}.", ""]
    for name, found in data.items():
        lines += [headings[name], "=" * len(headings[name]), *lines_of(found), ""]
    return "\n".join(lines)


def lines_of(value, depth: int = 0) -> list[str]:
    """A value as indented lines."""
    indent = "  " * depth
    if isinstance(value, dict):
        return [line for key, one in value.items() for line in named_lines(str(key), one, depth)]
    if isinstance(value, list | tuple):
        rows = [lines_of(one, depth + 1) for one in value] or [[f"{indent}  none"]]
        return [f"{indent}- {row[0].strip()}" if not n else row[n] for row in rows for n in range(len(row))]
    return [f"{indent}{words_for(value)}"]


def named_lines(name: str, value, depth: int) -> list[str]:
    indent = "  " * depth
    if isinstance(value, dict | list | tuple):
        return [f"{indent}{name}:", *lines_of(value, depth + 1)]
    return [f"{indent}{name}: {words_for(value)}"]


def words_for(value) -> str:
    if value is None or value == "":
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return f"{value:%d %B %Y, %H:%M} UTC"
    return str(value).replace("\n", " / ")
