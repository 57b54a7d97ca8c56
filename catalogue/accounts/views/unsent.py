"""What was typed and not sent, because the session was over: looked at, then sent or thrown away."""

from django.contrib import messages
from django.shortcuts import redirect, render

from catalogue.accounts.roles import signed_in_required
from catalogue.accounts.seen_labels import Seen, labels_at
from catalogue.accounts.unsent import OF_THE_SITE, forget, unsent_of

# Longer than this, or of several lines, it is shown in a field of several.
SHORT = 60


@signed_in_required
def unsent(request):
    """The form as it was typed, to be sent to where it was to go; by POST it is thrown away."""
    if request.method == "POST":
        forget(request)
        messages.success(request, "Thrown away.")
        return redirect("accounts:my_page")
    found = unsent_of(request)
    fields = shown(found.fields, labels_at(request, found.address, found.filled_in_at)) if found else []
    told = [field for field in fields if field["is_told"]]
    return render(request, "accounts/unsent.html", {"unsent": found, "fields": fields, "told": told})


def shown(fields, seen: Seen) -> list[dict]:
    """Each field under the words that it had on its page, with how it is shown: `open` to be changed what is words;
    told in a fold what is one sign or one code, as of a choice; neither what the site had written into the form."""
    return [
        {
            "name": name,
            "text": text,
            "label": seen.labels.get(name) or name.replace("_", " ").replace("-", " "),
            "said": seen.choices.get((name, text)) or text,
            "is_open": (is_words := " " in text.strip() and name not in OF_THE_SITE),
            "is_told": not is_words and name not in OF_THE_SITE and bool(text.strip()),
            "is_long": len(text) > SHORT or "\n" in text,
        }
        for name, text in fields
    ]
