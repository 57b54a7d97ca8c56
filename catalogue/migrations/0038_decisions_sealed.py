import django.db.models.deletion
from django.db import migrations, models

from catalogue.review.records import decisions, refusing


def seal_what_was_decided(apps, schema_editor):
    """Decisions of before, as the tables have them now."""
    table = apps.get_model("catalogue", "Decision")
    keys = list(table.objects.order_by("pk").values_list("pk", flat=True))
    decisions.add_seals(table, apps.get_model("catalogue", "DecisionSeal"), keys)
    if schema_editor.connection.vendor == "postgresql":  # which puts no trigger on a table that has checks left to do
        schema_editor.execute("SET CONSTRAINTS ALL IMMEDIATE")


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0037_views_taken_out")]

    operations = [
        migrations.RunPython(migrations.RunPython.noop, refusing.guard_everything),  # on the way back the last
        migrations.CreateModel(
            name="DecisionSeal",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("number", models.PositiveIntegerField(unique=True)),
                ("body", models.TextField(help_text="the decision with what it wrote further as canonical JSON")),
                ("previous", models.CharField(blank=True, default="", max_length=64)),
                ("digest", models.CharField(max_length=64, unique=True)),
                ("sealed_at", models.DateTimeField(auto_now_add=True)),
                (
                    "decision",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="seal", to="catalogue.decision"
                    ),
                ),
            ],
            options={
                "ordering": ["number"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("number", 1), ("previous", "")),
                            models.Q(("number__gt", 1), ("previous__regex", "^[0-9a-f]{64}$")),
                            _connector="OR",
                        ),
                        name="decision_seal_names_the_one_before",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("digest__regex", "^[0-9a-f]{64}$")),
                        name="decision_seal_digest_is_a_digest",
                    ),
                ],
            },
        ),
        migrations.RunPython(seal_what_was_decided, migrations.RunPython.noop),
        migrations.RunPython(refusing.guard_everything, refusing.unguard_everything),
    ]
