"""Which numbers of pieces and sets were ever given, also of those that are deleted."""

from django.db import models
from django.db.models import IntegerField, Max
from django.db.models.functions import Cast, Substr
from django.db.models.signals import post_delete
from django.dispatch import receiver

from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.models.sets import ExampleSet

DIGITS = 9
LETTERS = {Example: "E", ExampleSet: "G"}


class LastNumber(models.Model):
    """The highest number that was ever in a code beginning with this letter. What is deleted leaves its address to
    nobody: a link to it, a note or a print must not lead to another piece."""

    letter = models.CharField(max_length=1, unique=True)
    number = models.PositiveIntegerField(default=0)

    def __str__(self) -> str:
        return f"{self.letter}{self.number}"


def next_number(kind: type[Example] | type[ExampleSet]) -> int:
    """One more than any code of this kind ever had, standing or deleted since. Within a transaction: whoever asks next
    waits for it."""
    letter = LETTERS[kind]
    LastNumber.objects.get_or_create(letter=letter)
    kept = LastNumber.objects.select_for_update().get(letter=letter)
    numbered = kind._base_manager.filter(code__regex=rf"^{letter}[0-9]{{1,{DIGITS}}}$")
    highest = numbered.aggregate(most=Max(Cast(Substr("code", 2), IntegerField())))["most"] or 0
    kept.number = max(highest, kept.number) + 1
    kept.save(update_fields=["number"])
    return kept.number


@receiver(post_delete, sender=Example)
@receiver(post_delete, sender=ExampleSet)
def keep_number(sender, instance, **kwargs) -> None:
    """A code that was not given by `next_number`, as an import writes them, is kept too when its row goes."""
    letter, number = instance.code[:1], instance.code[1:]
    if letter != LETTERS[sender] or not (number.isascii() and number.isdecimal() and len(number) <= DIGITS):
        return
    LastNumber.objects.get_or_create(letter=letter)
    LastNumber.objects.filter(letter=letter, number__lt=int(number)).update(number=int(number))
