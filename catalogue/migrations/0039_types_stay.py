from django.db import migrations

from catalogue.review.records import refusing


class Migration(migrations.Migration):
    """A version that has a record keeps its garment type: its cells are of that type's features."""

    dependencies = [
        ("catalogue", "0038_decisions_sealed"),
    ]

    operations = [
        migrations.RunPython(refusing.guard_versions, refusing.unguard_versions),
    ]
