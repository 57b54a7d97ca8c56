"""What the fields of a form were called on the page on which it was filled in, so that what was typed can be shown
again under the same words.

The page is asked for once more, as the person may see it now, and its labels are read: so there is no second list of
them that could differ. Where it cannot be had, or the form is no longer on it, a field goes by its name.
"""

import logging
from dataclasses import dataclass, field
from html.parser import HTMLParser
from io import BytesIO
from urllib.parse import urljoin, urlsplit

from django.core.exceptions import PermissionDenied
from django.core.handlers.wsgi import WSGIRequest
from django.http import Http404
from django.urls import resolve

logger = logging.getLogger(__name__)
GROUPED = ("radio", "checkbox")
VOID_OF_WORDS = ("script", "style")


@dataclass
class Seen:
    """`labels`: words by the name of a field; `choices`: words by the name of a field and what it sends."""

    labels: dict[str, str] = field(default_factory=dict)
    choices: dict[tuple[str, str], str] = field(default_factory=dict)


def labels_at(request, address: str, filled_in_at: str = "") -> Seen:
    """What the form that goes to `address` says on its own page, or on the one that it was filled in at."""
    found = Seen()
    for page in dict.fromkeys((address, filled_in_at)):
        if page and (text := page_text(request, page)):
            read = FormRead(text, page=page, address=address).seen
            found = Seen(read.labels | found.labels, read.choices | found.choices)
    return found


def page_filled_in_at(request) -> str:
    """The page of this site that a form came from, as the browser says."""
    parts = urlsplit(request.META.get("HTTP_REFERER", ""))
    if parts.netloc != request.get_host():
        return ""
    return f"{parts.path}?{parts.query}" if parts.query else parts.path


def page_text(request, address: str) -> str:
    """A page of the site as this person may see it now; empty where there is none."""
    parts = urlsplit(address)
    asked = WSGIRequest(
        request.environ
        | {"REQUEST_METHOD": "GET", "PATH_INFO": parts.path, "QUERY_STRING": parts.query}
        | {"CONTENT_LENGTH": "0", "CONTENT_TYPE": "", "wsgi.input": BytesIO()}
    )
    asked.user, asked.session = request.user, request.session
    try:
        view, args, named = resolve(parts.path)
        answer = view(asked, *args, **named)
        if hasattr(answer, "render"):
            answer.render()
    except (Http404, PermissionDenied):
        return ""
    except Exception:  # whatever a page cannot do, what was typed is shown all the same
        logger.exception("The labels of a form could not be read")
        return ""
    return answer.content.decode() if answer.status_code == 200 and not answer.streaming else ""


class FormRead(HTMLParser):
    """Labels and choices of the forms on a page that go to an address."""

    def __init__(self, text: str, *, page: str, address: str):
        super().__init__()
        self.page, self.path = page, urlsplit(address).path
        self.seen = Seen()
        self.within = False
        self.silent = ""  # the element whose words are no label: a script, or a hint within one
        self.by_id: dict[str, str] = {}
        self.fields: list[tuple[str, str, str, str]] = []  # name, id, what it sends where it is one of a group, legend
        self.label: list[str] | None = None
        self.label_for, self.labelled = "", []
        self.legends: list[list[str]] = []
        self.in_legend = False
        self.select, self.option = "", None
        self.feed(text)
        self.put_together()

    def handle_starttag(self, tag, attrs):
        given = {name: value or "" for name, value in attrs}
        if not self.silent and (tag in VOID_OF_WORDS or "hint" in given.get("class", "").split()):
            self.silent = tag
        if tag == "form":
            goes_to = urlsplit(urljoin(self.page, given.get("action", ""))).path
            self.within = given.get("method", "").lower() == "post" and goes_to == self.path
        if not self.within:
            return
        if tag == "label":
            self.label, self.label_for, self.labelled = [], given.get("for", ""), []
        elif tag == "fieldset":
            self.legends.append([])
        elif tag == "legend":
            self.in_legend = True
        elif tag == "option" and self.select:
            self.option = (given.get("value"), [])
        elif tag in ("input", "select", "textarea") and given.get("name"):
            self.meet(tag, given)

    def meet(self, tag: str, given: dict[str, str]) -> None:
        grouped = given.get("type") in GROUPED
        legend = words(self.legends[-1]) if grouped and self.legends else ""
        sends = given.get("value", "on") if grouped else ""
        self.fields.append((given["name"], given.get("id", ""), sends, legend))
        if given.get("aria-label"):
            self.by_id.setdefault(given.get("id", ""), given["aria-label"])
        if self.label is not None:
            self.labelled.append(len(self.fields) - 1)
        if tag == "select":
            self.select = given["name"]

    def handle_data(self, data):
        if not self.within or self.silent:
            return
        if self.option is not None:
            self.option[1].append(data)
        elif self.in_legend and self.legends:
            self.legends[-1].append(data)
        elif self.label is not None and not self.select:
            self.label.append(data)

    def handle_endtag(self, tag):
        if tag == self.silent:
            self.silent = ""
        elif tag == "form":
            self.within = False
        elif tag == "label" and self.label is not None:
            said = words(self.label)
            if self.label_for:
                self.by_id[self.label_for] = said
            for place in self.labelled:
                name, _, sends, legend = self.fields[place]
                self.fields[place] = (name, f"wraps {place}", sends, legend)
                self.by_id[f"wraps {place}"] = said
            self.label = None
        elif tag == "legend":
            self.in_legend = False
        elif tag == "fieldset" and self.legends:
            self.legends.pop()
        elif tag == "option" and self.option is not None:
            value, said = self.option[0], words(self.option[1])
            self.seen.choices[self.select, said if value is None else value] = said
            self.option = None
        elif tag == "select":
            self.select = ""

    def put_together(self) -> None:
        for name, known_by, sends, legend in self.fields:
            said = self.by_id.get(known_by, "")
            if sends and said:
                self.seen.choices[name, sends] = said
            if label := legend or said:
                self.seen.labels.setdefault(name, label)


def words(parts: list[str]) -> str:
    return " ".join("".join(parts).split())
