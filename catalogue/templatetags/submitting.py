"""Words that the pages of a submission share."""

from django import template

from catalogue.member_examples.submitting.steps import saved_words

register = template.Library()
register.filter("saved_words", saved_words)
