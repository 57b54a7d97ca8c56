"""What the pages of the back office share.

Every change marks the reference as changed in the same transaction, is written down as a correction with its old and
new values in words, and is refused where somebody else has changed the record since the form was opened.
"""

from collections.abc import Iterable

from django import forms
from django.contrib import admin, messages
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Max
from django.http import QueryDict
from django.shortcuts import render
from django.utils.html import strip_tags

from catalogue.reference import admin_editions as editions
from catalogue.reference.admin_rows import OfficeFields
from catalogue.reference.models import Correction, FeatureState, ReferenceState, VersionRecord
from catalogue.reference.written_records import features_may_have_changed
from catalogue.typed_words import WORDS_TYPED, WordsField

SEEN, WHY = "seen_edition", "why"
NO_EDITION = (
    "The form did not say which edition of the record it began with, so nothing was saved. What you typed stands "
    "below: compare it with the record as it is now, and save again."
)
NOT_WRITTEN = "Nothing was written of: {}. That is only read here; the page says how it is changed."
MOST_NAMED = 5
CHANGED = "Somebody else changed this record while you had it open. Nothing was saved yet, and nothing is lost."


class ReferenceForm(forms.ModelForm):
    """A record of the reference, with the reason for changing it. `clash`: what others changed meanwhile."""

    clash: list[editions.Difference] | None = None

    why = WordsField(
        required=False,
        max_length=500,
        help_text="What you rest it on; kept in the record's history.",
        widget=forms.TextInput(attrs={"class": "vTextField"}),
    )

    def __init__(self, *args, **kwargs):
        """Who changes what stands there says why; what is new speaks for itself."""
        super().__init__(*args, **kwargs)
        if WHY in self.fields and self.instance.pk:
            self.fields[WHY].required = True
            self.fields[WHY].error_messages["required"] = "Say why: it is kept in the record's history."

    def clean(self):
        given = super().clean()
        if self.clash is not None:
            for one in self.clash:
                if one.group == editions.RECORD and one.outcome == editions.YOURS and one.name in self.fields:
                    words = (
                        f"Changed meanwhile to “{one.now or 'nothing'}”. Yours stands here: saving it replaces that."
                    )
                    self.add_error(one.name, words)
            raise ValidationError(CHANGED if self.clash else NO_EDITION)
        return given


class ReferenceAdmin(OfficeFields, admin.ModelAdmin):
    """A record of the reference. What is new goes behind the others, where nobody gives it a place."""

    form = ReferenceForm
    formfield_overrides = WORDS_TYPED
    save_on_top = True
    object_history_template = "admin/catalogue/history.html"

    def get_readonly_fields(self, request, obj=None):
        """A code stands in addresses and spreadsheets for ever: once given, it is not changed."""
        found = tuple(super().get_readonly_fields(request, obj))
        return (*found, "code") if obj and hasattr(obj, "code") and "code" not in found else found

    def get_fieldsets(self, request, obj=None):
        """Why stands last, where the record may be written."""
        may = self.has_change_permission(request, obj) if obj else self.has_add_permission(request)
        found = [(name, {**options}) for name, options in super().get_fieldsets(request, obj)]
        for _, options in found:
            options["fields"] = [one for one in options["fields"] if one != WHY]
        return [*found, (None, {"fields": [WHY]})] if may and WHY in self.form.declared_fields else found

    def rests_on(self, obj) -> list[str]:
        """What would lose something were the record deleted, in words; nothing for a record that may go."""
        return []

    def get_deleted_objects(self, objs, request):
        deleted, counts, wanting, protected = super().get_deleted_objects(objs, request)
        resting = [words for obj in objs for words in self.rests_on(obj)]
        return deleted, counts, wanting, [*counted_by_kind(protected), *resting]

    # ---- what the form does not write

    def unwritten(self, request, obj) -> list[str]:
        """What was sent of a record that its form only shows, in words: it was opened before that was so, or written by
        hand. Nothing of it is written, which has to be said."""
        shut = [name for name in self.get_readonly_fields(request, obj) if request.POST.get(name, "").strip()]
        fields = {field.name: field for field in obj._meta.get_fields() if not field.auto_created}
        found = [str(fields[name].verbose_name) for name in shut if name in fields]
        open_rows = self.get_inlines(request, obj)
        for rows in dict.fromkeys((*self.inlines, *open_rows)):
            prefix = f"{prefix_of(rows, self.model)}-"
            sent = {name.rpartition("-")[2] for name, text in request.POST.items() if is_row(name, prefix) and text}
            if rows in open_rows:
                sent &= {str(one) for one in rows.readonly_fields}
            elif any(prefix_of(one, self.model) == prefix[:-1] for one in open_rows):
                continue
            if sent:
                found.append(str(rows.verbose_name_plural or rows.model._meta.verbose_name_plural))
        return list(dict.fromkeys(found))

    def response_change(self, request, obj):
        """A change that was not taken is said to be none."""
        if left := self.unwritten(request, obj):
            messages.warning(request, NOT_WRITTEN.format(", ".join(left)))
        return super().response_change(request, obj)

    def message_user(self, request, message, level=messages.INFO, *args, **kwargs):
        """No word of success where nothing was written of what was sent."""
        if level == messages.SUCCESS and getattr(request, "wrote_nothing", False):
            return
        super().message_user(request, message, level, *args, **kwargs)

    # ---- editions

    def changeform_view(self, request, object_id=None, form_url="", extra_context=None):
        """A form that others have overtaken comes back with what was typed, merged with what they changed."""
        with transaction.atomic():
            request.clash, request.before = None, None
            if request.method == "POST":
                ReferenceState.hold()  # so that nobody writes the same code between its check and its writing
            if request.method == "POST" and object_id:
                obj = self.get_object(request, object_id)
                if obj is None and self.has_change_permission(request):
                    return self.gone(request, object_id)
                if obj and self.has_change_permission(request, obj):
                    self.compare_editions(request, obj)
            return super().changeform_view(request, object_id, form_url, extra_context)

    def compare_editions(self, request, obj) -> None:
        """Sets what the request is to be judged by: the record as it is now, and what others changed since."""
        formsets = self.plain_formsets(request, obj)
        read = self.read(request, obj, formsets)
        request.before = read
        held = editions.unfolded_sheet(request.POST.get(SEEN, ""))
        opened, request.seen_last = held or ({}, 0)
        if held and opened == read.sheet:
            return
        typed = editions.typed_sheet(request.POST, read)
        result, differences = editions.merged(opened or read.sheet, read.sheet, typed, read)
        request.clash = differences
        if differences or not held:
            request.POST = editions.as_sent(result, request.POST, obj.pk, formsets)
        else:
            request.clash = None  # what they changed is what was typed here, too

    def plain_formsets(self, request, obj) -> list:
        """The rows as they are shown before anything is typed."""
        found, taken = [], {}
        for formset, inline in self.get_formsets_with_inlines(request, obj):
            prefix = formset.get_default_prefix()
            taken[prefix] = taken.get(prefix, 0) + 1
            prefix = prefix if taken[prefix] == 1 else f"{prefix}-{taken[prefix]}"
            found.append(formset(instance=obj, prefix=prefix, queryset=inline.get_queryset(request)))
        return found

    def read(self, request, obj, formsets: list | None = None) -> editions.Read:
        """The record as its form shows it now."""
        formsets = self.plain_formsets(request, obj) if formsets is None else formsets
        form = self.get_form(request, obj, change=True)(instance=obj)
        return editions.read_form(form, formsets, without=(WHY,))

    def get_form(self, request, obj=None, change=False, **kwargs):
        form = super().get_form(request, obj, change=change, **kwargs)
        clash = getattr(request, "clash", None)
        return type(form.__name__, (form,), {"clash": clash}) if clash is not None else form

    def render_change_form(self, request, context, add=False, change=False, form_url="", obj=None):
        """The form carries the edition that it shows; after a clash, that which stands now."""
        if change and obj and self.has_change_permission(request, obj):
            last = self.corrections_of(obj).values_list("pk", flat=True).first() or 0
            overtaken = getattr(request, "clash", None) is not None
            if request.method == "POST" and not overtaken:
                context["edition"] = request.POST.get(SEEN, "")
            else:
                before = getattr(request, "before", None) or self.read(request, obj)
                context["edition"] = editions.folded_sheet(before.sheet, last)
            if overtaken:
                since = self.corrections_of(obj).filter(pk__gt=request.seen_last) if request.clash else []
                context |= {"clash": request.clash, "since": list(since)}
        return super().render_change_form(request, context, add, change, form_url, obj)

    def gone(self, request, object_id):
        """The record was deleted while its form was open: what was typed is shown, so that it can be kept."""
        told = Correction.objects.filter(table=self.model._meta.model_name, deed=Correction.Deed.DELETED)
        told = told.filter(row=object_id).first() if object_id.isascii() and object_id.isdigit() else None
        context = self.admin_site.each_context(request) | {
            "title": "No longer there",
            "opts": self.model._meta,
            "deletion": told,
            "typed": typed_lines(request.POST),
        }
        return render(request, "admin/catalogue/gone.html", context, status=410)

    # ---- writing, and what it leaves in the history

    def get_changeform_initial_data(self, request):
        first = {"position": behind_all(self.model.objects)} if has_position(self.model) else {}
        given = super().get_changeform_initial_data(request)
        return first | {name: value for name, value in given.items() if can_be_chosen(self.model, name, value)}

    def save_formset(self, request, form, formset, change):
        if has_position(formset.model):
            place = behind_all(formset.get_queryset())
            for row in formset.extra_forms:
                if row.has_changed() and not row.instance.position:
                    row.instance.position = place
                    place += 1
        super().save_formset(request, form, formset, change)

    def save_related(self, request, form, formsets, change):
        super().save_related(request, form, formsets, change)
        after = self.read(request, self.model.objects.get(pk=form.instance.pk))
        before = request.before.sheet if change and request.before else {}
        lines = editions.lines_between(before, after.sheet, after)
        if not change and "code" in form.cleaned_data:
            lines.insert(0, ["Code", "", form.cleaned_data["code"]])
        request.wrote_nothing = change and not lines and bool(self.unwritten(request, form.instance))
        if lines or not change:
            deed = Correction.Deed.CHANGED if change else Correction.Deed.ADDED
            made = write_down(request, form.instance, deed, lines, form.cleaned_data.get(WHY, ""))
            tell_of_feature(request, made)
        ReferenceState.mark_changed()

    def delete_model(self, request, obj):
        with transaction.atomic():
            made = write_down(request, obj, Correction.Deed.DELETED, self.last_words(request, obj))
            super().delete_model(request, obj)
            tell_of_feature(request, made)
            ReferenceState.mark_changed()

    def delete_queryset(self, request, queryset):
        with transaction.atomic():
            for obj in queryset:
                made = write_down(request, obj, Correction.Deed.DELETED, self.last_words(request, obj))
            super().delete_queryset(request, queryset)
            tell_of_feature(request, made)
            ReferenceState.mark_changed()

    def last_words(self, request, obj) -> list[list[str]]:
        """All that a record said, for the history that outlives it."""
        read = self.read(request, obj)
        return editions.lines_between(read.sheet, {}, read)

    # ---- history

    def corrections_of(self, obj):
        """The corrections that the history of a record lists, newest first."""
        return Correction.objects.filter(table=self.model._meta.model_name, row=obj.pk).select_related("member")

    def history_view(self, request, object_id, extra_context=None):
        """Every correction with its old and new values, who made it, and why."""
        obj = self.get_object(request, object_id)
        found = list(self.corrections_of(obj)) if obj else []
        return super().history_view(request, object_id, {**(extra_context or {}), "corrections": found})


def counted_by_kind(protected: Iterable[str]) -> list[str]:
    """What Django names one by one, as `Observation: 3 seen`: of a kind with many only how many there are."""
    kinds: dict[str, list[str]] = {}
    for one in protected:
        kinds.setdefault(strip_tags(one).partition(":")[0], []).append(one)
    return [
        line
        for kind, lines in kinds.items()
        for line in (lines if len(lines) <= MOST_NAMED else [f"{kind}: {len(lines)} of them"])
    ]


def tell_of_feature(request, made: Correction) -> None:
    """A saving that may have changed features, of a feature or of the types that ask it, or how a version is called."""
    if made.table in ("feature", "garmenttype", "issueversion"):
        why = made.why or f"{made.title}: {made.get_deed_display().lower()} in the back office."
        features_may_have_changed(by=request.user, why=why, standing=VersionRecord.Standing.WRITTEN)


def write_down(request, obj, deed: str, lines: list[list[str]], why: str = "") -> Correction:
    """The correction of a record by whoever is signed in."""
    return Correction.objects.create(
        table=obj._meta.model_name,
        row=obj.pk,
        title=editions.titled(obj)[:300],
        deed=deed,
        member=request.user,
        why=why.strip(),
        lines=lines,
    )


def typed_lines(data: QueryDict) -> list[tuple[str, str]]:
    """What a form held, but for what no person types."""
    unseen = ("csrfmiddlewaretoken", SEEN)
    kept = [name for name in data if name not in unseen and not name.startswith("_") and "_FORMS" not in name]
    return [(name.replace("_", " "), text) for name in kept if (text := ", ".join(filter(None, data.getlist(name))))]


def prefix_of(rows: type, parent: type) -> str:
    """What the names of an inline table's fields begin with."""
    name = getattr(rows, "fk_name", None)
    keys = [field for field in rows.model._meta.fields if field.related_model is parent]
    key = next(field for field in keys if name in (None, field.name))
    return key.remote_field.get_accessor_name(model=rows.model)


def is_row(name: str, prefix: str) -> bool:
    """Whether a field that was sent is one of a row of the table, and holds what a person types."""
    place, _, field = name.removeprefix(prefix).partition("-")
    return name.startswith(prefix) and place.isdigit() and field not in ("", "id", "DELETE")


def has_position(model) -> bool:
    return any(field.name == "position" for field in model._meta.fields)


def can_be_chosen(model, name: str, value) -> bool:
    """Whether an address may ask for that value; one of a related record must be its number."""
    related = {field.name for field in model._meta.get_fields() if field.is_relation}
    numbers = value if isinstance(value, list) else [value]
    return name not in related or all(str(one).isascii() and str(one).isdigit() for one in numbers)


def behind_all(rows) -> int:
    last = rows.aggregate(last=Max("position"))["last"]
    return 0 if last is None else last + 1


def grouped_states(states: Iterable[FeatureState]) -> list[tuple[str, list[tuple[int, str]]]]:
    """States as the choices of a list, under the names of their features; `states` come with their features."""
    groups: dict[str, list[tuple[int, str]]] = {}
    for state in states:
        groups.setdefault(state.feature.name, []).append((state.pk, state.label))
    return list(groups.items())
