"""What later slices may want to be told of, within the same transaction. This slice knows nothing of who listens."""

from django.dispatch import Signal

piece_sent = Signal()  # example: Example, as it now waits
name_asked_for = Signal()  # asked: NameRequest
name_request_settled = Signal()  # asked: NameRequest
name_removed = Signal()  # note: HiddenName, by: Member
piece_joined_set = Signal()  # place: ExampleInSet, by: Member
alteration_added = Signal()  # alteration: Alteration, that nobody has confirmed
alteration_settled = Signal()  # alteration: Alteration, confirmed or taken back
