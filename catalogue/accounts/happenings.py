"""What later slices may want to be told of, within the same transaction. This slice knows nothing of who listens."""

from django.dispatch import Signal

asked_to_join = Signal()  # request: JoinRequest
request_decided = Signal()  # request: JoinRequest
