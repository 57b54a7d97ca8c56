import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('catalogue', '0020_records_of_features'),
    ]

    operations = [
        migrations.CreateModel(
            name='KeptOutOfSet',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
            ],
        ),
        migrations.RemoveConstraint(
            model_name='notice',
            name='notice_tells_of_one_thing',
        ),
        migrations.AddField(
            model_name='exampleinset',
            name='added_by',
            field=models.ForeignKey(blank=True, help_text='empty: who made the set', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='exampleset',
            name='dissolved_at',
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
        migrations.AddField(
            model_name='exampleset',
            name='dissolved_by',
            field=models.ForeignKey(blank=True, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='exampleset',
            name='made_once',
            field=models.UUIDField(blank=True, editable=False, help_text='given with the form: a second tap is the same', null=True, unique=True),
        ),
        migrations.AddField(
            model_name='exampleset',
            name='revision',
            field=models.PositiveIntegerField(default=0, editable=False, help_text='grows with every change; a change names the one it began with'),
        ),
        migrations.AddField(
            model_name='notice',
            name='set_place',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.exampleinset'),
        ),
        migrations.AddConstraint(
            model_name='exampleset',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('dissolved_at__isnull', True), ('dissolved_by__isnull', True)), models.Q(('dissolved_at__isnull', False), ('dissolved_by__isnull', False)), _connector='OR'), name='dissolved_set_says_by_whom_and_when'),
        ),
        migrations.AddConstraint(
            model_name='exampleset',
            constraint=models.CheckConstraint(condition=models.Q(('name', ''), _negated=True), name='set_has_a_name'),
        ),
        migrations.AddConstraint(
            model_name='notice',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('decision__isnull', False), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('set_place__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('set_place__isnull', True), ('word__isnull', False)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', False), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('set_place__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', False), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('set_place__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', False), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('set_place__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', False), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('set_place__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', False), ('proposal_word__isnull', True), ('set_place__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', False), ('set_place__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', False), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('set_place__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('set_place__isnull', False), ('word__isnull', True)), _connector='OR'), name='notice_tells_of_one_thing'),
        ),
        migrations.AddConstraint(
            model_name='notice',
            constraint=models.UniqueConstraint(fields=('member', 'set_place'), name='person_is_told_once_of_a_set_place'),
        ),
        migrations.AddField(
            model_name='keptoutofset',
            name='example',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='+', to='catalogue.example'),
        ),
        migrations.AddField(
            model_name='keptoutofset',
            name='example_set',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='kept_out', to='catalogue.exampleset'),
        ),
        migrations.AddConstraint(
            model_name='keptoutofset',
            constraint=models.UniqueConstraint(fields=('example_set', 'example'), name='piece_is_kept_out_of_a_set_once'),
        ),
    ]
