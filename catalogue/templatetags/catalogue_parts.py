"""Small parts that templates use."""

import json

from django import template
from django.core.serializers.json import DjangoJSONEncoder
from django.utils.html import format_html
from django.utils.safestring import mark_safe

from catalogue.accounts import roles
from catalogue.site_pages.first_screen import style_text

register = template.Library()


@register.simple_tag
def first_screen_style():
    """The one inline style block. Its text is the site's own file and is named in the content policy by its hash."""
    return format_html("<style>{}</style>", mark_safe(style_text()))  # noqa: S308 - a file of ours, not data


@register.filter
def as_json(value):
    """A value as JSON, for a data- attribute: the template escapes it like any other text."""
    return json.dumps(value, cls=DjangoJSONEncoder, separators=(",", ":"))


@register.filter
def full_stop(words):
    """Words that somebody typed, as a sentence: with one full stop, or the end that they have already."""
    words = str(words).rstrip()
    return (
        words if not words or words[-1] in ".!?…" or words[-2:] in (".”", "!”", "?”", ".)", "!)", "?)") else f"{words}."
    )


@register.filter
def may(person, action):
    """Whether `person`, as every template has it, may do it: `{% if person|may:"review_examples" %}`."""
    return bool(person) and roles.may(person, action)
