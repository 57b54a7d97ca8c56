"""Rows and choices of the back office: what Django's own would answer with a failure is said in words."""

from django.contrib import admin
from django.contrib.admin.widgets import AutocompleteSelect, AutocompleteSelectMultiple
from django.core.exceptions import ValidationError
from django.db.models import IntegerField, Q, TextField, UniqueConstraint
from django.forms.models import BaseInlineFormSet

from catalogue.reference.spreadsheets.columns import FIRST_YEAR, LAST_YEAR, LONGEST_TEXT
from catalogue.typed_words import WORDS_TYPED

LONGEST_KEY = 18  # more figures are no number that a database counts with


class OnlyKnown:
    """A choice that is shown again looks its records up; one that came as anything but a number is none of them."""

    def optgroups(self, name, value, attrs=None):
        key = self.field.remote_field.model._meta.pk
        return super().optgroups(name, [one for one in value if not one or is_key(key, one)], attrs)


def is_key(key, written) -> bool:
    try:
        key.to_python(written)
    except ValidationError:
        return False
    return len(str(written)) <= LONGEST_KEY


class OneKnown(OnlyKnown, AutocompleteSelect):
    """One of many records, found by typing."""


class SomeKnown(OnlyKnown, AutocompleteSelectMultiple):
    """Several of many records, found by typing."""


class OfficeFields:
    """The fields of whatever stands in the back office: a record among many is found by typing, and no text is longer
    and no year other than the spreadsheets take, else what the site gives out could not be read in again."""

    def formfield_for_dbfield(self, db_field, request, **kwargs):
        if isinstance(db_field, TextField) and not db_field.validators:
            kwargs.setdefault("max_length", LONGEST_TEXT)
        if isinstance(db_field, IntegerField) and db_field.name.endswith("_year"):
            kwargs = {"min_value": FIRST_YEAR, "max_value": LAST_YEAR} | kwargs
        return super().formfield_for_dbfield(db_field, request, **kwargs)

    def formfield_for_foreignkey(self, db_field, request, **kwargs):
        if db_field.name in self.get_autocomplete_fields(request):
            kwargs.setdefault("widget", OneKnown(db_field, self.admin_site, using=kwargs.get("using")))
        return super().formfield_for_foreignkey(db_field, request, **kwargs)

    def formfield_for_manytomany(self, db_field, request, **kwargs):
        if db_field.name in self.get_autocomplete_fields(request):
            kwargs.setdefault("widget", SomeKnown(db_field, self.admin_site, using=kwargs.get("using")))
        return super().formfield_for_manytomany(db_field, request, **kwargs)


class OnceTogether(BaseInlineFormSet):
    """Says of two rows typed at once what the table would refuse only when they are written: Django compares the rows
    of a form for rules without a condition alone."""

    def clean(self):
        super().clean()
        for rule in self.model._meta.constraints:
            if isinstance(rule, UniqueConstraint) and rule.fields and rule.condition is not None:
                self.hold_to(rule)

    def hold_to(self, rule: UniqueConstraint) -> None:
        met = set()
        for form in self.forms:
            if form.errors or not form.has_changed() and not form.instance.pk or self._should_delete_form(form):
                continue
            row = {field.name: getattr(form.instance, field.attname) for field in self.model._meta.concrete_fields}
            row[self.fk.name] = self.instance.pk or 0
            if not holds(rule.condition, row):
                continue
            said = tuple(row[name] for name in rule.fields)
            if said in met:
                form.add_error(None, rule.violation_error_message)
            met.add(said)


def holds(condition: Q, row: dict[str, object]) -> bool:
    """Whether a row is one that the rule speaks of: all of "is empty", "is not empty" and "is this", as our tables have
    them (a test holds every rule of our rows to that). The row is not in the database yet, or not as it will be."""
    return all(
        (row[name.removesuffix("__isnull")] is None) == wanted if name.endswith("__isnull") else row[name] == wanted
        for name, wanted in condition.children
    )


class Rows(OfficeFields, admin.TabularInline):
    """Rows of a record, with a few free ones: to add one takes no script."""

    formset = OnceTogether
    formfield_overrides = WORDS_TYPED
    extra = 2


class BlocksOfRows(OfficeFields, admin.StackedInline):
    """The same, each below the other, where a row needs the width of the page."""

    formset = OnceTogether
    formfield_overrides = WORDS_TYPED
    extra = 2
