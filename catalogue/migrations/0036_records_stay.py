from django.db import migrations

from catalogue.review.records import refusing


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0035_what_labels_say_of_states")]

    operations = [migrations.RunPython(refusing.guard_everything, refusing.unguard_everything)]
