import django.db.models.deletion
import django.db.models.functions.comparison
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('catalogue', '0023_histories_of_details'),
    ]

    operations = [
        migrations.CreateModel(
            name='Companion',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('goes_with', models.CharField(choices=[('fits', 'fits'), ('worn_with', 'was worn with')], default='fits', max_length=10)),
                ('note', models.TextField(blank=True, default='')),
            ],
            options={
                'ordering': ['version', 'other', 'goes_with'],
            },
        ),
        migrations.RemoveConstraint(
            model_name='citation',
            name='citation_has_one_claim',
        ),
        migrations.AddField(
            model_name='companion',
            name='joined_by',
            field=models.ForeignKey(blank=True, help_text='the feature of both that shows what joins them, such as loops and buttons', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.feature'),
        ),
        migrations.AddField(
            model_name='companion',
            name='other',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='companion_of', to='catalogue.issueversion'),
        ),
        migrations.AddField(
            model_name='companion',
            name='version',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='companions', to='catalogue.issueversion'),
        ),
        migrations.AddField(
            model_name='citation',
            name='companion',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.companion'),
        ),
        migrations.AddConstraint(
            model_name='citation',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('cell__isnull', True), ('companion__isnull', True), ('issuer__isnull', True), ('stock_number__isnull', True), ('version__isnull', False)), models.Q(('cell__isnull', False), ('companion__isnull', True), ('issuer__isnull', True), ('stock_number__isnull', True), ('version__isnull', True)), models.Q(('cell__isnull', True), ('companion__isnull', True), ('issuer__isnull', True), ('stock_number__isnull', False), ('version__isnull', True)), models.Q(('cell__isnull', True), ('companion__isnull', True), ('issuer__isnull', False), ('stock_number__isnull', True), ('version__isnull', True)), models.Q(('cell__isnull', True), ('companion__isnull', False), ('issuer__isnull', True), ('stock_number__isnull', True), ('version__isnull', True)), _connector='OR'), name='citation_has_one_claim', violation_error_message='A citation speaks of one thing: a version, cell, number, issuer or pair.'),
        ),
        migrations.AddConstraint(
            model_name='citation',
            constraint=models.UniqueConstraint(condition=models.Q(('companion__isnull', False)), fields=('source', 'companion'), name='source_is_cited_once_for_a_companion', violation_error_message='This source stands here already; one source is cited once for one claim.'),
        ),
        migrations.AddConstraint(
            model_name='companion',
            constraint=models.CheckConstraint(condition=models.Q(('goes_with__in', ['fits', 'worn_with'])), name='companion_goes_with_is_known', violation_error_message='The goes with is none of the words that the society uses.'),
        ),
        migrations.AddConstraint(
            model_name='companion',
            constraint=models.CheckConstraint(condition=models.Q(('version', models.F('other')), _negated=True), name='companion_is_another_version', violation_error_message='A version goes with another one, not with itself.'),
        ),
        migrations.AddConstraint(
            model_name='companion',
            constraint=models.CheckConstraint(condition=models.Q(('joined_by__isnull', True), ('goes_with', 'fits'), _connector='OR'), name='only_what_fits_is_joined', violation_error_message='What joins them is said of versions that fit each other.'),
        ),
        migrations.AddConstraint(
            model_name='companion',
            constraint=models.UniqueConstraint(django.db.models.functions.comparison.Least('version', 'other'), django.db.models.functions.comparison.Greatest('version', 'other'), models.F('goes_with'), name='companions_are_said_once', violation_error_message='That is said already of these two, perhaps the other way round.'),
        ),
    ]
