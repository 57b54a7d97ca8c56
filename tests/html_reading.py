"""Reads a page as a strict reader of HTML would, and keeps what tests ask about.

Which elements have no end and which ends may be left out: HTML Living Standard, 13.1.2 (WHATWG), read for the
elements that the site's templates use; where an end may be left out the site writes it all the same.
"""

from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
UNSEEN = {"style", "script"}


@dataclass
class Link:
    """A link: where it leads and the words that name it."""

    address: str
    words: str = ""
    label: str = ""


@dataclass
class Page:
    """What a page holds. `faults` says in words where the elements do not nest."""

    faults: list[str] = field(default_factory=list)
    ids: list[str] = field(default_factory=list)
    links: list[Link] = field(default_factory=list)
    forms: list[tuple[str, str]] = field(default_factory=list)
    files: list[str] = field(default_factory=list)
    headings: list[str] = field(default_factory=list)
    labelled: list[str] = field(default_factory=list)
    title: str = ""
    texts: list[str] = field(default_factory=list)
    values: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All that is read, white space as one."""
        return " ".join(" ".join(self.texts).split())


class Reader(HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.page = Page()
        self.open: list[str] = []

    def handle_starttag(self, tag, attrs):
        names = [name for name, _ in attrs]
        if len(names) != len(set(names)):
            self.page.faults.append(f"an attribute twice on <{tag}>, line {self.getpos()[0]}")
        given = {name: value or "" for name, value in attrs}
        self.page.values += given.values()
        if "id" in given:
            self.page.ids.append(given["id"])
        if tag == "a" and "href" in given:
            if "a" in self.open:
                self.page.faults.append(f"a link within a link, line {self.getpos()[0]}")
            self.page.links.append(Link(given["href"], label=given.get("aria-label", "")))
        if tag == "form":
            self.page.forms.append((given.get("method", "get").lower(), given.get("action", "")))
        if tag == "h1":
            self.page.headings.append("")
        self.page.labelled += [given["for"]] if tag == "label" and "for" in given else []
        for name in ("aria-describedby", "aria-labelledby"):
            self.page.labelled += given.get(name, "").split()
        if tag in ("img", "script") and "src" in given or tag == "link" and "href" in given:
            self.page.files.append(given.get("src") or given["href"])
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        if not self.open or self.open[-1] != tag:
            within = self.open[-1] if self.open else "nothing"
            self.page.faults.append(f"</{tag}> within <{within}>, line {self.getpos()[0]}")
            if tag not in self.open:
                return
            while self.open[-1] != tag:
                self.open.pop()
        self.open.pop()

    def handle_data(self, data):
        if UNSEEN & set(self.open):
            return
        if "title" in self.open and "svg" not in self.open:
            self.page.title += data
            return
        self.page.texts.append(data)
        if "a" in self.open and self.page.links:
            self.page.links[-1].words += data
        if "h1" in self.open:
            self.page.headings[-1] += data

    def close(self):
        super().close()
        self.page.faults += [f"<{tag}> is never closed" for tag in self.open]


def read_html(text: str) -> Page:
    """The page as read; faults are kept, never raised."""
    reader = Reader()
    reader.feed(text)
    reader.close()
    return reader.page
