"""Invitations by which somebody joined who has left since lose the address and the note, as they now do at leaving."""

from django.db import migrations


def forget(apps, schema_editor):
    used = apps.get_model("catalogue", "Invitation").objects.filter(used_by__left_at__isnull=False)
    used.update(email="", note="")


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0046_notices_of_alterations")]

    operations = [migrations.RunPython(forget, migrations.RunPython.noop)]
