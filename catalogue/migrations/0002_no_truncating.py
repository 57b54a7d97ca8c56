"""PostgreSQL's TRUNCATE is refused where deleting is; a site that has taken the step before gets the guards anew."""

from django.db import migrations

from catalogue.review.records.refusing import guard_everything


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0001_all_tables")]

    operations = [migrations.RunPython(guard_everything, migrations.RunPython.noop)]
