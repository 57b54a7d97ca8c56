"""Sources that members put on the list while they write: one person's small thing, which can be taken back."""
