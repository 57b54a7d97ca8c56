"""Forms of the back office, filled in and sent as a browser would."""

import re
from html import unescape
from html.parser import HTMLParser


def fields_of(client, where: str) -> dict[str, object]:
    """What a browser would send of the form at the address, were nothing changed but a reason given."""
    context = client.get(where).context
    sent: dict[str, object] = {}
    if "edition" in context:
        sent = {"seen_edition": context["edition"], "why": "A label turned up."}
    forms = [context["adminform"].form]
    for inline in context["inline_admin_formsets"]:
        forms += [inline.formset.management_form, *inline.formset.forms]
    for form in forms:
        for bound in form:
            value = bound.value()
            if value is None or value is False or bound.html_name in sent:
                continue
            sent[bound.html_name] = [getattr(v, "pk", v) for v in value] if isinstance(value, list | set) else value
            if value is True:
                sent[bound.html_name] = "on"
    return sent


def with_row(sent: dict, prefix: str, **values) -> dict:
    """The form with one more row of an inline table."""
    number = int(sent[f"{prefix}-TOTAL_FORMS"])
    row = {f"{prefix}-{number}-{name}": value for name, value in values.items()}
    return sent | row | {f"{prefix}-TOTAL_FORMS": number + 1}


def send(client, where: str, sent: dict):
    """Send a form that is expected to be taken; what it complained about is shown where it was not."""
    response = client.post(where, sent)
    assert response.status_code == 302, complaints(response)
    return response


def complaints(response) -> str:
    """What the page says is wrong, as a person reads it."""
    found = re.findall(r'<ul class="errorlist[^"]*"[^>]*>(.*?)</ul>', response.content.decode(), re.DOTALL)
    return unescape(" ".join(re.sub(r"<[^>]+>", " ", " ".join(found)).split()))


def refused(client, where: str, sent: dict) -> str:
    """What is said of a form that is expected to be refused."""
    response = client.post(where, sent)
    assert response.status_code == 200
    return complaints(response)


class Sent(HTMLParser):
    """What a browser would send of the forms by POST on a page, were nothing changed, but for their buttons. `of`: only
    of those with this address. `ticked`: also the boxes that are ticked."""

    def __init__(self, page: str, *, of: str = "", ticked: bool = False):
        super().__init__()
        self.of, self.ticked = of, ticked
        self.sent: dict[str, str | list[str]] = {}
        self.within, self.choosing, self.writing, self.option = False, "", "", ""
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        if tag == "form":
            self.within = given.get("method") == "post" and "logout" not in given.get("id", "")
            self.within = self.within and self.of in ("", given.get("action", self.of))
        if not self.within:
            return
        name = given.get("name", "")
        if tag == "input" and given.get("type") in ("checkbox", "radio"):
            if self.ticked and "checked" in given:
                self.tick(name, given)
        elif tag == "input" and given.get("type") != "submit":
            self.sent[name] = given.get("value", "")
        elif tag == "select":
            self.choosing = name
            self.sent[name] = ""
        elif tag == "textarea":
            self.writing = name
            self.sent[name] = ""
        elif tag == "option" and "selected" not in given:
            self.option = ""
        elif tag == "option":
            self.sent[self.choosing] = given.get("value", "")
            self.option = "" if "value" in given else self.choosing

    def tick(self, name: str, given: dict) -> None:
        """Of boxes with one name as many as are ticked, of round ones the one."""
        value = given.get("value", "on")
        if given["type"] == "checkbox" and name in self.sent:
            self.sent[name] = [*self.sent[name], value]
        else:
            self.sent[name] = value if given["type"] == "radio" else [value]

    def handle_data(self, data):
        if self.writing:
            self.sent[self.writing] += data
        elif self.option:
            self.sent[self.option] = data

    def handle_endtag(self, tag):
        if tag == "textarea":
            self.writing = ""
        elif tag in ("option", "select"):
            self.option = ""
        elif tag == "form":
            self.within = False


def profile_fields(client, where: str) -> dict[str, str]:
    """What a browser would send of the form of a profile, saved unchanged but for a reason."""
    sent = Sent(client.get(where).content.decode()).sent
    return {name: value for name, value in sent.items() if value} | {"why": "A label turned up.", "_save": "1"}
