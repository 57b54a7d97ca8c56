"""Migrations 0001 to 0006 in one, for sites that are new: a site that has begun them goes on with these."""

import catalogue.reference.codes
import catalogue.reference.models.fields
import django.contrib.auth.models
import django.contrib.auth.validators
import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models

from catalogue.member_examples.written_once import guard, unguard


class Migration(migrations.Migration):

    replaces = [('catalogue', '0001_reference'), ('catalogue', '0002_own_drawings'), ('catalogue', '0003_records_say_who_and_why'), ('catalogue', '0004_member_examples'), ('catalogue', '0005_constraints_in_words'), ('catalogue', '0006_own_silhouettes')]

    initial = True

    dependencies = [
        ('auth', '0012_alter_user_first_name_max_length'),
    ]

    operations = [
        migrations.CreateModel(
            name='Colourway',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('name', models.CharField(max_length=100)),
                ('note', models.TextField(blank=True, default='')),
                ('position', models.PositiveIntegerField(default=0)),
            ],
            options={
                'ordering': ['position', 'code'],
            },
        ),
        migrations.CreateModel(
            name='Cut',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('name', models.CharField(max_length=100)),
                ('note', models.TextField(blank=True, default='')),
                ('position', models.PositiveIntegerField(default=0)),
            ],
            options={
                'ordering': ['position', 'code'],
            },
        ),
        migrations.CreateModel(
            name='GarmentType',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('name', models.CharField(max_length=200)),
                ('garment_class', models.CharField(blank=True, default='', help_text='the outline it is drawn with', max_length=40)),
                ('description', models.TextField(blank=True, default='')),
                ('caution', models.TextField(blank=True, default='', help_text='shown before anything else is asked')),
                ('position', models.PositiveIntegerField(default=0)),
            ],
            options={
                'ordering': ['position', 'code'],
            },
        ),
        migrations.CreateModel(
            name='NumberForm',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('name', models.CharField(max_length=200)),
                ('groups', models.TextField(blank=True, default='', help_text='what each group means')),
                ('pattern', models.CharField(max_length=120)),
                ('year_group', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('check_rule', models.CharField(blank=True, default='', max_length=200)),
                ('years', catalogue.reference.models.fields.UncertainDateField(blank=True, default='', help_text='1966, 1966-03, 1966~ about, 1964? uncertain, 1971/1986, .. for an open end', max_length=40, validators=[catalogue.reference.models.fields.validate_uncertain_date])),
                ('example', models.CharField(blank=True, default='', max_length=80)),
                ('note', models.TextField(blank=True, default='')),
            ],
            options={
                'ordering': ['code'],
            },
        ),
        migrations.CreateModel(
            name='Feature',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('name', models.CharField(max_length=200)),
                ('group', models.CharField(blank=True, default='', max_length=80)),
                ('question', models.CharField(max_length=300)),
                ('kind', models.CharField(choices=[('choice', 'Choice'), ('count', 'Count'), ('measurement', 'Measurement')], default='choice', max_length=12)),
                ('unit', models.CharField(blank=True, default='', max_length=20)),
                ('spread', models.FloatField(default=5.0, help_text='standard deviation of a measurement, in its unit')),
                ('seen', models.CharField(choices=[('outside', 'Seen from outside'), ('handled', 'Touch or lift it'), ('daylight', 'Needs good light'), ('opened', 'Open the garment'), ('measured', 'Measure or count closely')], default='outside', max_length=10)),
                ('effort', models.FloatField(default=1.0)),
                ('error', models.FloatField(default=0.05, help_text='chance that a given answer is wrong')),
                ('error_note', models.TextField(blank=True, default='', help_text='why people get it wrong')),
                ('service_change', models.CharField(choices=[('easily', 'Often replaced or lost'), ('wear', 'Changes with wear'), ('repair', 'Changed in repair'), ('deliberate', 'Only changed on purpose'), ('no', 'Does not change')], default='no', max_length=12)),
                ('change_note', models.TextField(blank=True, default='', help_text='what happens to it in service')),
                ('loss', models.FloatField(default=0.0, help_text='chance that a part issued is now gone')),
                ('gain', models.FloatField(default=0.0, help_text='chance that a part was added later')),
                ('basis', models.CharField(blank=True, default='', help_text='standard or paper for the term', max_length=300)),
                ('position', models.PositiveIntegerField(default=0)),
                ('parent', models.ForeignKey(blank=True, help_text='asked only where this is present', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='details', to='catalogue.feature')),
            ],
            options={
                'ordering': ['position', 'code'],
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['choice', 'count', 'measurement'])), name='feature_kind_is_known', violation_error_message='The kind is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('seen__in', ['outside', 'handled', 'daylight', 'opened', 'measured'])), name='feature_seen_is_known', violation_error_message='The seen is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('service_change__in', ['easily', 'wear', 'repair', 'deliberate', 'no'])), name='feature_service_change_is_known', violation_error_message='The service change is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('effort__gt', 0)), name='feature_effort_is_positive', violation_error_message='The effort is a number above 0; 1 is a glance.'), models.CheckConstraint(condition=models.Q(('spread__gt', 0)), name='feature_spread_is_positive', violation_error_message='The spread of a measurement is a number above 0, in its unit.'), models.CheckConstraint(condition=models.Q(('error__gte', 0), ('error__lt', 1)), name='feature_error_is_a_chance', violation_error_message='The chance of a wrong answer is a number from 0 up to, but not, 1.'), models.CheckConstraint(condition=models.Q(('loss__gte', 0), ('loss__lte', 1)), name='feature_loss_is_a_chance', violation_error_message='The chance that a part was lost is a number from 0 to 1.'), models.CheckConstraint(condition=models.Q(('gain__gte', 0), ('gain__lte', 1)), name='feature_gain_is_a_chance', violation_error_message='The chance that a part was added is a number from 0 to 1.'), models.CheckConstraint(condition=models.Q(('parent__isnull', True), models.Q(('parent', models.F('id')), _negated=True), _connector='OR'), name='feature_is_not_its_own_parent', violation_error_message='A feature is no detail of itself.')],
            },
        ),
        migrations.CreateModel(
            name='FeatureState',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, validators=[catalogue.reference.codes.validate_code])),
                ('label', models.CharField(max_length=200)),
                ('low', models.FloatField(blank=True, help_text='included', null=True)),
                ('high', models.FloatField(blank=True, help_text='not included; empty has no limit', null=True)),
                ('position', models.PositiveIntegerField(default=0)),
                ('feature', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='states', to='catalogue.feature')),
            ],
            options={
                'ordering': ['position', 'code'],
                'constraints': [models.UniqueConstraint(fields=('feature', 'code'), name='state_code_stands_once_in_its_feature'), models.CheckConstraint(condition=models.Q(('high__isnull', True), ('low__lt', models.F('high')), _connector='OR'), name='state_band_runs_upward', violation_error_message='The lower end of a band lies below its upper end.')],
            },
        ),
        migrations.AddField(
            model_name='feature',
            name='absent_state',
            field=models.ForeignKey(blank=True, help_text='what a lost part leaves; empty when it cannot be lost', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.featurestate'),
        ),
        migrations.AddField(
            model_name='feature',
            name='shown_when',
            field=models.ManyToManyField(blank=True, help_text='states of the parent under which it applies', related_name='+', to='catalogue.featurestate'),
        ),
        migrations.CreateModel(
            name='FeaturePlace',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('view', models.CharField(max_length=20)),
                ('region', models.CharField(max_length=40)),
                ('position', models.PositiveIntegerField(default=0)),
                ('feature', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='places', to='catalogue.feature')),
                ('garment_type', models.ForeignKey(blank=True, help_text='empty for all types', null=True, on_delete=django.db.models.deletion.CASCADE, related_name='+', to='catalogue.garmenttype')),
            ],
            options={
                'ordering': ['position'],
                'constraints': [models.UniqueConstraint(fields=('feature', 'garment_type', 'view', 'region'), name='place_stands_once_in_its_type'), models.UniqueConstraint(condition=models.Q(('garment_type__isnull', True)), fields=('feature', 'view', 'region'), name='place_stands_once_for_all_types', violation_error_message='This place stands here already for all types.')],
            },
        ),
        migrations.CreateModel(
            name='Issuer',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('name', models.CharField(max_length=200)),
                ('date', catalogue.reference.models.fields.UncertainDateField(blank=True, default='', help_text='1966, 1966-03, 1966~ about, 1964? uncertain, 1971/1986, .. for an open end', max_length=40, validators=[catalogue.reference.models.fields.validate_uncertain_date])),
                ('place', models.CharField(blank=True, default='', max_length=200)),
                ('note', models.TextField(blank=True, default='')),
                ('predecessor', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issuer')),
                ('successor', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issuer')),
            ],
            options={
                'ordering': ['name'],
            },
        ),
        migrations.AddField(
            model_name='garmenttype',
            name='issuer',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='garment_types', to='catalogue.issuer'),
        ),
        migrations.CreateModel(
            name='Maker',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('name', models.CharField(max_length=200)),
                ('place', models.CharField(blank=True, default='', max_length=200)),
                ('first_year', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('last_year', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('kind', models.CharField(blank=True, default='', max_length=80)),
                ('mark', models.CharField(blank=True, default='', help_text='what stands on its labels', max_length=200)),
                ('habits', models.TextField(blank=True, default='', help_text='habits of making, never a version of their own')),
            ],
            options={
                'ordering': ['name'],
                'constraints': [models.CheckConstraint(condition=models.Q(('first_year__isnull', True), ('last_year__isnull', True), ('first_year__lte', models.F('last_year')), _connector='OR'), name='maker_begins_before_it_ends', violation_error_message='The last year lies before the first: a maker begins before it ends.')],
            },
        ),
        migrations.CreateModel(
            name='IssueVersion',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('name', models.CharField(max_length=200)),
                ('kind', models.CharField(choices=[('issue', 'Issue'), ('trial', 'Trial'), ('transitional', 'Transitional'), ('depot_modification', 'Depot modification'), ('conversion', 'Conversion'), ('commercial_copy', 'Commercial copy'), ('reproduction', 'Reproduction'), ('unplaced', 'Unplaced')], max_length=20)),
                ('date', catalogue.reference.models.fields.UncertainDateField(blank=True, default='', help_text='1966, 1966-03, 1966~ about, 1964? uncertain, 1971/1986, .. for an open end', max_length=40, validators=[catalogue.reference.models.fields.validate_uncertain_date])),
                ('from_year', models.SmallIntegerField(blank=True, editable=False, null=True)),
                ('to_year', models.SmallIntegerField(blank=True, editable=False, null=True)),
                ('rarity', models.PositiveSmallIntegerField(default=3, help_text="author's judgement, 1 common to 5 rare")),
                ('abundance', models.FloatField(blank=True, help_text='relative number of pieces; wins over rarity', null=True)),
                ('certainty', models.CharField(choices=[('documented', 'Documented'), ('observed', 'Observed on pieces'), ('inferred', 'Inferred')], default='documented', max_length=12)),
                ('piece_seen', models.BooleanField(default=True, help_text='has a member seen a piece?')),
                ('reason', models.TextField(blank=True, default='', help_text='why it was made or changed')),
                ('note', models.TextField(blank=True, default='')),
                ('hazard_kind', models.CharField(blank=True, choices=[('do_not_open', 'Do not open or handle'), ('treated', 'Treated cloth'), ('old_insecticide', 'Old insecticide possible'), ('sticky', 'Sticky coating'), ('unknown_finish', 'Unknown finish')], default='', max_length=20)),
                ('hazard', models.CharField(blank=True, default='', max_length=200)),
                ('position', models.PositiveIntegerField(default=0)),
                ('colourway', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='versions', to='catalogue.colourway')),
                ('cut', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='versions', to='catalogue.cut')),
                ('garment_type', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='versions', to='catalogue.garmenttype')),
                ('issuer', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='versions', to='catalogue.issuer')),
                ('passes_for', models.ManyToManyField(blank=True, help_text='other types it may be taken for', related_name='lookalikes', to='catalogue.garmenttype')),
                ('makers', models.ManyToManyField(blank=True, related_name='versions', to='catalogue.maker')),
            ],
            options={
                'ordering': ['garment_type', 'position', 'code'],
                'indexes': [models.Index(fields=['kind'], name='catalogue_i_kind_e78334_idx'), models.Index(fields=['from_year', 'to_year'], name='catalogue_i_from_ye_b3822a_idx')],
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['issue', 'trial', 'transitional', 'depot_modification', 'conversion', 'commercial_copy', 'reproduction', 'unplaced'])), name='issueversion_kind_is_known', violation_error_message='The kind is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('certainty__in', ['documented', 'observed', 'inferred'])), name='issueversion_certainty_is_known', violation_error_message='The certainty is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('hazard_kind__in', ['do_not_open', 'treated', 'old_insecticide', 'sticky', 'unknown_finish', ''])), name='issueversion_hazard_kind_is_known', violation_error_message='The hazard kind is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('rarity__gte', 1), ('rarity__lte', 5)), name='version_rarity_is_1_to_5', violation_error_message='The rarity is a whole number from 1, common, to 5, rare.'), models.CheckConstraint(condition=models.Q(('abundance__isnull', True), ('abundance__gte', 0), _connector='OR'), name='version_abundance_is_not_negative', violation_error_message='The abundance is a number from 0, or empty.'), models.CheckConstraint(condition=models.Q(('from_year__isnull', True), ('to_year__isnull', True), ('from_year__lte', models.F('to_year')), _connector='OR'), name='version_begins_before_it_ends', violation_error_message='The date ends before it begins.')],
            },
        ),
        migrations.CreateModel(
            name='OpenQuestion',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('question', models.CharField(max_length=300)),
                ('settled', models.BooleanField(default=False)),
                ('moderator_note', models.TextField(blank=True, default='')),
                ('versions', models.ManyToManyField(blank=True, related_name='open_questions', to='catalogue.issueversion')),
            ],
            options={
                'ordering': ['code'],
            },
        ),
        migrations.CreateModel(
            name='ProfileCell',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('how_often', models.CharField(choices=[('always', 'always'), ('usually', 'usually'), ('sometimes', 'sometimes'), ('seldom', 'seldom')], default='always', max_length=10)),
                ('share', models.FloatField(blank=True, help_text='counted share of pieces, 0 to 1; wins over the word', null=True)),
                ('certainty', models.CharField(blank=True, choices=[('documented', 'Documented'), ('observed', 'Observed on pieces'), ('inferred', 'Inferred')], default='', help_text='empty: carried over or asserted', max_length=12)),
                ('sizes', models.CharField(blank=True, default='', help_text='only on these sizes, spaces between', max_length=200)),
                ('first_year', models.SmallIntegerField(blank=True, help_text='only from this year', null=True)),
                ('last_year', models.SmallIntegerField(blank=True, help_text='only until this year', null=True)),
                ('note', models.TextField(blank=True, default='')),
                ('makers', models.ManyToManyField(blank=True, help_text='only from these makers', related_name='+', to='catalogue.maker')),
                ('state', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='cells', to='catalogue.featurestate')),
            ],
            options={
                'ordering': ['record', 'state'],
                'constraints': [models.CheckConstraint(condition=models.Q(('how_often__in', ['always', 'usually', 'sometimes', 'seldom'])), name='profilecell_how_often_is_known', violation_error_message='The how often is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('share__isnull', True), models.Q(('share__gt', 0), ('share__lte', 1)), _connector='OR'), name='cell_share_is_a_share', violation_error_message='A counted share is a number above 0 and up to 1; 0.3 is three in ten.'), models.CheckConstraint(condition=models.Q(('certainty__in', ['documented', 'observed', 'inferred', ''])), name='profilecell_certainty_is_known', violation_error_message='The certainty is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('first_year__isnull', True), ('last_year__isnull', True), ('first_year__lte', models.F('last_year')), _connector='OR'), name='cell_years_run_upward', violation_error_message='The last year lies before the first.')],
            },
        ),
        migrations.CreateModel(
            name='ReferenceState',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('number', models.PositiveBigIntegerField(default=0)),
                ('changed_at', models.DateTimeField(auto_now=True)),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('id', 1)), name='reference_state_is_one_row')],
            },
        ),
        migrations.CreateModel(
            name='Source',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('kind', models.CharField(max_length=80)),
                ('title', models.CharField(max_length=300)),
                ('date', catalogue.reference.models.fields.UncertainDateField(blank=True, default='', help_text='1966, 1966-03, 1966~ about, 1964? uncertain, 1971/1986, .. for an open end', max_length=40, validators=[catalogue.reference.models.fields.validate_uncertain_date])),
                ('holder', models.CharField(blank=True, default='', max_length=200)),
                ('grade', models.CharField(choices=[('A', 'A: official dated paper that names the feature'), ('B', 'B: dated label or piece, seen and photographed'), ('C', 'C: contemporary print or photograph'), ('D', 'D: recollection'), ('E', "E: seller's description")], max_length=1)),
                ('personal_data', models.BooleanField(default=False, help_text='names or faces of private persons: mask before showing')),
                ('note', models.TextField(blank=True, default='')),
            ],
            options={
                'ordering': ['code'],
                'constraints': [models.CheckConstraint(condition=models.Q(('grade__in', ['A', 'B', 'C', 'D', 'E'])), name='source_grade_is_known', violation_error_message='The grade is none of the words that the society uses.')],
            },
        ),
        migrations.CreateModel(
            name='QuestionView',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('letter', models.CharField(max_length=1)),
                ('holder', models.CharField(max_length=80)),
                ('text', models.TextField()),
                ('stands', models.BooleanField(default=False, help_text='the question is settled for this view')),
                ('question', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='views', to='catalogue.openquestion')),
                ('sources', models.ManyToManyField(blank=True, related_name='views', to='catalogue.source')),
            ],
            options={
                'ordering': ['letter'],
                'constraints': [models.UniqueConstraint(fields=('question', 'letter'), name='view_letter_stands_once'), models.UniqueConstraint(condition=models.Q(('stands', True)), fields=('question',), name='one_view_of_a_question_stands', violation_error_message='Another view of this question stands already; a question is settled for one.')],
            },
        ),
        migrations.CreateModel(
            name='StockNumber',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('number', models.CharField(max_length=80)),
                ('bare', models.CharField(db_index=True, editable=False, max_length=80)),
                ('first_year', models.SmallIntegerField(blank=True, null=True)),
                ('last_year', models.SmallIntegerField(blank=True, null=True)),
                ('misprint_of', models.CharField(blank=True, default='', help_text='the right number, if this is a misprint', max_length=80)),
                ('note', models.TextField(blank=True, default='')),
                ('form', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='numbers', to='catalogue.numberform')),
                ('version', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='stock_numbers', to='catalogue.issueversion')),
            ],
            options={
                'ordering': ['version', 'first_year', 'number'],
                'constraints': [models.UniqueConstraint(fields=('number', 'version'), name='number_stands_once_in_its_version'), models.CheckConstraint(condition=models.Q(('first_year__isnull', True), ('last_year__isnull', True), ('first_year__lte', models.F('last_year')), _connector='OR'), name='number_years_run_upward', violation_error_message='The last year on labels lies before the first.')],
            },
        ),
        migrations.CreateModel(
            name='Citation',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('stance', models.CharField(choices=[('supports', 'supports'), ('contradicts', 'contradicts')], default='supports', max_length=12)),
                ('position', models.PositiveIntegerField(default=0)),
                ('issuer', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.issuer')),
                ('version', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.issueversion')),
                ('cell', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.profilecell')),
                ('source', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='citations', to='catalogue.source')),
                ('stock_number', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.stocknumber')),
            ],
            options={
                'ordering': ['position'],
                'constraints': [models.CheckConstraint(condition=models.Q(('stance__in', ['supports', 'contradicts'])), name='citation_stance_is_known', violation_error_message='The stance is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(models.Q(('cell__isnull', True), ('issuer__isnull', True), ('stock_number__isnull', True), ('version__isnull', False)), models.Q(('cell__isnull', False), ('issuer__isnull', True), ('stock_number__isnull', True), ('version__isnull', True)), models.Q(('cell__isnull', True), ('issuer__isnull', True), ('stock_number__isnull', False), ('version__isnull', True)), models.Q(('cell__isnull', True), ('issuer__isnull', False), ('stock_number__isnull', True), ('version__isnull', True)), _connector='OR'), name='citation_has_one_claim', violation_error_message='A citation speaks of one thing: a version, a cell, a number or an issuer.'), models.UniqueConstraint(condition=models.Q(('version__isnull', False)), fields=('source', 'version'), name='source_is_cited_once_for_a_version', violation_error_message='This source stands here already; one source is cited once for one claim.'), models.UniqueConstraint(condition=models.Q(('cell__isnull', False)), fields=('source', 'cell'), name='source_is_cited_once_for_a_cell', violation_error_message='This source stands here already; one source is cited once for one claim.'), models.UniqueConstraint(condition=models.Q(('stock_number__isnull', False)), fields=('source', 'stock_number'), name='source_is_cited_once_for_a_stock_number', violation_error_message='This source stands here already; one source is cited once for one claim.'), models.UniqueConstraint(condition=models.Q(('issuer__isnull', False)), fields=('source', 'issuer'), name='source_is_cited_once_for_a_issuer', violation_error_message='This source stands here already; one source is cited once for one claim.')],
            },
        ),
        migrations.CreateModel(
            name='TypeFeature',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveIntegerField(default=0)),
                ('feature', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='type_features', to='catalogue.feature')),
                ('garment_type', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='type_features', to='catalogue.garmenttype')),
            ],
            options={
                'ordering': ['position'],
                'constraints': [models.UniqueConstraint(fields=('garment_type', 'feature'), name='feature_stands_once_in_its_type')],
            },
        ),
        migrations.AddField(
            model_name='garmenttype',
            name='features',
            field=models.ManyToManyField(related_name='garment_types', through='catalogue.TypeFeature', to='catalogue.feature'),
        ),
        migrations.CreateModel(
            name='TypeName',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=200)),
                ('position', models.PositiveIntegerField(default=0)),
                ('garment_type', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='other_names', to='catalogue.garmenttype')),
            ],
            options={
                'ordering': ['position'],
                'constraints': [models.UniqueConstraint(fields=('garment_type', 'name'), name='type_name_stands_once')],
            },
        ),
        migrations.CreateModel(
            name='VersionAncestor',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('role', models.CharField(choices=[('continues', 'continues or imitates'), ('made_from', 'made from')], max_length=10)),
                ('position', models.PositiveIntegerField(default=0, help_text='the profile follows the first')),
                ('ancestor', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='descendants', to='catalogue.issueversion')),
                ('version', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='ancestors', to='catalogue.issueversion')),
            ],
            options={
                'ordering': ['position'],
                'constraints': [models.CheckConstraint(condition=models.Q(('role__in', ['continues', 'made_from'])), name='versionancestor_role_is_known', violation_error_message='The role is none of the words that the society uses.'), models.UniqueConstraint(fields=('version', 'ancestor', 'role'), name='ancestor_stands_once'), models.CheckConstraint(condition=models.Q(('version', models.F('ancestor')), _negated=True), name='version_is_not_its_own_ancestor', violation_error_message='A version does not descend from itself.')],
            },
        ),
        migrations.CreateModel(
            name='VersionName',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=200)),
                ('used_by', models.CharField(choices=[('members', 'used by members'), ('sellers', 'used by sellers')], default='members', max_length=8)),
                ('never_issued', models.BooleanField(default=False, help_text='no such garment was issued under this name')),
                ('position', models.PositiveIntegerField(default=0)),
                ('version', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='other_names', to='catalogue.issueversion')),
            ],
            options={
                'ordering': ['position'],
                'constraints': [models.CheckConstraint(condition=models.Q(('used_by__in', ['members', 'sellers'])), name='versionname_used_by_is_known', violation_error_message='The used by is none of the words that the society uses.'), models.UniqueConstraint(fields=('version', 'name'), name='version_name_stands_once')],
            },
        ),
        migrations.CreateModel(
            name='VersionRecord',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('number', models.PositiveIntegerField()),
                ('standing', models.CharField(choices=[('imported', 'Imported, not reviewed'), ('approved', 'Approved')], default='imported', max_length=10)),
                ('made_at', models.DateTimeField(auto_now_add=True)),
                ('version', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='records', to='catalogue.issueversion')),
            ],
            options={
                'ordering': ['version', '-number'],
                'constraints': [models.UniqueConstraint(fields=('version', 'number'), name='record_number_stands_once')],
            },
        ),
        migrations.AddField(
            model_name='profilecell',
            name='record',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='cells', to='catalogue.versionrecord'),
        ),
        migrations.AddField(
            model_name='issueversion',
            name='current_record',
            field=models.OneToOneField(blank=True, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.versionrecord'),
        ),
        migrations.CreateModel(
            name='Member',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('password', models.CharField(max_length=128, verbose_name='password')),
                ('last_login', models.DateTimeField(blank=True, null=True, verbose_name='last login')),
                ('is_superuser', models.BooleanField(default=False, help_text='Designates that this user has all permissions without explicitly assigning them.', verbose_name='superuser status')),
                ('username', models.CharField(error_messages={'unique': 'A user with that username already exists.'}, help_text='Required. 150 characters or fewer. Letters, digits and @/./+/-/_ only.', max_length=150, unique=True, validators=[django.contrib.auth.validators.UnicodeUsernameValidator()], verbose_name='username')),
                ('email', models.EmailField(blank=True, max_length=254, verbose_name='email address')),
                ('is_staff', models.BooleanField(default=False, help_text='Designates whether the user can log into this admin site.', verbose_name='staff status')),
                ('is_active', models.BooleanField(default=True, help_text='Designates whether this user should be treated as active. Unselect this instead of deleting accounts.', verbose_name='active')),
                ('date_joined', models.DateTimeField(default=django.utils.timezone.now, verbose_name='date joined')),
                ('role', models.CharField(choices=[('member', 'Member'), ('author', 'Author'), ('moderator', 'Moderator'), ('secretary', 'Secretary')], default='member', max_length=12)),
                ('groups', models.ManyToManyField(blank=True, help_text='The groups this user belongs to. A user will get all permissions granted to each of their groups.', related_name='user_set', related_query_name='user', to='auth.group', verbose_name='groups')),
                ('user_permissions', models.ManyToManyField(blank=True, help_text='Specific permissions for this user.', related_name='user_set', related_query_name='user', to='auth.permission', verbose_name='user permissions')),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('role__in', ['member', 'author', 'moderator', 'secretary'])), name='member_role_is_known')],
            },
            managers=[
                ('objects', django.contrib.auth.models.UserManager()),
            ],
        ),
        migrations.AddConstraint(
            model_name='profilecell',
            constraint=models.UniqueConstraint(fields=('record', 'state'), name='state_stands_once_in_its_record'),
        ),
        migrations.AddField(
            model_name='featurestate',
            name='drawing',
            field=models.TextField(blank=True, default='', help_text="the society's own drawing as SVG text, where the site has none that fits", validators=[catalogue.reference.models.fields.validate_drawing]),
        ),
        migrations.CreateModel(
            name='Correction',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('table', models.CharField(max_length=40)),
                ('row', models.PositiveBigIntegerField()),
                ('title', models.CharField(max_length=300)),
                ('deed', models.CharField(choices=[('added', 'Added'), ('changed', 'Changed'), ('deleted', 'Deleted')], max_length=8)),
                ('made_at', models.DateTimeField(auto_now_add=True)),
                ('why', models.TextField(blank=True, default='')),
                ('lines', models.JSONField(default=list)),
            ],
            options={
                'ordering': ['-pk'],
                'indexes': [models.Index(fields=['table', 'row'], name='catalogue_c_table_53e4cd_idx')],
                'constraints': [models.CheckConstraint(condition=models.Q(('deed__in', ['added', 'changed', 'deleted'])), name='correction_deed_is_known')],
            },
        ),
        migrations.AddField(
            model_name='versionrecord',
            name='why',
            field=models.TextField(blank=True, default='', help_text='why the record was changed'),
        ),
        migrations.AddField(
            model_name='versionrecord',
            name='written_by',
            field=models.ForeignKey(blank=True, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='records', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AlterField(
            model_name='versionrecord',
            name='standing',
            field=models.CharField(choices=[('imported', 'Imported, not reviewed'), ('written', 'Written by hand, not reviewed'), ('approved', 'Approved')], default='imported', max_length=10),
        ),
        migrations.AddConstraint(
            model_name='versionrecord',
            constraint=models.CheckConstraint(condition=models.Q(('standing__in', ['imported', 'written', 'approved'])), name='record_standing_is_known'),
        ),
        migrations.AddConstraint(
            model_name='versionrecord',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('standing', 'written'), _negated=True), models.Q(('written_by__isnull', False), models.Q(('why', ''), _negated=True)), _connector='OR'), name='written_record_says_who_and_why', violation_error_message='A record written by hand says who wrote it and why.'),
        ),
        migrations.AddField(
            model_name='correction',
            name='member',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='corrections', to=settings.AUTH_USER_MODEL),
        ),
        migrations.CreateModel(
            name='Example',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('state', models.CharField(choices=[('draft', 'Draft'), ('submitted', 'Waiting for a moderator'), ('returned', 'Returned with a question'), ('accepted', 'Accepted'), ('declined', 'Declined'), ('withdrawn', 'Withdrawn')], default='draft', max_length=10)),
                ('sold_as', models.CharField(blank=True, default='', help_text="in the seller's own words", max_length=200)),
                ('label_year', models.SmallIntegerField(blank=True, help_text='the year printed on a label', null=True)),
                ('contract', models.CharField(blank=True, default='', help_text='the contract number on a label', max_length=80)),
                ('size_mark', models.CharField(blank=True, default='', max_length=40)),
                ('condition', models.CharField(blank=True, choices=[('unissued', 'Unissued'), ('very_good', 'Very good'), ('good', 'Good'), ('worn', 'Worn'), ('poor', 'Poor')], default='', max_length=10)),
                ('complete', models.BooleanField(blank=True, help_text='empty: not recorded', null=True)),
                ('label_legible', models.BooleanField(blank=True, help_text='empty: not recorded', null=True)),
                ('mould', models.BooleanField(blank=True, help_text='smell or mould; empty: not recorded', null=True)),
                ('name_on_label', models.CharField(choices=[('not_looked', 'Not looked for'), ('none', 'No name'), ('masked', 'A name, masked'), ('to_mask', 'A name, not yet masked')], default='not_looked', max_length=10)),
                ('provenance', models.TextField(blank=True, default='', help_text='what is said of its history, and by whom')),
                ('repairs', models.TextField(blank=True, default='')),
                ('note', models.TextField(blank=True, default='')),
                ('seen_on', catalogue.reference.models.fields.UncertainDateField(blank=True, default='', help_text='1966, 1966-03, 1966~ about, 1964? uncertain, 1971/1986, .. for an open end', max_length=40, validators=[catalogue.reference.models.fields.validate_uncertain_date])),
                ('venue', models.CharField(blank=True, default='', help_text='the kind of place, never an address', max_length=120)),
                ('sent_once', models.UUIDField(blank=True, editable=False, help_text='given with the form: a second tap is the same', null=True, unique=True)),
                ('times_sent', models.PositiveSmallIntegerField(default=0, editable=False)),
                ('revision', models.PositiveIntegerField(default=0, editable=False, help_text='grows with every save; a save names the one it began with')),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('changed_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('submitted_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('garment_type', models.ForeignKey(blank=True, help_text='empty while the owner is not sure', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='examples', to='catalogue.garmenttype')),
                ('held_as', models.ForeignKey(blank=True, help_text='the version under which the society now keeps an accepted piece; empty: none of the reference', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='held_examples', to='catalogue.issueversion')),
                ('maker', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='examples', to='catalogue.maker')),
                ('owner', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='examples', to=settings.AUTH_USER_MODEL)),
                ('sold_as_version', models.ForeignKey(blank=True, help_text='the version that the seller named', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion')),
            ],
            options={
                'ordering': ['code'],
                'indexes': [models.Index(fields=['state', 'submitted_at'], name='catalogue_e_state_065029_idx'), models.Index(fields=['held_as', 'state'], name='catalogue_e_held_as_dcecf1_idx'), models.Index(fields=['garment_type', 'state'], name='catalogue_e_garment_ef764e_idx')],
                'constraints': [models.CheckConstraint(condition=models.Q(('state__in', ['draft', 'submitted', 'returned', 'accepted', 'declined', 'withdrawn'])), name='example_state_is_known', violation_error_message='The state is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('condition__in', ['unissued', 'very_good', 'good', 'worn', 'poor', ''])), name='example_condition_is_known', violation_error_message='The condition is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('name_on_label__in', ['not_looked', 'none', 'masked', 'to_mask'])), name='example_name_on_label_is_known', violation_error_message='The name on label is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('held_as__isnull', True), ('state', 'accepted'), _connector='OR'), name='only_an_accepted_example_is_held_as_a_version'), models.CheckConstraint(condition=models.Q(('garment_type__isnull', False), models.Q(('state', 'accepted'), _negated=True), _connector='OR'), name='accepted_example_has_a_garment_type'), models.CheckConstraint(condition=models.Q(('state', 'draft'), models.Q(('submitted_at__isnull', False), ('times_sent__gte', 1)), _connector='OR'), name='example_that_left_its_owner_was_sent'), models.CheckConstraint(condition=models.Q(('label_year__isnull', True), models.Q(('label_year__gte', 1700), ('label_year__lte', 2200)), _connector='OR'), name='example_label_year_is_a_year')],
            },
        ),
        migrations.CreateModel(
            name='Attribution',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('by', models.CharField(choices=[('member', 'A member'), ('society', 'The society, by decision'), ('engine', "The site's own identification")], default='member', max_length=8)),
                ('held', models.CharField(choices=[('version', 'A version'), ('not_in_reference', 'Not in the reference'), ('cannot_say', 'Cannot say')], default='version', max_length=16)),
                ('grounds', models.TextField()),
                ('chance', models.FloatField(blank=True, help_text="how sure the site's own identification was, 0 to 1", null=True)),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('member', models.ForeignKey(blank=True, help_text="empty for the site's own identification", null=True, on_delete=django.db.models.deletion.PROTECT, related_name='attributions', to=settings.AUTH_USER_MODEL)),
                ('version', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='attributions', to='catalogue.issueversion')),
                ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='attributions', to='catalogue.example')),
            ],
            options={
                'ordering': ['made_at', 'pk'],
                'indexes': [models.Index(fields=['example', 'made_at'], name='catalogue_a_example_9b3c6e_idx')],
                'constraints': [models.CheckConstraint(condition=models.Q(('by__in', ['member', 'society', 'engine'])), name='attribution_by_is_known', violation_error_message='The by is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('held__in', ['version', 'not_in_reference', 'cannot_say'])), name='attribution_held_is_known', violation_error_message='The held is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(models.Q(('held', 'version'), ('version__isnull', False)), models.Q(models.Q(('held', 'version'), _negated=True), ('version__isnull', True)), _connector='OR'), name='attribution_names_a_version_or_says_why_not'), models.CheckConstraint(condition=models.Q(models.Q(('by', 'engine'), ('member__isnull', True)), models.Q(models.Q(('by', 'engine'), _negated=True), ('chance__isnull', True), ('member__isnull', False)), _connector='OR'), name='attribution_is_by_somebody'), models.CheckConstraint(condition=models.Q(('chance__isnull', True), models.Q(('chance__gte', 0), ('chance__lte', 1)), _connector='OR'), name='attribution_chance_is_a_chance'), models.CheckConstraint(condition=models.Q(('grounds', ''), _negated=True), name='attribution_has_grounds')],
            },
        ),
        migrations.CreateModel(
            name='Alteration',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('cut_off', 'Cut off'), ('removed', 'Taken off'), ('opened', 'Opened'), ('closed', 'Closed'), ('shortened', 'Shortened'), ('taken_in', 'Taken in'), ('let_out', 'Let out'), ('replaced', 'Replaced'), ('added', 'Added'), ('re_labelled', 'Re-labelled'), ('dyed', 'Dyed or bleached')], max_length=12)),
                ('part', models.CharField(help_text='in words, such as: sleeves', max_length=80)),
                ('view', models.CharField(blank=True, default='', max_length=20)),
                ('region', models.CharField(blank=True, default='', help_text='empty: not one place', max_length=40)),
                ('traces', models.TextField(blank=True, default='', help_text='what still shows it, such as needle holes')),
                ('by', models.CharField(choices=[('not_known', 'Not known'), ('service', 'The service or its depot'), ('wearer', 'A wearer'), ('later', 'A later owner or seller')], default='not_known', max_length=10)),
                ('position', models.PositiveIntegerField(default=0)),
                ('features', models.ManyToManyField(blank=True, help_text='features that say nothing of the version any more', related_name='+', to='catalogue.feature')),
                ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='alterations', to='catalogue.example')),
            ],
            options={
                'ordering': ['position', 'pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['cut_off', 'removed', 'opened', 'closed', 'shortened', 'taken_in', 'let_out', 'replaced', 'added', 're_labelled', 'dyed'])), name='alteration_kind_is_known', violation_error_message='The kind is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('by__in', ['not_known', 'service', 'wearer', 'later'])), name='alteration_by_is_known', violation_error_message='The by is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('part', ''), _negated=True), name='alteration_names_its_part'), models.CheckConstraint(condition=models.Q(('region', ''), models.Q(('view', ''), _negated=True), _connector='OR'), name='altered_region_has_its_view')],
            },
        ),
        migrations.CreateModel(
            name='ExampleDecision',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('decision', models.CharField(choices=[('accepted', 'Accepted'), ('returned', 'Returned with a question'), ('declined', 'Declined'), ('attributed_anew', 'Attributed anew'), ('reopened', 'Opened again')], max_length=16)),
                ('reason', models.TextField()),
                ('sending', models.PositiveSmallIntegerField(editable=False, help_text='which sending of the example it answers')),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('example', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='decisions', to='catalogue.example')),
                ('held_as', models.ForeignKey(blank=True, help_text='the version under which the society keeps the piece from now on', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion')),
                ('moderator', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='example_decisions', to=settings.AUTH_USER_MODEL)),
                ('owner', models.ForeignKey(editable=False, help_text="whose piece it was, so that the table itself refuses decisions on one's own", on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['made_at', 'pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('decision__in', ['accepted', 'returned', 'declined', 'attributed_anew', 'reopened'])), name='exampledecision_decision_is_known', violation_error_message='The decision is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('moderator', models.F('owner')), _negated=True), name='nobody_decides_on_their_own_example'), models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='example_decision_has_a_reason'), models.CheckConstraint(condition=models.Q(('held_as__isnull', True), ('decision__in', ['accepted', 'attributed_anew']), _connector='OR'), name='only_a_keeping_decision_names_a_version'), models.UniqueConstraint(condition=models.Q(('decision__in', ['accepted', 'returned', 'declined'])), fields=('example', 'sending'), name='one_answer_to_each_sending_of_an_example')],
            },
        ),
        migrations.CreateModel(
            name='ExampleInSet',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveIntegerField(default=0)),
                ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='places_in_sets', to='catalogue.example')),
            ],
            options={
                'ordering': ['position', 'pk'],
            },
        ),
        migrations.CreateModel(
            name='ExampleSet',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                ('name', models.CharField(max_length=200)),
                ('together', models.CharField(choices=[('yes', 'Yes'), ('no', 'No'), ('unknown', 'Not known')], default='unknown', max_length=8)),
                ('fasten', models.CharField(choices=[('yes', 'Yes'), ('no', 'No'), ('unknown', 'Not known')], default='unknown', help_text='whether the pieces fasten to each other, were they made to', max_length=8)),
                ('grounds', models.TextField(blank=True, default='', help_text='why that is thought')),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('examples', models.ManyToManyField(related_name='sets', through='catalogue.ExampleInSet', to='catalogue.example')),
                ('made_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='example_sets', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['code'],
                'constraints': [models.CheckConstraint(condition=models.Q(('together__in', ['yes', 'no', 'unknown'])), name='exampleset_together_is_known', violation_error_message='The together is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('fasten__in', ['yes', 'no', 'unknown'])), name='exampleset_fasten_is_known', violation_error_message='The fasten is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('together', 'unknown'), models.Q(('grounds', ''), _negated=True), _connector='OR'), name='set_says_on_what_grounds')],
            },
        ),
        migrations.AddField(
            model_name='exampleinset',
            name='example_set',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='places', to='catalogue.exampleset'),
        ),
        migrations.CreateModel(
            name='Label',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('main', 'Main label'), ('size', 'Size label'), ('contract', 'Contract label'), ('treatment', 'Treatment label'), ('care', 'Care label'), ('stamp', 'Stamp'), ('property_mark', 'Property mark'), ('other', 'Another label')], default='main', max_length=16)),
                ('place', models.CharField(blank=True, default='', help_text='where on the piece', max_length=80)),
                ('text', models.TextField(blank=True, default='', help_text='letter by letter, line by line')),
                ('bare', models.CharField(blank=True, db_index=True, default='', editable=False, max_length=400)),
                ('remark', models.CharField(blank=True, default='', help_text='what is not on it, such as: cut out', max_length=200)),
                ('attachment', models.CharField(choices=[('not_known', 'Not recorded'), ('sewn', 'Sewn on'), ('ink', 'Stamped or printed on the cloth'), ('written', 'Written by hand'), ('glued', 'Glued or heat-sealed'), ('loose', 'Loose, kept with the piece')], default='not_known', max_length=10)),
                ('origin', models.CharField(choices=[('not_known', 'Not recorded'), ('original', 'There from the beginning'), ('added', 'Added or moved later'), ('trace', 'Only a trace: needle holes or a paler patch')], default='not_known', max_length=10)),
                ('position', models.PositiveIntegerField(default=0)),
                ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='labels', to='catalogue.example')),
            ],
            options={
                'ordering': ['position', 'pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['main', 'size', 'contract', 'treatment', 'care', 'stamp', 'property_mark', 'other'])), name='label_kind_is_known', violation_error_message='The kind is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('attachment__in', ['not_known', 'sewn', 'ink', 'written', 'glued', 'loose'])), name='label_attachment_is_known', violation_error_message='The attachment is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('origin__in', ['not_known', 'original', 'added', 'trace'])), name='label_origin_is_known', violation_error_message='The origin is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(models.Q(('text', ''), _negated=True), models.Q(('remark', ''), _negated=True), ('origin', 'trace'), _connector='OR'), name='label_says_something')],
            },
        ),
        migrations.CreateModel(
            name='Measurement',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('what', models.CharField(choices=[('pit_to_pit', 'Pit to pit'), ('back_length', 'Back length'), ('sleeve', 'Sleeve'), ('shoulder', 'Shoulder'), ('waist', 'Waist'), ('inside_leg', 'Inside leg'), ('rise', 'Rise'), ('hem', 'Hem or leg width'), ('head', 'Inside circumference'), ('brim', 'Brim at the side')], max_length=12)),
                ('mm', models.PositiveSmallIntegerField(verbose_name='millimetres')),
                ('typed', models.CharField(blank=True, default='', help_text='as it was typed, such as: 22 in', max_length=40)),
                ('method', models.CharField(blank=True, default='', help_text='where it differs from the usual way', max_length=120)),
                ('by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='measurements', to='catalogue.example')),
            ],
            options={
                'ordering': ['pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('what__in', ['pit_to_pit', 'back_length', 'sleeve', 'shoulder', 'waist', 'inside_leg', 'rise', 'hem', 'head', 'brim'])), name='measurement_what_is_known', violation_error_message='The what is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('mm__gte', 1), ('mm__lte', 3000)), name='measurement_is_a_length'), models.UniqueConstraint(fields=('example', 'what', 'by'), name='person_measures_a_length_once'), models.UniqueConstraint(condition=models.Q(('by__isnull', True)), fields=('example', 'what'), name='length_by_nobody_stands_once')],
            },
        ),
        migrations.CreateModel(
            name='Observation',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('answer', models.CharField(choices=[('seen', 'Seen'), ('cannot_tell', 'Looked, could not tell'), ('part_missing', 'The part was there and is gone'), ('altered', 'Altered, says nothing of the version'), ('no_such_part', 'This piece has no such part')], default='seen', max_length=12)),
                ('value', models.FloatField(blank=True, help_text="the number behind it, in the feature's unit", null=True)),
                ('note', models.CharField(blank=True, default='', max_length=300)),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='observations', to='catalogue.example')),
                ('feature', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='observations', to='catalogue.feature')),
                ('observer', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='observations', to=settings.AUTH_USER_MODEL)),
                ('state', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='observations', to='catalogue.featurestate')),
            ],
            options={
                'ordering': ['pk'],
                'indexes': [models.Index(fields=['example', 'feature', 'observer'], name='catalogue_o_example_736767_idx'), models.Index(fields=['state', 'example'], name='catalogue_o_state_i_46ae0e_idx')],
                'constraints': [models.CheckConstraint(condition=models.Q(('answer__in', ['seen', 'cannot_tell', 'part_missing', 'altered', 'no_such_part'])), name='observation_answer_is_known', violation_error_message='The answer is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(models.Q(('answer', 'seen'), models.Q(('state__isnull', False), ('value__isnull', False), _connector='OR')), models.Q(models.Q(('answer', 'seen'), _negated=True), ('state__isnull', True), ('value__isnull', True)), _connector='OR'), name='observation_names_what_was_seen'), models.CheckConstraint(condition=models.Q(('value__isnull', True), ('value__gte', 0), _connector='OR'), name='observed_value_is_not_negative')],
            },
        ),
        migrations.CreateModel(
            name='Photograph',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('view', models.CharField(choices=[('front', 'Front, fastened, flat'), ('back', 'Back'), ('side', 'Side'), ('top', 'Top'), ('palm', 'Palm side'), ('inside', 'Opened flat, inside'), ('neck_inside', 'Neck inside with the label in place'), ('waistband_inside', 'Waistband inside with the label in place'), ('crown_inside', 'Inside of the crown'), ('sweatband', 'Sweatband'), ('main_label', 'Main label, whole and sharp'), ('label_back', 'Back of the label and its stitching'), ('size_label', 'Size label'), ('treatment_label', 'Treatment or care label'), ('property_mark', 'Property mark, light from the side'), ('closure', 'Closure closed and open'), ('fly', 'Fly'), ('button', 'One button, front and back'), ('cuff', 'Cuff'), ('glove_cuff', 'Cuff of a glove'), ('leg_end', 'Leg end'), ('pocket', 'Pocket and flap, flap lifted'), ('flap', 'Flap'), ('strap', 'Strap and its anchors'), ('seam', 'Seam from inside with a ruler over 3 cm'), ('weave', 'Cloth with a ruler'), ('print_repeat', 'Print with a tape over one repeat'), ('daylight', 'Under a flap in daylight with a colour card'), ('defect', 'Repair, alteration or defect'), ('set', 'All pieces of a set together'), ('other', 'Another view')], default='other', max_length=20)),
                ('position', models.PositiveIntegerField(default=0)),
                ('caption', models.CharField(blank=True, default='', max_length=300)),
                ('credit', models.CharField(blank=True, default='', max_length=120)),
                ('licence', models.CharField(blank=True, default='', max_length=60)),
                ('files', models.JSONField(blank=True, default=list, help_text='one for each size: {"name": "ab/cd-800.webp", "longer": 800, "width": 800, "height": 600}')),
                ('width', models.PositiveIntegerField(help_text='of the largest size kept')),
                ('height', models.PositiveIntegerField()),
                ('sha256', models.CharField(help_text='of the picture as it was sent in', max_length=64)),
                ('perceptual_hash', models.BigIntegerField(blank=True, db_index=True, help_text='64 bits, read as a signed number', null=True)),
                ('drawn', models.BooleanField(default=False, help_text='a drawing in place of a photograph')),
                ('hidden', models.BooleanField(default=False, help_text='kept from everybody but the owner and the moderators')),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='photographs', to='catalogue.example')),
            ],
            options={
                'ordering': ['position', 'pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('view__in', ['front', 'back', 'side', 'top', 'palm', 'inside', 'neck_inside', 'waistband_inside', 'crown_inside', 'sweatband', 'main_label', 'label_back', 'size_label', 'treatment_label', 'property_mark', 'closure', 'fly', 'button', 'cuff', 'glove_cuff', 'leg_end', 'pocket', 'flap', 'strap', 'seam', 'weave', 'print_repeat', 'daylight', 'defect', 'set', 'other'])), name='photograph_view_is_known', violation_error_message='The view is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('height__gte', 1), ('width__gte', 1)), name='photograph_has_a_size'), models.CheckConstraint(condition=models.Q(('sha256__regex', '^[0-9a-f]{64}$')), name='photograph_sha256_is_a_digest'), models.UniqueConstraint(fields=('example', 'sha256'), name='picture_stands_once_in_its_example')],
            },
        ),
        migrations.AddConstraint(
            model_name='exampleinset',
            constraint=models.UniqueConstraint(fields=('example_set', 'example'), name='example_stands_once_in_its_set'),
        ),
        migrations.CreateModel(
            name='OwnSilhouette',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('view', models.CharField(choices=[('front', 'Front'), ('back', 'Back'), ('inside', 'Inside'), ('sleeve_left', 'Left sleeve'), ('sleeve_right', 'Right sleeve'), ('hood', 'Hood'), ('label', 'Label'), ('side_left', 'Left side'), ('top', 'Top'), ('palm', 'Palm'), ('cuff', 'Cuff'), ('flap', 'Flap'), ('strap', 'Strap')], max_length=20)),
                ('drawing', models.TextField(help_text="as SVG text; drawn over the site's outline, it keeps its places if its viewBox has the same shape", validators=[catalogue.reference.models.fields.validate_drawing])),
                ('garment_type', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='silhouettes', to='catalogue.garmenttype')),
            ],
            options={
                'ordering': ['view'],
                'constraints': [models.CheckConstraint(condition=models.Q(('view__in', ['front', 'back', 'inside', 'sleeve_left', 'sleeve_right', 'hood', 'label', 'side_left', 'top', 'palm', 'cuff', 'flap', 'strap'])), name='ownsilhouette_view_is_known', violation_error_message='The view is none of the words that the society uses.'), models.UniqueConstraint(fields=('garment_type', 'view'), name='silhouette_stands_once_in_its_view')],
            },
        ),
        migrations.RunPython(guard, unguard),
    ]
