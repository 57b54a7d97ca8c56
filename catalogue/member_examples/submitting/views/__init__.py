"""The pages of a submission: each fetches the piece through the gate, asks a form, calls an action, and redirects."""
