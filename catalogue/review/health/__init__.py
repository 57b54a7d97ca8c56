"""The health of the reference: its weak spots, worked out of the records and the accepted pieces, kept, and shown."""
