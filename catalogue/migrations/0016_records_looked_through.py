import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models

from catalogue.review.unreviewed.written_once import guard, unguard


class Migration(migrations.Migration):

    dependencies = [
        ('catalogue', '0015_codes_whatever_their_capitals'),
    ]

    operations = [
        migrations.AddField(
            model_name='issueversion',
            name='passed_record',
            field=models.OneToOneField(blank=True, editable=False, help_text='a record that nobody proposed, which a moderator looked through and let stand', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.versionrecord'),
        ),
        migrations.CreateModel(
            name='RecordLook',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('turn', models.PositiveIntegerField()),
                ('passed', models.BooleanField(help_text='no: an earlier pass is taken back')),
                ('reason', models.TextField()),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='record_looks', to=settings.AUTH_USER_MODEL)),
                ('record', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='looks', to='catalogue.versionrecord')),
            ],
            options={
                'ordering': ['record', 'turn'],
                'constraints': [models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='look_has_a_reason'), models.CheckConstraint(condition=models.Q(models.Q(('passed', True), ('turn', 1)), ('turn__gt', 1), _connector='OR'), name='first_look_passes'), models.UniqueConstraint(fields=('record', 'turn'), name='look_is_one_of_its_turn')],
            },
        ),
        migrations.RunPython(guard, unguard),
    ]
