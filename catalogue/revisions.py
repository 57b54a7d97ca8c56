"""The revision that a form was opened with, so that a save from another phone is not overwritten."""


def revision_sent(request) -> int:
    """As the form sent it; one that cannot be read is -1, which is one that is past."""
    typed = request.POST.get("revision", "")
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 10 else -1
