"""Forms of a member's own pages and of the secretary's."""

from django import forms

from catalogue.accounts import names
from catalogue.accounts.models import Holding, Invitation, JoinRequest, Member, RoleChange, Want
from catalogue.typed_words import WordsField, words_of_model


class SubjectField(forms.ModelChoiceField):
    def label_from_instance(self, obj):
        return f"{obj.code} {obj.name}"


class PieceForm(forms.ModelForm):
    """Of a version, or of any version of a garment type: one list for both."""

    subject = forms.ChoiceField(label="Which", help_text="A version, or a whole garment type where any will do.")
    note = WordsField(
        label="Note", required=False, max_length=500, widget=forms.Textarea(attrs={"rows": 3}), help_text="Size, maker…"
    )

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        types, versions = self.subjects()
        self.by_value = {f"type:{one.code}": one for one in types} | {f"version:{v.code}": v for v in versions}
        groups = [("", "Choose…")]
        for one in types:
            rows = [(f"type:{one.code}", f"{one.name}: any version")]
            rows += [(f"version:{v.code}", f"{v.code} {v.name}") for v in versions if v.garment_type_id == one.pk]
            groups.append((one.name, rows))
        self.fields["subject"].choices = groups
        if self.instance.pk:
            kind = "version" if self.instance.version_id else "type"
            self.initial.setdefault("subject", f"{kind}:{self.instance.subject.code}")

    def subjects(self):
        """Garment types and versions in the society's order, of retired ones only that which the row names already. The
        tables are the reference's; the keys lead there."""
        types = self._meta.model._meta.get_field("garment_type").related_model
        versions = self._meta.model._meta.get_field("version").related_model
        chosen = versions.objects.in_force() | versions.objects.filter(pk=self.instance.version_id)
        ordered = chosen.order_by("position", "code").only("code", "name", "garment_type_id")
        return list(types.objects.only("code", "name")), list(ordered)

    def clean(self):
        cleaned = super().clean()
        if found := self.by_value.get(cleaned.get("subject", "")):
            is_version = cleaned["subject"].startswith("version:")
            self.instance.version = found if is_version else None
            self.instance.garment_type = None if is_version else found
        return cleaned


class HoldingForm(PieceForm):
    field_order = ["subject", "number", "note", "is_shown"]

    class Meta:
        model = Holding
        formfield_callback = words_of_model
        fields = ["number", "note", "is_shown"]

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["number"].min_value = 1
        self.fields["number"].widget.attrs |= {"min": 1, "max": 999}

    def clean_number(self):
        number = self.cleaned_data["number"]
        if not 1 <= number <= 999:
            raise forms.ValidationError("Write how many there are, from 1 to 999.")
        return number


class WantForm(PieceForm):
    field_order = ["subject", "condition_at_least", "offers", "spare", "note", "is_shown"]

    class Meta:
        model = Want
        formfield_callback = words_of_model
        fields = ["condition_at_least", "offers", "spare", "note", "is_shown"]
        field_classes = {"spare": SubjectField}
        help_texts = {"offers": "Exchange, purchase, loan for study…", "spare": "What you would give in exchange."}

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["spare"].empty_label = "none"
        spares = self.fields["spare"].queryset
        chosen = spares.in_force() | spares.filter(pk=self.instance.spare_id)
        self.fields["spare"].queryset = chosen.order_by("position", "code")


class ShownForm(forms.ModelForm):
    """What others see of a member."""

    class Meta:
        model = Member
        formfield_callback = words_of_model
        fields = ["username", "joined_year", "about"]
        labels = {"about": "About me", "joined_year": "In the society since (year)"}
        help_texts = {
            "username": "At most 40 signs. Everything you have done will stand under the new name.",
            "joined_year": "Shown beside your role; leave it empty to show nothing.",
            "about": "Shown to everybody. What you collect, what you know well. At most 1,000 signs.",
        }
        widgets = {"about": forms.Textarea(attrs={"rows": 6})}

    def clean_username(self):
        name = names.tidy(self.cleaned_data["username"])
        if Member.objects.called(name).exclude(pk=self.instance.pk).exists():
            raise forms.ValidationError("Somebody has that name, or one that looks like it. Choose another.")
        return name

    def clean_joined_year(self):
        year = self.cleaned_data["joined_year"]
        if year is not None and not 1850 <= year <= 2200:
            raise forms.ValidationError("Write a year with four figures, as 2009.")
        return year


class InvitationForm(forms.ModelForm):
    class Meta:
        model = Invitation
        formfield_callback = words_of_model
        fields = ["email", "note"]
        labels = {"email": "Send it to (e-mail address)", "note": "Whom it is for"}
        help_texts = {
            "email": "Leave it empty to be shown the address of the invitation, and pass it on yourself.",
            "note": "For yourself, so that you know it again.",
        }
        widgets = {"email": forms.EmailInput(attrs={"autocomplete": "off"})}


class AskAgainForm(forms.ModelForm):
    class Meta:
        model = JoinRequest
        formfield_callback = words_of_model
        fields = ["words"]
        labels = {"words": "A few words for the moderators"}
        help_texts = {"words": "What you collect, or who of the society knows you."}
        widgets = {"words": forms.Textarea(attrs={"rows": 4})}


class DecisionForm(forms.Form):
    """Which of the two buttons was pressed says what is decided."""

    reason = WordsField(
        label="Reason",
        required=False,
        max_length=1000,
        widget=forms.Textarea(attrs={"rows": 4}),
        help_text="Needed to decline: the person reads it. Kept with the decision.",
    )


class RoleForm(forms.ModelForm):
    class Meta:
        model = RoleChange
        formfield_callback = words_of_model
        fields = ["after", "reason"]
        labels = {"after": "New role"}
        widgets = {"reason": forms.Textarea(attrs={"rows": 3}), "after": forms.RadioSelect}
        help_texts = {"reason": "Kept on record with your name and today's date."}

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["after"].choices = Member.Role.choices


class LeaveForm(forms.Form):
    """The name typed once more: nothing that happens by a slip."""

    name = WordsField(label="Your display name", widget=forms.TextInput(attrs={"autocomplete": "off"}))

    def __init__(self, *args, member, **kwargs):
        self.member = member
        super().__init__(*args, **kwargs)
        self.fields["name"].help_text = f"Type “{member.username}” to confirm."

    def clean_name(self):
        typed = names.tidy(self.cleaned_data["name"])
        if typed != self.member.username:
            raise forms.ValidationError(f"That is not “{self.member.username}”. Nothing was changed.")
        return typed
