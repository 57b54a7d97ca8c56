from django.db import models


class Maker(models.Model):
    name = models.CharField(max_length=40)

    class Meta:
        app_label = "minimal_django"

    def __str__(self) -> str:
        return self.name


class Piece(models.Model):
    """One row of the list that is measured: what a list of a catalogue usually shows."""

    class Kind(models.TextChoices):
        ISSUE = "issue", "Issue"
        TRIAL = "trial", "Trial"
        COPY = "copy", "Commercial copy"
        REPAIR = "repair", "Depot repair"

    code = models.SlugField(unique=True)
    name = models.CharField(max_length=100)
    kind = models.CharField(max_length=20, choices=Kind.choices)
    maker = models.ForeignKey(Maker, on_delete=models.PROTECT)
    seen = models.DateField()
    note = models.CharField(max_length=200)

    class Meta:
        app_label = "minimal_django"
        ordering = ["id"]

    def __str__(self) -> str:
        return self.name
