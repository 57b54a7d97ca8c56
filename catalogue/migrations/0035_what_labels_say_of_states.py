from django.db import migrations, models

import catalogue.reference.models.fields


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0034_restrictions")]

    operations = [
        migrations.AddField(
            model_name="featurestate",
            name="label_says",
            field=models.CharField(
                blank=True,
                default="",
                help_text="what a label says whose piece shows this, | between: size:CODE of a number form, "
                "fibres:cotton 60-70, polyester, country:NAME",
                max_length=300,
                validators=[catalogue.reference.models.fields.validate_label_says],
            ),
        ),
    ]
