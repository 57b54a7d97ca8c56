"""What the pages of the back office share: every change marks the reference as changed in the same transaction."""

from collections.abc import Iterable

from django.contrib import admin
from django.db import transaction
from django.db.models import Max

from catalogue.reference.models import FeatureState, ReferenceState


class ReferenceAdmin(admin.ModelAdmin):
    """A record of the reference. What is new goes behind the others, where nobody gives it a place."""

    save_on_top = True

    def get_readonly_fields(self, request, obj=None):
        """A code stands in addresses and spreadsheets for ever: once given, it is not changed."""
        found = tuple(super().get_readonly_fields(request, obj))
        return (*found, "code") if obj and hasattr(obj, "code") and "code" not in found else found

    def rests_on(self, obj) -> list[str]:
        """What would lose something were the record deleted, in words; nothing for a record that may go."""
        return []

    def get_deleted_objects(self, objs, request):
        deleted, counts, wanting, protected = super().get_deleted_objects(objs, request)
        return deleted, counts, wanting, [*protected, *(words for obj in objs for words in self.rests_on(obj))]

    def changeform_view(self, request, *args, **kwargs):
        with transaction.atomic():
            return super().changeform_view(request, *args, **kwargs)

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
        ReferenceState.mark_changed()

    def delete_model(self, request, obj):
        with transaction.atomic():
            super().delete_model(request, obj)
            ReferenceState.mark_changed()

    def delete_queryset(self, request, queryset):
        with transaction.atomic():
            super().delete_queryset(request, queryset)
            ReferenceState.mark_changed()


class Rows(admin.TabularInline):
    extra = 0


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
