import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('catalogue', '0016_records_looked_through'),
    ]

    operations = [
        migrations.CreateModel(
            name='ReferenceImport',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('because', models.TextField()),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='reference_imports', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['-pk'],
            },
        ),
        migrations.AddField(
            model_name='proposal',
            name='brought_in',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to='catalogue.referenceimport'),
        ),
        migrations.AddConstraint(
            model_name='referenceimport',
            constraint=models.CheckConstraint(condition=models.Q(('because', ''), _negated=True), name='import_says_why'),
        ),
    ]
