"""When a moderator is away, and who stands in."""

from django import forms
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.accounts.roles import MAINTAIN_REFERENCE, ROLES_THAT_MAY


def day(label: str, words: str) -> forms.DateField:
    return forms.DateField(
        label=label,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={"required": words, "invalid": "Write the day as 2026-05-14."},
    )


class LeaveForm(forms.Form):
    deputy = forms.ModelChoiceField(
        queryset=Member.objects.none(),
        label="Who stands in",
        empty_label="Choose …",
        help_text="An author, a moderator or the secretary.",
        error_messages={"required": "Choose who stands in.", "invalid_choice": "Choose one of these."},
    )
    begins = day("First day", "Write down the first day.")
    ends = day("Last day", "Write down the last day.")

    def __init__(self, *args, moderator: Member, **kwargs):
        super().__init__(*args, **kwargs)
        roles = [str(role) for role in ROLES_THAT_MAY[MAINTAIN_REFERENCE]]
        able = Member.objects.admitted().filter(role__in=roles).exclude(pk=moderator.pk)
        self.fields["deputy"].queryset = able.order_by("username")
        leave = getattr(moderator, "leave", None)
        self.initial |= (
            {"deputy": leave.deputy_id, "begins": leave.begins, "ends": leave.ends}
            if leave
            else {"begins": timezone.localdate()}
        )
