"""What later slices may want to be told of. This slice knows nothing of who listens."""

from django.dispatch import Signal

reference_changed = Signal()  # once the change is safe
