"""What an action says when it will not be done."""


class CannotDo(ValueError):
    """Refused; the words are for the person who asked. Nothing was written."""
