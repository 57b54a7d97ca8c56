"""Kinds of sources were written as anybody liked; now each is one of nine. What was written otherwise stands in the
source's note, so that nothing is lost."""

from django.db import migrations, models

KINDS = {
    "specification": "Specification",
    "tender": "Tender or contract",
    "order": "Regulation or dress instruction",
    "ledger": "Ledger or book of a works",
    "label": "Dated label",
    "photograph": "Period photograph",
    "publication": "Publication or report",
    "testimony": "Testimony",
    "seller": "Seller's word",
}
# By words that a kind holds, the first that is met; what is not met goes by the grade of the source.
MEANT = {
    "specification": "specification",
    "tender": "tender",
    "contract": "tender",
    "ledger": "ledger",
    "dye": "ledger",
    "seller": "seller",
    "advertisement": "seller",
    "listing": "seller",
    "price": "seller",
    "order": "order",
    "regulation": "order",
    "instruction": "order",
    "notice": "order",
    "photograph": "photograph",
    "photo": "photograph",
    "album": "photograph",
    "recollection": "testimony",
    "observation": "testimony",
    "interview": "testimony",
    "letter": "testimony",
    "testimony": "testimony",
    "label": "label",
    "book": "publication",
    "newsletter": "publication",
    "newspaper": "publication",
    "report": "publication",
    "publication": "publication",
}
BY_GRADE = {"B": "label", "C": "photograph", "D": "testimony", "E": "seller"}
OTHERWISE = "publication"


def kind_meant(written: str, grade: str) -> tuple[str, bool]:
    """The kind, and whether the words said just that."""
    plain = written.strip().casefold()
    for kind, label in KINDS.items():
        if plain in (kind, label.casefold()):
            return kind, True
    words = plain.replace(",", " ").replace("-", " ").split()
    for word, kind in MEANT.items():
        if word in words or f"{word}s" in words:
            return kind, False
    return BY_GRADE.get(grade, OTHERWISE), False


def noted(note: str, written: str, said_so: bool) -> str:
    """The note, with the word that the kind does not say."""
    if said_so:
        return note
    note = note.strip()
    stop = "." if note and note[-1] not in ".!?" else ""
    return f"{note}{stop} Its kind was recorded as “{written}”.".strip()


def kinds_meant(apps, schema_editor):
    for source in apps.get_model("catalogue", "Source").objects.order_by("pk"):
        kind, said_so = kind_meant(source.kind, source.grade)
        if kind != source.kind:
            source.note = noted(source.note, source.kind, said_so)
            source.kind = kind
            source.save(update_fields=["kind", "note"])


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0039_types_stay")]

    operations = [
        migrations.AddField(
            model_name="source",
            name="shelf_mark",
            field=models.CharField(
                blank=True,
                default="",
                help_text="number of file, page, print or recording where it is kept",
                max_length=200,
            ),
        ),
        migrations.AlterField(
            model_name="source",
            name="holder",
            field=models.CharField(
                blank=True,
                default="",
                help_text="who keeps it; of a testimony who told it, as “a storeman”",
                max_length=200,
            ),
        ),
        migrations.RunPython(kinds_meant, migrations.RunPython.noop),
        migrations.AlterField(
            model_name="source",
            name="kind",
            field=models.CharField(choices=list(KINDS.items()), max_length=20),
        ),
        migrations.AddConstraint(
            model_name="source",
            constraint=models.CheckConstraint(
                condition=models.Q(("kind__in", list(KINDS))),
                name="source_kind_is_known",
                violation_error_message="The kind is none of the words that the society uses.",
            ),
        ),
    ]
