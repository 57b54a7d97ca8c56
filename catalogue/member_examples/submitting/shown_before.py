"""A form that was opened in two places: what each of them changed is kept.

The form carries a mark of what every field showed when it was opened. A field that was not touched since takes what
was saved elsewhere meanwhile; one that was touched here and elsewhere is kept in neither way until its owner, who is
shown both, saves once more.
"""

from collections.abc import Callable, Iterable, Mapping
from hashlib import sha256

from django.forms import Form
from django.http import QueryDict

SENT_AS = "shown"
MARK_SIGNS = 10


def mark(values: Iterable[str]) -> str:
    """Of a field's values as a browser sends them: whichever line ends, in any order, nothing chosen as nothing
    written."""
    words = [value.replace("\r\n", "\n").strip() for value in values]
    return sha256("\0".join(sorted(word for word in words if word)).encode()).hexdigest()[:MARK_SIGNS]


def values_now(form: Form, name: str) -> list[str]:
    """What the record says, as the form would send it."""
    field = form.fields[name]
    value = field.prepare_value(form.get_initial_for_field(field, name))
    many = value if isinstance(value, list | tuple) else [value]
    return [str(one) for one in many if one is not None]


def values_sent(form: Form, name: str) -> list[str]:
    return form.data.getlist(form.add_prefix(name))


def marks_of(form: Form, values: Callable[[Form, str], list[str]]) -> dict[str, str]:
    """By field. `form.read_with` names the fields without which another one cannot be read, as a length its unit; where
    nothing is written, there is nothing to read with them."""
    marks = {name: mark(values(form, name)) for name in form.fields}
    with_it = {name: parts if any(values(form, name)) else () for name, parts in getattr(form, "read_with", {}).items()}
    return {name: "-".join(marks[part] for part in (name, *with_it.get(name, ()))) for name in marks}


class Meeting:
    """What a form sent beside what it had shown and what the record says now. `both`: fields that were changed here
    and elsewhere, and differently; they are marked as faults, so that neither is lost."""

    def __init__(self, form: Form):
        self.form = form
        self.now = marks_of(form, values_now)
        self.shown = marks_sent(form.data) if form.is_bound else {}
        self.both: list[str] = []
        if not self.knows:
            return
        self.sent = marks_of(form, values_sent)
        merged = form.data.copy()
        for name in form.fields:
            was = self.shown.get(name, self.now[name])
            if self.now[name] in (was, self.sent[name]):
                continue
            if self.sent[name] == was and self.can_take(name):
                merged.setlist(form.add_prefix(name), values_now(form, name))
            else:
                self.both.append(name)
        form.data = merged
        for name in self.both:
            said = words_now(form, name)
            form.add_error(
                name,
                f"Saved elsewhere meanwhile: {f'“{said}”' if said else 'nothing'}. Save again to keep what you typed.",
            )

    def can_take(self, name: str) -> bool:
        """Whether what was saved elsewhere means the same in this form: a length not where another unit is chosen."""
        with_it = getattr(self.form, "read_with", {}).get(name, ()) if any(values_now(self.form, name)) else ()
        return all(values_now(self.form, part) == values_sent(self.form, part) for part in with_it)

    @property
    def knows(self) -> bool:
        """Whether the form said what it had shown."""
        return bool(self.shown)

    @property
    def unkept(self) -> Iterable[str]:
        """The fields whose words were not saved: those with a fault, and all where nothing is kept of a faulty form
        (`form.kept_as_whole`, as a label) or the fault is the form's own."""
        whole = getattr(self.form, "kept_as_whole", False) or self.form.non_field_errors()
        return self.now if self.form.errors and whole else [name for name in self.form.errors if name in self.now]

    @property
    def marks_on_page(self) -> str:
        return self.marks_after(as_sent=False)

    def marks_after(self, *, as_sent: bool) -> str:
        """What the form carries from now on. `as_sent`: it still shows what it sent, as a page that saves itself does;
        else what was saved elsewhere too. What was refused in favour of neither is kept at the next saving."""
        if not self.knows:
            return written(self.now)
        shows = self.sent if as_sent else marks_of(self.form, values_sent)
        unkept = {name: self.shown.get(name, self.now[name]) for name in self.unkept}
        return written(shows | unkept | {name: self.now[name] for name in self.both})


def opened(form_class: type[Form], request, **given) -> Form:
    """A form of a step, with what was saved elsewhere since it was opened taken in: `form.meeting` says what."""
    form = form_class(request.POST or None, **given)
    form.meeting = Meeting(form)
    return form


def written(marks: Mapping[str, str]) -> str:
    """Marks as a form carries them."""
    return " ".join(f"{name}:{value}" for name, value in marks.items())


def marks_sent(data: QueryDict) -> dict[str, str]:
    return dict(pair for word in data.get(SENT_AS, "").split() if len(pair := tuple(word.split(":"))) == 2)


def words_now(form: Form, name: str) -> str:
    """What the record says, as a person reads it: of a choice its label."""
    values = values_now(form, name)
    choices = getattr(form.fields[name], "choices", ())
    labels = {str(value): str(label) for value, label in flat(choices)}
    return ", ".join(labels.get(value, value) for value in values if value)


def flat(choices) -> Iterable[tuple]:
    for value, label in choices:
        if isinstance(label, list | tuple):
            yield from label
        else:
            yield value, label
