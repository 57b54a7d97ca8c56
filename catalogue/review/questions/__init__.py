"""Open questions: decisions on them by two people, and the views that members hold."""
