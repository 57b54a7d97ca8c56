"""The back office for sets. Pieces themselves are read and decided on behind their own gates, never here: whoever may
write the reference may not read drafts."""

from django import forms
from django.contrib import admin
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.back_office import EVIDENCE
from catalogue.member_examples.models import Example, ExampleInSet, ExampleSet


class ExampleSetForm(forms.ModelForm):
    """A set with the codes of its accepted pieces."""

    codes = forms.CharField(label="Pieces", max_length=2_000, help_text="codes of accepted examples, spaces between")

    class Meta:
        model = ExampleSet
        fields = ("code", "name", "together", "fasten", "grounds")

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        if self.instance.pk:
            self.initial["codes"] = " ".join(
                self.instance.places.order_by("position").values_list("example__code", flat=True)
            )

    def clean_codes(self) -> list[Example]:
        codes = list(dict.fromkeys(self.cleaned_data["codes"].split()))
        kept = self.instance.examples.all() if self.instance.pk else Example.objects.none()
        allowed = Example.objects.accepted() | Example.objects.filter(pk__in=kept.values("pk"))
        found = {example.code: example for example in allowed.filter(code__in=codes)}
        if missing := [code for code in codes if code not in found]:
            raise ValidationError(f"No accepted example has the code {', '.join(missing)[:80]}.")
        if len(codes) < 2:
            raise ValidationError("A set has two pieces at least.")
        return [found[code] for code in codes]


@admin.register(ExampleSet)
class ExampleSetAdmin(admin.ModelAdmin):
    office_group = EVIDENCE
    office_place = 9
    office_about = "pieces found or sold together"
    form = ExampleSetForm
    list_display = ["code", "name", "together", "made_by"]
    search_fields = ["code", "name"]
    save_on_top = True

    def changeform_view(self, request, *args, **kwargs):
        with transaction.atomic():
            return super().changeform_view(request, *args, **kwargs)

    def get_readonly_fields(self, request, obj=None):
        return ("code",) if obj else ()

    def save_model(self, request, obj, form, change):
        if not change:
            obj.made_by = request.user
        super().save_model(request, obj, form, change)
        obj.places.all().delete()
        ExampleInSet.objects.bulk_create(
            ExampleInSet(example_set=obj, example=example, position=place)
            for place, example in enumerate(form.cleaned_data["codes"])
        )
