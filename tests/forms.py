"""Forms of the back office, filled in and sent as a browser would."""

import re
from html import unescape


def fields_of(client, where: str) -> dict[str, object]:
    """What a browser would send of the form at the address, were nothing changed."""
    context = client.get(where).context
    sent: dict[str, object] = {}
    forms = [context["adminform"].form]
    for inline in context["inline_admin_formsets"]:
        forms += [inline.formset.management_form, *inline.formset.forms]
    for form in forms:
        for bound in form:
            value = bound.value()
            if value is None or value is False:
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
