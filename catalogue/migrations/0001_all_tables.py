"""Every table of the catalogue at once.

After each single step Django builds anew every model that hangs together with the changed one. With all of ours in
one app that took ten to twenty seconds before a new site showed anything; made from the models as they are after all
steps, the same tables take two.

A site that has taken all the steps in whose place this stands goes on after it. One that has taken only some of them
first updates to the last commit that had them (`git log -- catalogue/migrations`) and migrates there.
"""

import catalogue.accounts.models.people
import catalogue.reference.codes
import catalogue.reference.models.fields
import django.db.models.deletion
import django.db.models.functions.comparison
import django.db.models.functions.text
import django.utils.timezone
from django.conf import settings
from django.core.management import call_command
from django.db import migrations, models
from django.db.migrations.operations.base import Operation

from catalogue.member_examples import written_once as what_was_seen
from catalogue.review.proposals import written_once as what_was_decided
from catalogue.review.records import refusing
from catalogue.review.unreviewed import written_once as what_was_looked_through


class AllTables(Operation):
    """Takes the steps in the state of the models alone, then makes the tables of all the app's models as they are then.

    For a database that holds none of them.
    """

    def __init__(self, steps):
        self.steps = steps

    def state_forwards(self, app_label, state):
        vars(state).pop("apps", None)  # what is not built yet is not built anew after each step
        for step in self.steps:
            step.state_forwards(app_label, state)

    def database_forwards(self, app_label, schema_editor, from_state, to_state):
        for model in self.made(app_label, to_state):
            schema_editor.create_model(model)
        for statement in schema_editor.deferred_sql:  # keys among them, which the guards that follow have to see
            schema_editor.execute(statement, None)
        schema_editor.deferred_sql.clear()

    def database_backwards(self, app_label, schema_editor, from_state, to_state):
        for model in reversed(self.made(app_label, from_state)):
            schema_editor.delete_model(model)

    def made(self, app_label, state):
        return [state.apps.get_model(app_label, step.name) for step in self.steps if isinstance(step, migrations.CreateModel)]

    def describe(self):
        return "Makes every table"


def guard(apps, schema_editor):
    """All guards in one step, since Django builds every model anew for each."""
    for guards in (what_was_seen, what_was_looked_through, what_was_decided):
        guards.guard(apps, schema_editor)
    refusing.guard_everything(apps, schema_editor)


def unguard(apps, schema_editor):
    refusing.unguard_everything(apps, schema_editor)
    for guards in (what_was_decided, what_was_looked_through, what_was_seen):
        guards.unguard(apps, schema_editor)


def make_cache_table(apps, schema_editor):
    """Where all processes of the site count failed attempts together."""
    call_command("createcachetable", database=schema_editor.connection.alias, verbosity=0)


def drop_cache_table(apps, schema_editor):
    schema_editor.execute("DROP TABLE IF EXISTS catalogue_cache")


class Migration(migrations.Migration):

    initial = True

    replaces = [
        ("catalogue", "0001_reference"),
        ("catalogue", "0002_own_drawings"),
        ("catalogue", "0003_records_say_who_and_why"),
        ("catalogue", "0004_member_examples"),
        ("catalogue", "0005_constraints_in_words"),
        ("catalogue", "0006_own_silhouettes"),
        ("catalogue", "0007_members"),
        ("catalogue", "0008_submitting"),
        ("catalogue", "0009_examples_queue"),
        ("catalogue", "0010_sealed_records"),
        ("catalogue", "0011_names_asked_for_and_notices"),
        ("catalogue", "0012_alterations_added"),
        ("catalogue", "0013_proposals"),
        ("catalogue", "0014_health"),
        ("catalogue", "0015_codes_whatever_their_capitals"),
        ("catalogue", "0016_records_looked_through"),
        ("catalogue", "0017_imports_under_review"),
        ("catalogue", "0018_merging"),
        ("catalogue", "0019_deputies"),
        ("catalogue", "0020_records_of_features"),
        ("catalogue", "0021_sets_by_members"),
        ("catalogue", "0022_marked_photographs"),
        ("catalogue", "0023_histories_of_details"),
        ("catalogue", "0024_what_goes_together"),
        ("catalogue", "0025_proposals_of_features"),
        ("catalogue", "0026_size_tables"),
        ("catalogue", "0027_shades_in_two_places"),
        ("catalogue", "0028_questions_decided"),
        ("catalogue", "0029_half_said"),
        ("catalogue", "0030_originals"),
        ("catalogue", "0031_scans_of_sources"),
        ("catalogue", "0032_splitting"),
        ("catalogue", "0033_states_explained"),
        ("catalogue", "0034_restrictions"),
        ("catalogue", "0035_what_labels_say_of_states"),
        ("catalogue", "0036_records_stay"),
        ("catalogue", "0037_views_taken_out"),
        ("catalogue", "0038_decisions_sealed"),
        ("catalogue", "0039_types_stay"),
        ("catalogue", "0040_kinds_of_sources"),
        ("catalogue", "0041_kinds_of_numbers"),
        ("catalogue", "0042_numbers_given"),
        ("catalogue", "0043_alterations_confirmed"),
        ("catalogue", "0044_what_versions_rest_on"),
        ("catalogue", "0045_views_disowned_and_sources_added"),
        ("catalogue", "0046_notices_of_alterations"),
        ("catalogue", "0047_invitations_of_who_left"),
    ]

    dependencies = [
        ("auth", "0012_alter_user_first_name_max_length"),
    ]

    operations = [
        AllTables([
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
                name='LastNumber',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('letter', models.CharField(max_length=1, unique=True)),
                    ('number', models.PositiveIntegerField(default=0)),
                ],
            ),
            migrations.CreateModel(
                name='Member',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('password', models.CharField(max_length=128, verbose_name='password')),
                    ('last_login', models.DateTimeField(blank=True, null=True, verbose_name='last login')),
                    ('is_superuser', models.BooleanField(default=False, help_text='Designates that this user has all permissions without explicitly assigning them.', verbose_name='superuser status')),
                    ('is_staff', models.BooleanField(default=False, help_text='Designates whether the user can log into this admin site.', verbose_name='staff status')),
                    ('is_active', models.BooleanField(default=True, help_text='Designates whether this user should be treated as active. Unselect this instead of deleting accounts.', verbose_name='active')),
                    ('date_joined', models.DateTimeField(default=django.utils.timezone.now, verbose_name='date joined')),
                    ('username', models.CharField(error_messages={'unique': 'Somebody has that name already.'}, max_length=150, unique=True, validators=[catalogue.accounts.models.people.validate_display_name], verbose_name='display name')),
                    ('email', models.EmailField(max_length=254, verbose_name='e-mail address')),
                    ('name_key', models.CharField(editable=False, max_length=600, unique=True)),
                    ('role', models.CharField(choices=[('member', 'Member'), ('author', 'Author'), ('moderator', 'Moderator'), ('secretary', 'Secretary')], default='member', max_length=12)),
                    ('admitted_at', models.DateTimeField(blank=True, null=True)),
                    ('joined_year', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='in the society since')),
                    ('about', models.TextField(blank=True, default='', max_length=1000)),
                    ('left_at', models.DateTimeField(blank=True, null=True)),
                    ('former_number', models.PositiveIntegerField(blank=True, null=True, unique=True)),
                    ('groups', models.ManyToManyField(blank=True, help_text='The groups this user belongs to. A user will get all permissions granted to each of their groups.', related_name='user_set', related_query_name='user', to='auth.group', verbose_name='groups')),
                    ('user_permissions', models.ManyToManyField(blank=True, help_text='Specific permissions for this user.', related_name='user_set', related_query_name='user', to='auth.permission', verbose_name='user permissions')),
                ],
                managers=[
                    ('objects', catalogue.accounts.models.people.MemberManager()),
                ],
            ),
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
                    'constraints': [models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='colourway_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.')],
                },
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
                    ('member', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='corrections', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['-pk'],
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
                    'constraints': [models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='cut_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.')],
                },
            ),
            migrations.CreateModel(
                name='Decision',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('kind', models.CharField(choices=[('agreed', 'Agreed to, one more is needed'), ('approved', 'Approved'), ('returned', 'Returned with a question'), ('declined', 'Declined'), ('undo_agreed', 'Agreed to revoke it, one more is needed'), ('revoked', 'Revoked')], max_length=12)),
                    ('sending', models.PositiveIntegerField()),
                    ('reason', models.TextField()),
                    ('backing', models.CharField(blank=True, default='', help_text='table and code of what versions rest on, with : between', max_length=100)),
                    ('before', models.JSONField(default=dict)),
                    ('after', models.JSONField(default=dict)),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='decisions', to=settings.AUTH_USER_MODEL)),
                    ('in_place_of', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='decided_for', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['made_at', 'pk'],
                },
            ),
            migrations.CreateModel(
                name='DecisionSeal',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('number', models.PositiveIntegerField(unique=True)),
                    ('body', models.TextField(help_text='the decision with what it wrote further as canonical JSON')),
                    ('previous', models.CharField(blank=True, default='', max_length=64)),
                    ('digest', models.CharField(max_length=64, unique=True)),
                    ('sealed_at', models.DateTimeField(auto_now_add=True)),
                    ('decision', models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, related_name='seal', to='catalogue.decision')),
                ],
                options={
                    'ordering': ['number'],
                },
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
                    ('begun_held', models.CharField(blank=True, default='', help_text='what its owner chose before there are grounds', max_length=90)),
                    ('begun_grounds', models.TextField(blank=True, default='', help_text='grounds its owner wrote, no choice made yet')),
                    ('begun_once', models.UUIDField(blank=True, editable=False, help_text='given with the form that began it', null=True, unique=True)),
                    ('sent_once', models.UUIDField(blank=True, editable=False, help_text='given with the form: a second tap is the same', null=True, unique=True)),
                    ('times_sent', models.PositiveSmallIntegerField(default=0, editable=False)),
                    ('revision', models.PositiveIntegerField(default=0, editable=False, help_text='grows with every save; a save names the one it began with')),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('changed_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('submitted_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('owner', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='examples', to=settings.AUTH_USER_MODEL)),
                    ('garment_type', models.ForeignKey(blank=True, help_text='empty while the owner is not sure', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='examples', to='catalogue.garmenttype')),
                ],
                options={
                    'ordering': ['code'],
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
                    ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='attributions', to='catalogue.example')),
                ],
                options={
                    'ordering': ['made_at', 'pk'],
                },
            ),
            migrations.CreateModel(
                name='ExampleInSet',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('position', models.PositiveIntegerField(default=0)),
                    ('added_by', models.ForeignKey(blank=True, help_text='empty: who made the set', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
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
                    ('made_once', models.UUIDField(blank=True, editable=False, help_text='given with the form: a second tap is the same', null=True, unique=True)),
                    ('revision', models.PositiveIntegerField(default=0, editable=False, help_text='grows with every change; a change names the one it began with')),
                    ('dissolved_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('dissolved_by', models.ForeignKey(blank=True, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('examples', models.ManyToManyField(related_name='sets', through='catalogue.ExampleInSet', to='catalogue.example')),
                    ('made_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='example_sets', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['code'],
                },
            ),
            migrations.AddField(
                model_name='exampleinset',
                name='example_set',
                field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='places', to='catalogue.exampleset'),
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
                },
            ),
            migrations.CreateModel(
                name='ErrorRateTaken',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('before', models.FloatField()),
                    ('after', models.FloatField()),
                    ('note_before', models.TextField(blank=True, default='')),
                    ('note_after', models.TextField(blank=True, default='')),
                    ('wrong', models.FloatField()),
                    ('looks', models.PositiveIntegerField()),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('moderator', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='error_rates_taken', to=settings.AUTH_USER_MODEL)),
                    ('undoes', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='undone_by', to='catalogue.errorratetaken')),
                    ('feature', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='error_rates_taken', to='catalogue.feature')),
                ],
                options={
                    'ordering': ['pk'],
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
                    ('added_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('confirmed_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('taken_back_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('added_by', models.ForeignKey(blank=True, help_text="who saw it once the piece was accepted; empty: it stands in the owner's record", null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('confirmed_by', models.ForeignKey(blank=True, help_text="the owner or a moderator who holds it to be so; empty: one person's view", null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('taken_back_by', models.ForeignKey(blank=True, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='alterations', to='catalogue.example')),
                    ('features', models.ManyToManyField(blank=True, help_text='features that say nothing of the version any more', related_name='+', to='catalogue.feature')),
                ],
                options={
                    'ordering': ['position', 'pk'],
                },
            ),
            migrations.CreateModel(
                name='FeatureRecord',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('code', models.CharField(db_index=True, max_length=80)),
                    ('number', models.PositiveIntegerField()),
                    ('standing', models.CharField(choices=[('imported', 'Imported, not reviewed'), ('written', 'Written by hand, not reviewed'), ('approved', 'Approved')], max_length=8)),
                    ('why', models.TextField(blank=True, default='')),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('place', models.PositiveIntegerField(unique=True)),
                    ('body', models.TextField()),
                    ('previous', models.CharField(blank=True, default='', max_length=64)),
                    ('digest', models.CharField(max_length=64, unique=True)),
                    ('written_by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='feature_records', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['place'],
                },
            ),
            migrations.AddField(
                model_name='decision',
                name='feature_record',
                field=models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='decision', to='catalogue.featurerecord'),
            ),
            migrations.CreateModel(
                name='FeatureState',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('code', catalogue.reference.models.fields.CodeField(max_length=80, validators=[catalogue.reference.codes.validate_code])),
                    ('label', models.CharField(max_length=200)),
                    ('explained', models.CharField(blank=True, default='', help_text='what the trade word means, for who does not know it', max_length=300)),
                    ('label_says', models.CharField(blank=True, default='', help_text='what a label says whose piece shows this, | between: size:CODE of a number form, fibres:cotton 60-70, polyester, country:NAME', max_length=300, validators=[catalogue.reference.models.fields.validate_label_says])),
                    ('low', models.FloatField(blank=True, help_text='included', null=True)),
                    ('high', models.FloatField(blank=True, help_text='not included; empty has no limit', null=True)),
                    ('drawing', models.TextField(blank=True, default='', help_text="the society's own drawing as SVG text, where the site has none that fits", validators=[catalogue.reference.models.fields.validate_drawing])),
                    ('position', models.PositiveIntegerField(default=0)),
                    ('feature', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='states', to='catalogue.feature')),
                ],
                options={
                    'ordering': ['position', 'code'],
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
                },
            ),
            migrations.CreateModel(
                name='HiddenName',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('place', models.CharField(choices=[('text', 'In a text'), ('photograph', 'In a photograph')], default='text', max_length=12)),
                    ('name', models.CharField(blank=True, default='', help_text='for moderators; empty: kept nowhere', max_length=200)),
                    ('on_request', models.BooleanField(default=False, help_text='asked for later, by the person or the family')),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='hidden_names', to='catalogue.example')),
                ],
                options={
                    'ordering': ['made_at', 'pk'],
                },
            ),
            migrations.CreateModel(
                name='Invitation',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('nonce', models.CharField(editable=False, max_length=32, unique=True)),
                    ('email', models.EmailField(blank=True, default='', max_length=254)),
                    ('note', models.CharField(blank=True, default='', max_length=200)),
                    ('made_at', models.DateTimeField()),
                    ('expires_at', models.DateTimeField()),
                    ('revoked_at', models.DateTimeField(blank=True, null=True)),
                    ('used_at', models.DateTimeField(blank=True, null=True)),
                    ('inviter', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='invitations', to=settings.AUTH_USER_MODEL)),
                    ('used_by', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='invitation_used', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['-made_at', '-pk'],
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
                    ('wearing_restricted', models.BooleanField(default=False, help_text='wearing it may be an offence in some places')),
                    ('emblem_restricted', models.BooleanField(default=False, help_text='it may bear an emblem that the law protects')),
                    ('export_restricted', models.BooleanField(default=False, help_text='posting it abroad may need a licence')),
                    ('retired_why', models.TextField(blank=True, default='', help_text='why it is no longer held to be a version; empty while it is in force')),
                    ('position', models.PositiveIntegerField(default=0)),
                    ('colourway', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='versions', to='catalogue.colourway')),
                    ('cut', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='versions', to='catalogue.cut')),
                    ('garment_type', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='versions', to='catalogue.garmenttype')),
                    ('issuer', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='versions', to='catalogue.issuer')),
                    ('passes_for', models.ManyToManyField(blank=True, help_text='other types it may be taken for', related_name='lookalikes', to='catalogue.garmenttype')),
                ],
                options={
                    'ordering': ['garment_type', 'position', 'code'],
                },
            ),
            migrations.CreateModel(
                name='Holding',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('note', models.CharField(blank=True, default='', max_length=500)),
                    ('is_shown', models.BooleanField(default=False, verbose_name='show it on my page')),
                    ('number', models.PositiveSmallIntegerField(default=1, verbose_name='how many')),
                    ('added_at', models.DateTimeField(default=django.utils.timezone.now)),
                    ('garment_type', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.garmenttype')),
                    ('member', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='holdings', to=settings.AUTH_USER_MODEL)),
                    ('version', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion')),
                ],
                options={
                    'ordering': ['pk'],
                },
            ),
            migrations.CreateModel(
                name='FollowedPiece',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('doubt', models.TextField(blank=True, default='')),
                    ('settled_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('attribution', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='followed', to='catalogue.attribution')),
                    ('decision', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='followed', to='catalogue.decision')),
                    ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='followed', to='catalogue.example')),
                    ('settled_by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('after', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion')),
                    ('before', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion')),
                ],
                options={
                    'ordering': ['decision', 'example__code'],
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
                    ('moderator', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='example_decisions', to=settings.AUTH_USER_MODEL)),
                    ('owner', models.ForeignKey(editable=False, help_text="whose piece it was, so that the table itself refuses decisions on one's own", on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('held_as', models.ForeignKey(blank=True, help_text='the version under which the society keeps the piece from now on', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion')),
                ],
                options={
                    'ordering': ['made_at', 'pk'],
                },
            ),
            migrations.AddField(
                model_name='example',
                name='held_as',
                field=models.ForeignKey(blank=True, help_text='the version under which the society now keeps an accepted piece; empty: none of the reference', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='held_examples', to='catalogue.issueversion'),
            ),
            migrations.AddField(
                model_name='example',
                name='sold_as_version',
                field=models.ForeignKey(blank=True, help_text='the version that the seller named', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion'),
            ),
            migrations.CreateModel(
                name='Companion',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('goes_with', models.CharField(choices=[('fits', 'fits'), ('worn_with', 'was worn with')], default='fits', max_length=10)),
                    ('note', models.TextField(blank=True, default='')),
                    ('joined_by', models.ForeignKey(blank=True, help_text='the feature of both that shows what joins them, such as loops and buttons', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.feature')),
                    ('other', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='companion_of', to='catalogue.issueversion')),
                    ('version', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='companions', to='catalogue.issueversion')),
                ],
                options={
                    'ordering': ['version', 'other', 'goes_with'],
                },
            ),
            migrations.AddField(
                model_name='attribution',
                name='version',
                field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='attributions', to='catalogue.issueversion'),
            ),
            migrations.CreateModel(
                name='JoinRequest',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('words', models.TextField(blank=True, default='', max_length=1000)),
                    ('made_at', models.DateTimeField()),
                    ('state', models.CharField(choices=[('waiting', 'Waiting'), ('admitted', 'Admitted'), ('declined', 'Declined'), ('withdrawn', 'Withdrawn')], default='waiting', max_length=10)),
                    ('decided_at', models.DateTimeField(blank=True, null=True)),
                    ('reason', models.TextField(blank=True, default='', max_length=1000)),
                    ('decided_by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='join_requests_decided', to=settings.AUTH_USER_MODEL)),
                    ('member', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='join_requests', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['-made_at', '-pk'],
                },
            ),
            migrations.CreateModel(
                name='KeptHistories',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('state', models.CharField(max_length=64)),
                    ('body', models.TextField()),
                    ('garment_type', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='kept_histories', to='catalogue.garmenttype')),
                ],
            ),
            migrations.CreateModel(
                name='KeptOutOfSet',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='+', to='catalogue.example')),
                    ('example_set', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='kept_out', to='catalogue.exampleset')),
                ],
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
                },
            ),
            migrations.CreateModel(
                name='Leave',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('begins', models.DateField()),
                    ('ends', models.DateField(help_text='the last day')),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('deputy', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='leaves_stood_in', to=settings.AUTH_USER_MODEL)),
                    ('moderator', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='leave', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['ends', 'pk'],
                },
            ),
            migrations.CreateModel(
                name='MailWish',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('how', models.CharField(choices=[('at_once', 'Each at once'), ('daily', 'One mail a day'), ('weekly', 'One mail a week')], default='at_once', max_length=8)),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('digest_at', models.DateTimeField(blank=True, editable=False, help_text='when the last one went out', null=True)),
                    ('member', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='mail_wish', to=settings.AUTH_USER_MODEL)),
                ],
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
                    'constraints': [models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='maker_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.'), models.CheckConstraint(condition=models.Q(('first_year__isnull', True), ('last_year__isnull', True), ('first_year__lte', models.F('last_year')), _connector='OR'), name='maker_begins_before_it_ends', violation_error_message='The last year lies before the first: a maker begins before it ends.')],
                },
            ),
            migrations.AddField(
                model_name='issueversion',
                name='makers',
                field=models.ManyToManyField(blank=True, related_name='versions', to='catalogue.maker'),
            ),
            migrations.AddField(
                model_name='example',
                name='maker',
                field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='examples', to='catalogue.maker'),
            ),
            migrations.CreateModel(
                name='MarkedPhotograph',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('key', models.CharField(max_length=32, unique=True)),
                    ('close_key', models.CharField(blank=True, default='', max_length=32)),
                    ('width', models.PositiveIntegerField(help_text='of the largest size kept')),
                    ('height', models.PositiveIntegerField()),
                    ('sha256', models.CharField(help_text='of the picture as it was sent in', max_length=64)),
                    ('x', models.FloatField(blank=True, null=True)),
                    ('y', models.FloatField(blank=True, null=True)),
                    ('radius', models.FloatField(blank=True, null=True)),
                    ('shows', models.CharField(help_text='what is to be seen, in words, for who cannot see it', max_length=300)),
                    ('credit', models.CharField(max_length=120)),
                    ('licence', models.CharField(blank=True, default='', max_length=60)),
                    ('drawn', models.BooleanField(default=False, help_text='a drawing in place of a photograph')),
                    ('feature', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='photograph', to='catalogue.feature')),
                    ('state', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='photograph', to='catalogue.featurestate')),
                ],
                options={
                    'ordering': ['pk'],
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
                },
            ),
            migrations.CreateModel(
                name='NameRequest',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('words', models.TextField(blank=True, default='', help_text='which name, and where it stands; empty once settled')),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('settled_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='name_requests', to='catalogue.example')),
                    ('settled_by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['made_at', 'pk'],
                },
            ),
            migrations.CreateModel(
                name='NumberForm',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                    ('name', models.CharField(max_length=200)),
                    ('groups', models.TextField(blank=True, default='', help_text='what each group means, semicolons between: 1 class; 2 running number')),
                    ('pattern', models.CharField(help_text='9 is one figure, 9{2-4} two to four figures, A any one capital letter; round brackets mark the groups, counted from 1; a backslash makes the sign behind it stand for itself; all other signs do anyway. (99)-(999)-(99) reads 27-114-06. TRI\\AL 5\\9 / No. (99) reads TRIAL 59 / No. 12: there A and 9 are themselves, and space, stroke, space stands for a new line.', max_length=120)),
                    ('year_group', models.PositiveSmallIntegerField(blank=True, help_text='the group that holds the year, in two or four figures', null=True)),
                    ('check_rule', models.CharField(blank=True, default='', help_text='what groups of every true number keep: group 1 lies between 1 and 40 and group 2 is not 0; or group 4 = (sum of all figures of groups 1 to 3) mod 10', max_length=200)),
                    ('years', catalogue.reference.models.fields.UncertainDateField(blank=True, default='', help_text='1966, 1966-03, 1966~ about, 1964? uncertain, 1971/1986, .. for an open end', max_length=40, validators=[catalogue.reference.models.fields.validate_uncertain_date])),
                    ('of_kind', models.CharField(blank=True, choices=[('issue', 'Issue'), ('trial', 'Trial'), ('transitional', 'Transitional'), ('depot_modification', 'Depot modification'), ('conversion', 'Conversion'), ('commercial_copy', 'Commercial copy'), ('reproduction', 'Reproduction'), ('unplaced', 'Unplaced')], default='', help_text='if pieces of one kind of version alone carry such a number, as the serial of a trial', max_length=20)),
                    ('example', models.CharField(blank=True, default='', max_length=80)),
                    ('note', models.TextField(blank=True, default='')),
                ],
                options={
                    'ordering': ['code'],
                    'constraints': [models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='numberform_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.')],
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
                    ('would_settle', models.TextField(blank=True, default='', help_text='the piece or paper that would settle it, or would have shown it wrong')),
                    ('features', models.ManyToManyField(blank=True, help_text='whose rows of those versions it is about', related_name='open_questions', to='catalogue.feature')),
                    ('versions', models.ManyToManyField(blank=True, related_name='open_questions', to='catalogue.issueversion')),
                ],
                options={
                    'ordering': ['code'],
                },
            ),
            migrations.AddField(
                model_name='decision',
                name='question',
                field=models.ForeignKey(blank=True, help_text='that was decided by it', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='decisions', to='catalogue.openquestion'),
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
                    ('original', models.CharField(blank=True, default='', editable=False, help_text='the file as it was sent in, in a storage of its own; empty: not kept', max_length=80)),
                    ('width', models.PositiveIntegerField(help_text='of the largest size kept')),
                    ('height', models.PositiveIntegerField()),
                    ('sha256', models.CharField(help_text='of the picture as it was sent in', max_length=64)),
                    ('perceptual_hash', models.BigIntegerField(blank=True, db_index=True, help_text='64 bits, read as a signed number', null=True)),
                    ('drawn', models.BooleanField(default=False, help_text='a drawing in place of a photograph')),
                    ('hidden', models.BooleanField(default=False, help_text='kept from everybody but the owner and the moderators')),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('taken_out_at', models.DateTimeField(blank=True, editable=False, help_text='by its owner, who can put it back for a while', null=True)),
                    ('example', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='photographs', to='catalogue.example')),
                ],
                options={
                    'ordering': ['position', 'pk'],
                },
            ),
            migrations.CreateModel(
                name='PieceWord',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('text', models.TextField()),
                    ('sent_once', models.UUIDField(help_text='given with the form: a second tap is the same word', unique=True)),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('example', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='words', to='catalogue.example')),
                ],
                options={
                    'ordering': ['made_at', 'pk'],
                    'abstract': False,
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
                },
            ),
            migrations.CreateModel(
                name='Proposal',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('kind', models.CharField(choices=[('change', 'Change'), ('new', 'New version'), ('retire', 'Retirement'), ('merge', 'Merge'), ('split', 'Split'), ('feature', 'Feature'), ('question', 'Open question'), ('scan', 'Scan of a source'), ('backing', 'What versions rest on')], max_length=8)),
                    ('state', models.CharField(choices=[('draft', 'Draft'), ('open', 'Waiting'), ('returned', 'Returned with a question'), ('approved', 'Approved'), ('declined', 'Declined'), ('withdrawn', 'Withdrawn'), ('revoked', 'Approved, then revoked')], default='draft', max_length=10)),
                    ('weight', models.CharField(choices=[('small', 'Small: one person decides'), ('weighty', 'Changes identification or dates: two people decide')], default='small', max_length=8)),
                    ('other_base', models.JSONField(default=dict, help_text='every row of it when this was written')),
                    ('backing', models.CharField(blank=True, choices=[('issuer', 'service'), ('maker', 'maker'), ('source', 'source'), ('numberform', 'number form')], default='', help_text='the table of what versions rest on, where it is about a record of one', max_length=12)),
                    ('backing_code', models.CharField(blank=True, default='', help_text='the code of that record', max_length=80)),
                    ('new_code', models.CharField(blank=True, default='', help_text='of a version, feature or other record that is to be made', max_length=80)),
                    ('second_code', models.CharField(blank=True, default='', help_text='of a split the second version that is to be made', max_length=80)),
                    ('base', models.JSONField(default=dict)),
                    ('rows', models.JSONField(default=dict)),
                    ('grounds', models.TextField(blank=True, default='')),
                    ('sources', models.JSONField(default=list, help_text='codes of the sources that are cited for it')),
                    ('revision', models.PositiveIntegerField(default=0)),
                    ('times_sent', models.PositiveIntegerField(default=0)),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('sent_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to=settings.AUTH_USER_MODEL)),
                    ('feature', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to='catalogue.feature')),
                    ('garment_type', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to='catalogue.garmenttype')),
                    ('other', models.ForeignKey(blank=True, help_text='of a merge the version that goes', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='proposals_to_merge', to='catalogue.issueversion')),
                    ('question', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to='catalogue.openquestion')),
                    ('version', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to='catalogue.issueversion')),
                ],
                options={
                    'ordering': ['sent_at', 'pk'],
                },
            ),
            migrations.AddField(
                model_name='decision',
                name='proposal',
                field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='decisions', to='catalogue.proposal'),
            ),
            migrations.CreateModel(
                name='ProposalWord',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('text', models.TextField()),
                    ('sent_once', models.UUIDField(help_text='given with the form: a second tap is the same word', unique=True)),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                    ('proposal', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='words', to='catalogue.proposal')),
                ],
                options={
                    'ordering': ['made_at', 'pk'],
                    'abstract': False,
                },
            ),
            migrations.CreateModel(
                name='QueueLook',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('since', models.DateTimeField()),
                    ('last', models.DateTimeField()),
                    ('example', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='looked_at_now', to='catalogue.example')),
                    ('moderator', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='+', to=settings.AUTH_USER_MODEL)),
                ],
            ),
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
                name='RoleChange',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('before', models.CharField(choices=[('member', 'Member'), ('author', 'Author'), ('moderator', 'Moderator'), ('secretary', 'Secretary')], max_length=12)),
                    ('after', models.CharField(choices=[('member', 'Member'), ('author', 'Author'), ('moderator', 'Moderator'), ('secretary', 'Secretary')], max_length=12)),
                    ('at', models.DateTimeField()),
                    ('reason', models.TextField(max_length=1000)),
                    ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='role_changes_made', to=settings.AUTH_USER_MODEL)),
                    ('member', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='role_changes', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['-at', '-pk'],
                },
            ),
            migrations.CreateModel(
                name='ShadePair',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('protected', models.CharField(blank=True, choices=[('same', 'The same'), ('deeper', 'The same colour, deeper'), ('paler', 'The same colour, paler'), ('other', 'Another colour'), ('cannot_tell', 'Cannot tell')], default='', help_text='under a flap or inside a pocket, beside the exposed place', max_length=12)),
                    ('exposed_l', models.FloatField(blank=True, null=True)),
                    ('exposed_a', models.FloatField(blank=True, null=True)),
                    ('exposed_b', models.FloatField(blank=True, null=True)),
                    ('protected_l', models.FloatField(blank=True, null=True)),
                    ('protected_a', models.FloatField(blank=True, null=True)),
                    ('protected_b', models.FloatField(blank=True, null=True)),
                    ('example', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='shade_pair', to='catalogue.example')),
                    ('exposed', models.ForeignKey(blank=True, help_text='where light falls', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.featurestate')),
                ],
            ),
            migrations.CreateModel(
                name='Source',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('code', catalogue.reference.models.fields.CodeField(max_length=80, unique=True, validators=[catalogue.reference.codes.validate_code])),
                    ('kind', models.CharField(choices=[('specification', 'Specification'), ('tender', 'Tender or contract'), ('order', 'Regulation or dress instruction'), ('ledger', 'Ledger or book of a works'), ('label', 'Dated label'), ('photograph', 'Period photograph'), ('publication', 'Publication or report'), ('testimony', 'Testimony'), ('seller', "Seller's word")], max_length=20)),
                    ('title', models.CharField(max_length=300)),
                    ('date', catalogue.reference.models.fields.UncertainDateField(blank=True, default='', help_text='1966, 1966-03, 1966~ about, 1964? uncertain, 1971/1986, .. for an open end', max_length=40, validators=[catalogue.reference.models.fields.validate_uncertain_date])),
                    ('holder', models.CharField(blank=True, default='', help_text='who keeps it; of a testimony who told it, as “a storeman”', max_length=200)),
                    ('shelf_mark', models.CharField(blank=True, default='', help_text='number of file, page, print or recording where it is kept', max_length=200)),
                    ('grade', models.CharField(choices=[('A', 'A: official dated paper that names the feature'), ('B', 'B: dated label or piece, seen and photographed'), ('C', 'C: contemporary print or photograph'), ('D', 'D: recollection'), ('E', "E: seller's description")], max_length=1)),
                    ('personal_data', models.BooleanField(default=False, help_text='names or faces of private persons: mask before showing')),
                    ('note', models.TextField(blank=True, default='')),
                ],
                options={
                    'ordering': ['code'],
                    'constraints': [models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='source_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.'), models.CheckConstraint(condition=models.Q(('grade__in', ['A', 'B', 'C', 'D', 'E'])), name='source_grade_is_known', violation_error_message='The grade is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('kind__in', ['specification', 'tender', 'order', 'ledger', 'label', 'photograph', 'publication', 'testimony', 'seller'])), name='source_kind_is_known', violation_error_message='The kind is none of the words that the society uses.')],
                },
            ),
            migrations.CreateModel(
                name='SizeLength',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('mark', models.CharField(help_text='as it stands on labels, such as 4 or 160/88', max_length=40, verbose_name='size mark')),
                    ('what', models.CharField(choices=[('pit_to_pit', 'Pit to pit'), ('back_length', 'Back length'), ('sleeve', 'Sleeve'), ('shoulder', 'Shoulder'), ('waist', 'Waist'), ('inside_leg', 'Inside leg'), ('rise', 'Rise'), ('hem', 'Hem or leg width'), ('head', 'Inside circumference'), ('brim', 'Brim at the side')], max_length=12, verbose_name='length')),
                    ('mm', models.PositiveSmallIntegerField(verbose_name='millimetres')),
                    ('version', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='size_lengths', to='catalogue.issueversion')),
                    ('source', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='size_lengths', to='catalogue.source')),
                ],
                options={
                    'ordering': ['version', 'mark', 'what'],
                },
            ),
            migrations.CreateModel(
                name='QuestionView',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('letter', models.CharField(help_text='A to Z, then AA, AB …', max_length=2)),
                    ('holder', models.CharField(max_length=80)),
                    ('text', models.TextField()),
                    ('stands', models.BooleanField(default=False, help_text='the question is settled for this view')),
                    ('taken_out', models.TextField(blank=True, default='', editable=False, help_text='why a moderator took it out; empty while it is one of them')),
                    ('disowned', models.BooleanField(default=False, editable=False, help_text='the member who is named as its holder says that it is not theirs')),
                    ('made_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('revision', models.PositiveIntegerField(default=0, editable=False)),
                    ('by', models.ForeignKey(blank=True, editable=False, help_text='the member who wrote it down on the site', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='question_views', to=settings.AUTH_USER_MODEL)),
                    ('question', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='views', to='catalogue.openquestion')),
                    ('sources', models.ManyToManyField(blank=True, related_name='views', to='catalogue.source')),
                ],
                options={
                    'ordering': [django.db.models.functions.text.Length('letter'), 'letter'],
                },
            ),
            migrations.CreateModel(
                name='SourceAddition',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('code', models.CharField(max_length=80)),
                    ('title', models.CharField(max_length=300)),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('taken_back_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('reason', models.TextField(blank=True, default='', help_text='why it was taken back')),
                    ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='sources_added', to=settings.AUTH_USER_MODEL)),
                    ('source', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='addition', to='catalogue.source')),
                    ('taken_back_by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['pk'],
                },
            ),
            migrations.CreateModel(
                name='SourceScan',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('key', models.CharField(blank=True, default='', max_length=32)),
                    ('width', models.PositiveIntegerField(help_text='of the largest size kept')),
                    ('height', models.PositiveIntegerField()),
                    ('sha256', models.CharField(help_text='of the picture as it was sent in', max_length=64)),
                    ('shows', models.CharField(blank=True, default='', help_text='what is to be seen, in words', max_length=300)),
                    ('credit', models.CharField(blank=True, default='', max_length=120)),
                    ('licence', models.CharField(blank=True, default='', max_length=60)),
                    ('names', models.CharField(blank=True, choices=[('none', 'None is to be seen'), ('masked', 'Made unreadable'), ('to_mask', 'To be seen; the moderators make them unreadable')], default='', max_length=10)),
                    ('blurred', models.BooleanField(default=False, help_text='a part of it was made unreadable')),
                    ('shown', models.BooleanField(default=False)),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('source', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='scans', to='catalogue.source')),
                ],
                options={
                    'ordering': ['pk'],
                },
            ),
            migrations.AddField(
                model_name='proposal',
                name='scan',
                field=models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='proposal', to='catalogue.sourcescan'),
            ),
            migrations.AddField(
                model_name='decision',
                name='scan',
                field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='decisions', to='catalogue.sourcescan'),
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
                },
            ),
            migrations.CreateModel(
                name='Citation',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('stance', models.CharField(choices=[('supports', 'supports'), ('contradicts', 'contradicts')], default='supports', max_length=12)),
                    ('position', models.PositiveIntegerField(default=0)),
                    ('companion', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.companion')),
                    ('issuer', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.issuer')),
                    ('version', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.issueversion')),
                    ('cell', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.profilecell')),
                    ('source', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='citations', to='catalogue.source')),
                    ('stock_number', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='citations', to='catalogue.stocknumber')),
                ],
                options={
                    'ordering': ['position'],
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
                },
            ),
            migrations.AddField(
                model_name='garmenttype',
                name='features',
                field=models.ManyToManyField(related_name='garment_types', through='catalogue.TypeFeature', to='catalogue.feature'),
            ),
            migrations.CreateModel(
                name='TypeHealth',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('number', models.PositiveBigIntegerField()),
                    ('state', models.CharField(max_length=64)),
                    ('body', models.JSONField()),
                    ('garment_type', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='health', to='catalogue.garmenttype')),
                ],
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
                },
            ),
            migrations.CreateModel(
                name='VersionRecord',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('number', models.PositiveIntegerField()),
                    ('standing', models.CharField(choices=[('imported', 'Imported, not reviewed'), ('written', 'Written by hand, not reviewed'), ('approved', 'Approved')], default='imported', max_length=10)),
                    ('made_at', models.DateTimeField(auto_now_add=True)),
                    ('why', models.TextField(blank=True, default='', help_text='why the record was changed')),
                    ('version', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='records', to='catalogue.issueversion')),
                    ('written_by', models.ForeignKey(blank=True, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='records', to=settings.AUTH_USER_MODEL)),
                ],
                options={
                    'ordering': ['version', '-number'],
                },
            ),
            migrations.CreateModel(
                name='RecordSeal',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('number', models.PositiveIntegerField(unique=True)),
                    ('body', models.TextField(help_text='the record with its cells as canonical JSON')),
                    ('previous', models.CharField(blank=True, default='', max_length=64)),
                    ('digest', models.CharField(max_length=64, unique=True)),
                    ('sealed_at', models.DateTimeField(auto_now_add=True)),
                    ('record', models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, related_name='seal', to='catalogue.versionrecord')),
                ],
                options={
                    'ordering': ['number'],
                },
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
                },
            ),
            migrations.AddField(
                model_name='proposal',
                name='based_on',
                field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to='catalogue.versionrecord'),
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
            migrations.AddField(
                model_name='issueversion',
                name='passed_record',
                field=models.OneToOneField(blank=True, editable=False, help_text='a record that nobody proposed, which a moderator looked through and let stand', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.versionrecord'),
            ),
            migrations.CreateModel(
                name='FurtherRecord',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('before', models.JSONField(default=dict)),
                    ('after', models.JSONField(default=dict)),
                    ('decision', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='further', to='catalogue.decision')),
                    ('record', models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, related_name='further', to='catalogue.versionrecord')),
                ],
                options={
                    'ordering': ['pk'],
                },
            ),
            migrations.AddField(
                model_name='decision',
                name='record',
                field=models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='decision', to='catalogue.versionrecord'),
            ),
            migrations.CreateModel(
                name='VersionSuccessor',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('successor', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='predecessors', to='catalogue.issueversion')),
                    ('version', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='successors', to='catalogue.issueversion')),
                ],
                options={
                    'ordering': ['pk'],
                },
            ),
            migrations.CreateModel(
                name='ViewDecision',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('turn', models.PositiveIntegerField()),
                    ('taken_out', models.BooleanField(help_text='no: it was put back')),
                    ('reason', models.TextField()),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='view_decisions', to=settings.AUTH_USER_MODEL)),
                    ('view', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='decisions', to='catalogue.questionview')),
                ],
                options={
                    'ordering': ['view', 'turn'],
                },
            ),
            migrations.CreateModel(
                name='Notice',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('sending', models.PositiveIntegerField(blank=True, help_text='which sending of the piece or proposal, which edition of the view', null=True)),
                    ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                    ('read_at', models.DateTimeField(blank=True, editable=False, null=True)),
                    ('alteration', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.alteration')),
                    ('decision', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='catalogue.exampledecision')),
                    ('joining', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.joinrequest')),
                    ('leave', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.leave')),
                    ('member', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='notices', to=settings.AUTH_USER_MODEL)),
                    ('name_note', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.hiddenname')),
                    ('name_request', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.namerequest')),
                    ('piece', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.example')),
                    ('proposal_decision', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='catalogue.decision')),
                    ('set_place', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.exampleinset')),
                    ('word', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='catalogue.pieceword')),
                    ('proposal', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.proposal')),
                    ('proposal_word', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='catalogue.proposalword')),
                    ('view', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.questionview')),
                    ('reference_import', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.referenceimport')),
                    ('source_added', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.sourceaddition')),
                    ('view_decision', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='catalogue.viewdecision')),
                ],
                options={
                    'ordering': ['-made_at', '-pk'],
                },
            ),
            migrations.CreateModel(
                name='Want',
                fields=[
                    ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                    ('note', models.CharField(blank=True, default='', max_length=500)),
                    ('is_shown', models.BooleanField(default=False, verbose_name='show it on my page')),
                    ('condition_at_least', models.CharField(blank=True, choices=[('', 'any condition'), ('poor', 'poor'), ('worn', 'worn'), ('good', 'good'), ('very good', 'very good'), ('unissued', 'unissued')], default='', max_length=10)),
                    ('offers', models.CharField(blank=True, default='', max_length=100, verbose_name='what I offer')),
                    ('since', models.DateField(default=django.utils.timezone.localdate)),
                    ('garment_type', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.garmenttype')),
                    ('member', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='wants', to=settings.AUTH_USER_MODEL)),
                    ('spare', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion', verbose_name='a spare that I would give')),
                    ('version', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion')),
                ],
                options={
                    'ordering': ['pk'],
                },
            ),
            migrations.AddConstraint(
                model_name='member',
                constraint=models.CheckConstraint(condition=models.Q(('role__in', ['member', 'author', 'moderator', 'secretary'])), name='member_role_is_known'),
            ),
            migrations.AddConstraint(
                model_name='member',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('former_number__isnull', True), ('left_at__isnull', True)), models.Q(('email', ''), ('former_number__isnull', False), ('is_active', False), ('left_at__isnull', False)), _connector='OR'), name='member_who_left_keeps_nothing_personal'),
            ),
            migrations.AddIndex(
                model_name='correction',
                index=models.Index(fields=['table', 'row'], name='catalogue_c_table_53e4cd_idx'),
            ),
            migrations.AddConstraint(
                model_name='correction',
                constraint=models.CheckConstraint(condition=models.Q(('deed__in', ['added', 'changed', 'deleted'])), name='correction_deed_is_known'),
            ),
            migrations.AddConstraint(
                model_name='decisionseal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('number', 1), ('previous', '')), models.Q(('number__gt', 1), ('previous__regex', '^[0-9a-f]{64}$')), _connector='OR'), name='decision_seal_names_the_one_before'),
            ),
            migrations.AddConstraint(
                model_name='decisionseal',
                constraint=models.CheckConstraint(condition=models.Q(('digest__regex', '^[0-9a-f]{64}$')), name='decision_seal_digest_is_a_digest'),
            ),
            migrations.AddConstraint(
                model_name='exampleset',
                constraint=models.CheckConstraint(condition=models.Q(('together__in', ['yes', 'no', 'unknown'])), name='exampleset_together_is_known', violation_error_message='The together is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='exampleset',
                constraint=models.CheckConstraint(condition=models.Q(('fasten__in', ['yes', 'no', 'unknown'])), name='exampleset_fasten_is_known', violation_error_message='The fasten is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='exampleset',
                constraint=models.CheckConstraint(condition=models.Q(('together', 'unknown'), models.Q(('grounds', ''), _negated=True), _connector='OR'), name='set_says_on_what_grounds'),
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
                model_name='exampleinset',
                constraint=models.UniqueConstraint(fields=('example_set', 'example'), name='example_stands_once_in_its_set'),
            ),
            migrations.AddConstraint(
                model_name='errorratetaken',
                constraint=models.CheckConstraint(condition=models.Q(('after__gte', 0), ('after__lt', 1), ('before__gte', 0), ('before__lt', 1)), name='taken_error_is_a_chance'),
            ),
            migrations.AddConstraint(
                model_name='errorratetaken',
                constraint=models.CheckConstraint(condition=models.Q(('before', models.F('after')), _negated=True), name='taken_error_changes_something'),
            ),
            migrations.AddConstraint(
                model_name='errorratetaken',
                constraint=models.CheckConstraint(condition=models.Q(('wrong__gte', 0), ('wrong__lte', models.F('looks'))), name='taken_error_was_measured'),
            ),
            migrations.AddConstraint(
                model_name='alteration',
                constraint=models.CheckConstraint(condition=models.Q(('kind__in', ['cut_off', 'removed', 'opened', 'closed', 'shortened', 'taken_in', 'let_out', 'replaced', 'added', 're_labelled', 'dyed'])), name='alteration_kind_is_known', violation_error_message='The kind is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='alteration',
                constraint=models.CheckConstraint(condition=models.Q(('by__in', ['not_known', 'service', 'wearer', 'later'])), name='alteration_by_is_known', violation_error_message='The by is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='alteration',
                constraint=models.CheckConstraint(condition=models.Q(('part', ''), _negated=True), name='alteration_names_its_part'),
            ),
            migrations.AddConstraint(
                model_name='alteration',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('added_at__isnull', True), ('added_by__isnull', True)), models.Q(('added_at__isnull', False), ('added_by__isnull', False)), _connector='OR'), name='added_alteration_says_by_whom_and_when'),
            ),
            migrations.AddConstraint(
                model_name='alteration',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('taken_back_at__isnull', True), ('taken_back_by__isnull', True)), models.Q(('added_by__isnull', False), ('taken_back_at__isnull', False), ('taken_back_by__isnull', False)), _connector='OR'), name='only_an_added_alteration_is_taken_back'),
            ),
            migrations.AddConstraint(
                model_name='alteration',
                constraint=models.CheckConstraint(condition=models.Q(('region', ''), models.Q(('view', ''), _negated=True), _connector='OR'), name='altered_region_has_its_view'),
            ),
            migrations.AddConstraint(
                model_name='alteration',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('confirmed_at__isnull', True), ('confirmed_by__isnull', True)), models.Q(('added_by__isnull', False), ('confirmed_at__isnull', False), ('confirmed_by__isnull', False)), _connector='OR'), name='only_an_added_alteration_is_confirmed_by_whom_and_when'),
            ),
            migrations.AddConstraint(
                model_name='featurerecord',
                constraint=models.UniqueConstraint(fields=('code', 'number'), name='feature_record_is_one_of_its_number'),
            ),
            migrations.AddConstraint(
                model_name='featurerecord',
                constraint=models.CheckConstraint(condition=models.Q(('standing__in', ['imported', 'written', 'approved'])), name='featurerecord_standing_is_known', violation_error_message='The standing is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='featurerecord',
                constraint=models.CheckConstraint(condition=models.Q(('standing', 'imported'), models.Q(('written_by__isnull', False), models.Q(('why', ''), _negated=True)), _connector='OR'), name='feature_record_by_a_person_says_why'),
            ),
            migrations.AddConstraint(
                model_name='featurerecord',
                constraint=models.CheckConstraint(condition=models.Q(('number__gte', 1), ('place__gte', 1), models.Q(models.Q(('place', 1), ('previous', '')), models.Q(('place__gt', 1), ('previous__regex', '^[0-9a-f]{64}$')), _connector='OR'), ('digest__regex', '^[0-9a-f]{64}$')), name='feature_record_stands_in_the_chain'),
            ),
            migrations.AddConstraint(
                model_name='featurestate',
                constraint=models.UniqueConstraint(fields=('feature', 'code'), name='state_code_stands_once_in_its_feature'),
            ),
            migrations.AddConstraint(
                model_name='featurestate',
                constraint=models.UniqueConstraint(django.db.models.functions.text.Lower('code'), models.F('feature'), name='featurestate_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.'),
            ),
            migrations.AddConstraint(
                model_name='featurestate',
                constraint=models.CheckConstraint(condition=models.Q(('high__isnull', True), ('low__lt', models.F('high')), _connector='OR'), name='state_band_runs_upward', violation_error_message='The lower end of a band lies below its upper end.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='feature_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.CheckConstraint(condition=models.Q(('kind__in', ['choice', 'count', 'measurement'])), name='feature_kind_is_known', violation_error_message='The kind is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.CheckConstraint(condition=models.Q(('seen__in', ['outside', 'handled', 'daylight', 'opened', 'measured'])), name='feature_seen_is_known', violation_error_message='The seen is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.CheckConstraint(condition=models.Q(('service_change__in', ['easily', 'wear', 'repair', 'deliberate', 'no'])), name='feature_service_change_is_known', violation_error_message='The service change is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.CheckConstraint(condition=models.Q(('effort__gt', 0)), name='feature_effort_is_positive', violation_error_message='The effort is a number above 0; 1 is a glance.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.CheckConstraint(condition=models.Q(('spread__gt', 0)), name='feature_spread_is_positive', violation_error_message='The spread of a measurement is a number above 0, in its unit.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.CheckConstraint(condition=models.Q(('error__gte', 0), ('error__lt', 1)), name='feature_error_is_a_chance', violation_error_message='The chance of a wrong answer is a number from 0 up to, but not, 1.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.CheckConstraint(condition=models.Q(('loss__gte', 0), ('loss__lte', 1)), name='feature_loss_is_a_chance', violation_error_message='The chance that a part was lost is a number from 0 to 1.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.CheckConstraint(condition=models.Q(('gain__gte', 0), ('gain__lte', 1)), name='feature_gain_is_a_chance', violation_error_message='The chance that a part was added is a number from 0 to 1.'),
            ),
            migrations.AddConstraint(
                model_name='feature',
                constraint=models.CheckConstraint(condition=models.Q(('parent__isnull', True), models.Q(('parent', models.F('id')), _negated=True), _connector='OR'), name='feature_is_not_its_own_parent', violation_error_message='A feature is no detail of itself.'),
            ),
            migrations.AddConstraint(
                model_name='featureplace',
                constraint=models.UniqueConstraint(fields=('feature', 'garment_type', 'view', 'region'), name='place_stands_once_in_its_type'),
            ),
            migrations.AddConstraint(
                model_name='featureplace',
                constraint=models.UniqueConstraint(condition=models.Q(('garment_type__isnull', True)), fields=('feature', 'view', 'region'), name='place_stands_once_for_all_types', violation_error_message='This place stands here already for all types.'),
            ),
            migrations.AddConstraint(
                model_name='hiddenname',
                constraint=models.CheckConstraint(condition=models.Q(('place__in', ['text', 'photograph'])), name='hiddenname_place_is_known', violation_error_message='The place is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='hiddenname',
                constraint=models.CheckConstraint(condition=models.Q(('on_request', False), ('name', ''), _connector='OR'), name='name_removed_on_request_is_kept_nowhere'),
            ),
            migrations.AddConstraint(
                model_name='invitation',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('used_at__isnull', True), ('used_by__isnull', True)), models.Q(('revoked_at__isnull', True), ('used_at__isnull', False), ('used_by__isnull', False)), _connector='OR'), name='invitation_used_by_one_and_not_revoked'),
            ),
            migrations.AddConstraint(
                model_name='invitation',
                constraint=models.CheckConstraint(condition=models.Q(('expires_at__gt', models.F('made_at'))), name='invitation_lasts_a_while'),
            ),
            migrations.AddConstraint(
                model_name='issuer',
                constraint=models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='issuer_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.'),
            ),
            migrations.AddConstraint(
                model_name='holding',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('garment_type__isnull', True), ('version__isnull', False)), models.Q(('garment_type__isnull', False), ('version__isnull', True)), _connector='OR'), name='holding_of_a_version_or_a_type'),
            ),
            migrations.AddConstraint(
                model_name='holding',
                constraint=models.CheckConstraint(condition=models.Q(('number__gte', 1), ('number__lte', 999)), name='holding_of_one_or_more'),
            ),
            migrations.AddIndex(
                model_name='followedpiece',
                index=models.Index(fields=['settled_at'], name='catalogue_f_settled_90c7bf_idx'),
            ),
            migrations.AddConstraint(
                model_name='followedpiece',
                constraint=models.UniqueConstraint(fields=('decision', 'example'), name='piece_follows_a_decision_once'),
            ),
            migrations.AddConstraint(
                model_name='followedpiece',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('settled_at__isnull', True), ('settled_by__isnull', True)), models.Q(('settled_at__isnull', False), ('settled_by__isnull', False), models.Q(('doubt', ''), _negated=True)), _connector='OR'), name='only_a_doubt_is_settled_by_somebody'),
            ),
            migrations.AddConstraint(
                model_name='followedpiece',
                constraint=models.CheckConstraint(condition=models.Q(('attribution__isnull', False), models.Q(('before', models.F('after')), models.Q(('doubt', ''), _negated=True)), _connector='OR'), name='piece_that_followed_moved_or_is_doubtful'),
            ),
            migrations.AddConstraint(
                model_name='exampledecision',
                constraint=models.CheckConstraint(condition=models.Q(('decision__in', ['accepted', 'returned', 'declined', 'attributed_anew', 'reopened'])), name='exampledecision_decision_is_known', violation_error_message='The decision is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='exampledecision',
                constraint=models.CheckConstraint(condition=models.Q(('moderator', models.F('owner')), _negated=True), name='nobody_decides_on_their_own_example'),
            ),
            migrations.AddConstraint(
                model_name='exampledecision',
                constraint=models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='example_decision_has_a_reason'),
            ),
            migrations.AddConstraint(
                model_name='exampledecision',
                constraint=models.CheckConstraint(condition=models.Q(('held_as__isnull', True), ('decision__in', ['accepted', 'attributed_anew']), _connector='OR'), name='only_a_keeping_decision_names_a_version'),
            ),
            migrations.AddConstraint(
                model_name='exampledecision',
                constraint=models.UniqueConstraint(condition=models.Q(('decision__in', ['accepted', 'returned', 'declined'])), fields=('example', 'sending'), name='one_answer_to_each_sending_of_an_example'),
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
            migrations.AddIndex(
                model_name='attribution',
                index=models.Index(fields=['example', 'made_at'], name='catalogue_a_example_9b3c6e_idx'),
            ),
            migrations.AddConstraint(
                model_name='attribution',
                constraint=models.CheckConstraint(condition=models.Q(('by__in', ['member', 'society', 'engine'])), name='attribution_by_is_known', violation_error_message='The by is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='attribution',
                constraint=models.CheckConstraint(condition=models.Q(('held__in', ['version', 'not_in_reference', 'cannot_say'])), name='attribution_held_is_known', violation_error_message='The held is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='attribution',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('held', 'version'), ('version__isnull', False)), models.Q(models.Q(('held', 'version'), _negated=True), ('version__isnull', True)), _connector='OR'), name='attribution_names_a_version_or_says_why_not'),
            ),
            migrations.AddConstraint(
                model_name='attribution',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('by', 'engine'), ('member__isnull', True)), models.Q(models.Q(('by', 'engine'), _negated=True), ('chance__isnull', True), ('member__isnull', False)), _connector='OR'), name='attribution_is_by_somebody'),
            ),
            migrations.AddConstraint(
                model_name='attribution',
                constraint=models.CheckConstraint(condition=models.Q(('chance__isnull', True), models.Q(('chance__gte', 0), ('chance__lte', 1)), _connector='OR'), name='attribution_chance_is_a_chance'),
            ),
            migrations.AddConstraint(
                model_name='attribution',
                constraint=models.CheckConstraint(condition=models.Q(('grounds', ''), _negated=True), name='attribution_has_grounds'),
            ),
            migrations.AddConstraint(
                model_name='joinrequest',
                constraint=models.UniqueConstraint(condition=models.Q(('state', 'waiting')), fields=('member',), name='one_waiting_request_for_each_person'),
            ),
            migrations.AddConstraint(
                model_name='joinrequest',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('decided_at__isnull', True), ('decided_by__isnull', True), ('state__in', ['waiting', 'withdrawn'])), models.Q(('decided_at__isnull', False), ('decided_by__isnull', False), ('state', 'admitted')), models.Q(('decided_at__isnull', False), ('decided_by__isnull', False), ('state', 'declined'), models.Q(('reason', ''), _negated=True)), _connector='OR'), name='join_request_is_decided_by_somebody'),
            ),
            migrations.AddConstraint(
                model_name='joinrequest',
                constraint=models.CheckConstraint(condition=models.Q(('decided_by__isnull', True), models.Q(('decided_by', models.F('member')), _negated=True), _connector='OR'), name='join_request_is_decided_by_somebody_else'),
            ),
            migrations.AddConstraint(
                model_name='kepthistories',
                constraint=models.CheckConstraint(condition=models.Q(('state__regex', '^[0-9a-f]{64}$')), name='histories_state_is_a_digest'),
            ),
            migrations.AddConstraint(
                model_name='keptoutofset',
                constraint=models.UniqueConstraint(fields=('example_set', 'example'), name='piece_is_kept_out_of_a_set_once'),
            ),
            migrations.AddConstraint(
                model_name='label',
                constraint=models.CheckConstraint(condition=models.Q(('kind__in', ['main', 'size', 'contract', 'treatment', 'care', 'stamp', 'property_mark', 'other'])), name='label_kind_is_known', violation_error_message='The kind is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='label',
                constraint=models.CheckConstraint(condition=models.Q(('attachment__in', ['not_known', 'sewn', 'ink', 'written', 'glued', 'loose'])), name='label_attachment_is_known', violation_error_message='The attachment is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='label',
                constraint=models.CheckConstraint(condition=models.Q(('origin__in', ['not_known', 'original', 'added', 'trace'])), name='label_origin_is_known', violation_error_message='The origin is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='label',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('text', ''), _negated=True), models.Q(('remark', ''), _negated=True), ('origin', 'trace'), _connector='OR'), name='label_says_something'),
            ),
            migrations.AddConstraint(
                model_name='leave',
                constraint=models.CheckConstraint(condition=models.Q(('ends__gte', models.F('begins'))), name='leave_ends_after_it_begins'),
            ),
            migrations.AddConstraint(
                model_name='leave',
                constraint=models.CheckConstraint(condition=models.Q(('moderator', models.F('deputy')), _negated=True), name='deputy_is_somebody_else'),
            ),
            migrations.AddConstraint(
                model_name='mailwish',
                constraint=models.CheckConstraint(condition=models.Q(('how__in', ['at_once', 'daily', 'weekly'])), name='mailwish_how_is_known', violation_error_message='The how is none of the words that the society uses.'),
            ),
            migrations.AddIndex(
                model_name='example',
                index=models.Index(fields=['state', 'submitted_at'], name='catalogue_e_state_065029_idx'),
            ),
            migrations.AddIndex(
                model_name='example',
                index=models.Index(fields=['held_as', 'state'], name='catalogue_e_held_as_dcecf1_idx'),
            ),
            migrations.AddIndex(
                model_name='example',
                index=models.Index(fields=['garment_type', 'state'], name='catalogue_e_garment_ef764e_idx'),
            ),
            migrations.AddConstraint(
                model_name='example',
                constraint=models.CheckConstraint(condition=models.Q(('state__in', ['draft', 'submitted', 'returned', 'accepted', 'declined', 'withdrawn'])), name='example_state_is_known', violation_error_message='The state is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='example',
                constraint=models.CheckConstraint(condition=models.Q(('condition__in', ['unissued', 'very_good', 'good', 'worn', 'poor', ''])), name='example_condition_is_known', violation_error_message='The condition is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='example',
                constraint=models.CheckConstraint(condition=models.Q(('name_on_label__in', ['not_looked', 'none', 'masked', 'to_mask'])), name='example_name_on_label_is_known', violation_error_message='The name on label is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='example',
                constraint=models.CheckConstraint(condition=models.Q(('held_as__isnull', True), ('state', 'accepted'), _connector='OR'), name='only_an_accepted_example_is_held_as_a_version'),
            ),
            migrations.AddConstraint(
                model_name='example',
                constraint=models.CheckConstraint(condition=models.Q(('garment_type__isnull', False), models.Q(('state', 'accepted'), _negated=True), _connector='OR'), name='accepted_example_has_a_garment_type'),
            ),
            migrations.AddConstraint(
                model_name='example',
                constraint=models.CheckConstraint(condition=models.Q(('state', 'draft'), models.Q(('submitted_at__isnull', False), ('times_sent__gte', 1)), _connector='OR'), name='example_that_left_its_owner_was_sent'),
            ),
            migrations.AddConstraint(
                model_name='example',
                constraint=models.CheckConstraint(condition=models.Q(('label_year__isnull', True), models.Q(('label_year__gte', 1700), ('label_year__lte', 2200)), _connector='OR'), name='example_label_year_is_a_year'),
            ),
            migrations.AddConstraint(
                model_name='markedphotograph',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('feature__isnull', False), ('state__isnull', True)), models.Q(('feature__isnull', True), ('state__isnull', False)), _connector='OR'), name='marked_photograph_shows_a_feature_or_a_state'),
            ),
            migrations.AddConstraint(
                model_name='markedphotograph',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('close_key', ''), ('radius__isnull', True), ('x__isnull', True), ('y__isnull', True)), models.Q(('close_key__regex', '^[0-9a-f]{32}$'), ('radius__gte', 0.01), ('radius__lte', 0.5), ('x__gte', 0), ('x__lte', 1), ('y__gte', 0), ('y__lte', 1)), _connector='OR'), name='marked_photograph_spot_lies_on_it'),
            ),
            migrations.AddConstraint(
                model_name='markedphotograph',
                constraint=models.CheckConstraint(condition=models.Q(('height__gte', 1), ('width__gte', 1)), name='marked_photograph_has_a_size'),
            ),
            migrations.AddConstraint(
                model_name='markedphotograph',
                constraint=models.CheckConstraint(condition=models.Q(('key__regex', '^[0-9a-f]{32}$'), ('sha256__regex', '^[0-9a-f]{64}$')), name='marked_photograph_has_its_files'),
            ),
            migrations.AddConstraint(
                model_name='markedphotograph',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('shows', ''), _negated=True), models.Q(('credit', ''), _negated=True)), name='marked_photograph_says_what_it_shows_and_whose_it_is'),
            ),
            migrations.AddConstraint(
                model_name='measurement',
                constraint=models.CheckConstraint(condition=models.Q(('what__in', ['pit_to_pit', 'back_length', 'sleeve', 'shoulder', 'waist', 'inside_leg', 'rise', 'hem', 'head', 'brim'])), name='measurement_what_is_known', violation_error_message='The what is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='measurement',
                constraint=models.CheckConstraint(condition=models.Q(('mm__gte', 1), ('mm__lte', 3000)), name='measurement_is_a_length'),
            ),
            migrations.AddConstraint(
                model_name='measurement',
                constraint=models.UniqueConstraint(fields=('example', 'what', 'by'), name='person_measures_a_length_once'),
            ),
            migrations.AddConstraint(
                model_name='measurement',
                constraint=models.UniqueConstraint(condition=models.Q(('by__isnull', True)), fields=('example', 'what'), name='length_by_nobody_stands_once'),
            ),
            migrations.AddConstraint(
                model_name='namerequest',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('settled_at__isnull', True), ('settled_by__isnull', True), models.Q(('words', ''), _negated=True)), models.Q(('settled_at__isnull', False), ('settled_by__isnull', False), ('words', '')), _connector='OR'), name='settled_request_keeps_no_words'),
            ),
            migrations.AddConstraint(
                model_name='namerequest',
                constraint=models.UniqueConstraint(condition=models.Q(('settled_at__isnull', True)), fields=('example', 'by'), name='person_asks_once_for_a_name_of_a_piece'),
            ),
            migrations.AddIndex(
                model_name='observation',
                index=models.Index(fields=['example', 'feature', 'observer'], name='catalogue_o_example_736767_idx'),
            ),
            migrations.AddIndex(
                model_name='observation',
                index=models.Index(fields=['state', 'example'], name='catalogue_o_state_i_46ae0e_idx'),
            ),
            migrations.AddConstraint(
                model_name='observation',
                constraint=models.CheckConstraint(condition=models.Q(('answer__in', ['seen', 'cannot_tell', 'part_missing', 'altered', 'no_such_part'])), name='observation_answer_is_known', violation_error_message='The answer is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='observation',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('answer', 'seen'), models.Q(('state__isnull', False), ('value__isnull', False), _connector='OR')), models.Q(models.Q(('answer', 'seen'), _negated=True), ('state__isnull', True), ('value__isnull', True)), _connector='OR'), name='observation_names_what_was_seen'),
            ),
            migrations.AddConstraint(
                model_name='observation',
                constraint=models.CheckConstraint(condition=models.Q(('value__isnull', True), ('value__gte', 0), _connector='OR'), name='observed_value_is_not_negative'),
            ),
            migrations.AddConstraint(
                model_name='openquestion',
                constraint=models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='openquestion_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.'),
            ),
            migrations.AddConstraint(
                model_name='ownsilhouette',
                constraint=models.CheckConstraint(condition=models.Q(('view__in', ['front', 'back', 'inside', 'sleeve_left', 'sleeve_right', 'hood', 'label', 'side_left', 'top', 'palm', 'cuff', 'flap', 'strap'])), name='ownsilhouette_view_is_known', violation_error_message='The view is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='ownsilhouette',
                constraint=models.UniqueConstraint(fields=('garment_type', 'view'), name='silhouette_stands_once_in_its_view'),
            ),
            migrations.AddConstraint(
                model_name='photograph',
                constraint=models.CheckConstraint(condition=models.Q(('view__in', ['front', 'back', 'side', 'top', 'palm', 'inside', 'neck_inside', 'waistband_inside', 'crown_inside', 'sweatband', 'main_label', 'label_back', 'size_label', 'treatment_label', 'property_mark', 'closure', 'fly', 'button', 'cuff', 'glove_cuff', 'leg_end', 'pocket', 'flap', 'strap', 'seam', 'weave', 'print_repeat', 'daylight', 'defect', 'set', 'other'])), name='photograph_view_is_known', violation_error_message='The view is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='photograph',
                constraint=models.CheckConstraint(condition=models.Q(('height__gte', 1), ('width__gte', 1)), name='photograph_has_a_size'),
            ),
            migrations.AddConstraint(
                model_name='photograph',
                constraint=models.CheckConstraint(condition=models.Q(('sha256__regex', '^[0-9a-f]{64}$')), name='photograph_sha256_is_a_digest'),
            ),
            migrations.AddConstraint(
                model_name='photograph',
                constraint=models.UniqueConstraint(fields=('example', 'sha256'), name='picture_stands_once_in_its_example'),
            ),
            migrations.AddConstraint(
                model_name='pieceword',
                constraint=models.CheckConstraint(condition=models.Q(('text', ''), _negated=True), name='word_of_a_thread_says_something'),
            ),
            migrations.AddConstraint(
                model_name='proposalword',
                constraint=models.CheckConstraint(condition=models.Q(('text', ''), _negated=True), name='word_on_a_proposal_says_something'),
            ),
            migrations.AddConstraint(
                model_name='queuelook',
                constraint=models.CheckConstraint(condition=models.Q(('last__gte', models.F('since'))), name='look_ends_after_it_began'),
            ),
            migrations.AddConstraint(
                model_name='referenceimport',
                constraint=models.CheckConstraint(condition=models.Q(('because', ''), _negated=True), name='import_says_why'),
            ),
            migrations.AddConstraint(
                model_name='rolechange',
                constraint=models.CheckConstraint(condition=models.Q(('before', models.F('after')), _negated=True), name='role_change_changes'),
            ),
            migrations.AddConstraint(
                model_name='rolechange',
                constraint=models.CheckConstraint(condition=models.Q(('member', models.F('by')), _negated=True), name='role_is_given_by_somebody_else'),
            ),
            migrations.AddConstraint(
                model_name='rolechange',
                constraint=models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='role_change_has_a_reason'),
            ),
            migrations.AddConstraint(
                model_name='shadepair',
                constraint=models.CheckConstraint(condition=models.Q(('protected__in', ['same', 'deeper', 'paler', 'other', 'cannot_tell', ''])), name='shadepair_protected_is_known', violation_error_message='The protected is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='shadepair',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('exposed_a__isnull', False), ('exposed_b__isnull', False), ('exposed_l__isnull', False), ('protected_a__isnull', False), ('protected_b__isnull', False), ('protected_l__isnull', False)), models.Q(('exposed_a__isnull', True), ('exposed_b__isnull', True), ('exposed_l__isnull', True), ('protected_a__isnull', True), ('protected_b__isnull', True), ('protected_l__isnull', True)), _connector='OR'), name='both_places_are_measured_or_neither', violation_error_message='Give all three figures of both places, or none.'),
            ),
            migrations.AddConstraint(
                model_name='shadepair',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('exposed_a__isnull', True), ('exposed_b__isnull', True), ('exposed_l__isnull', True), ('protected_a__isnull', True), ('protected_b__isnull', True), ('protected_l__isnull', True)), models.Q(('exposed_a__range', (-128, 128)), ('exposed_b__range', (-128, 128)), ('exposed_l__range', (0, 100)), ('protected_a__range', (-128, 128)), ('protected_b__range', (-128, 128)), ('protected_l__range', (0, 100))), _connector='OR'), name='measured_shade_is_in_cielab', violation_error_message='L is from 0 to 100, a and b from -128 to 128.'),
            ),
            migrations.AddConstraint(
                model_name='shadepair',
                constraint=models.CheckConstraint(condition=models.Q(('exposed__isnull', False), models.Q(('protected', ''), _negated=True), models.Q(('exposed_a__isnull', False), ('exposed_b__isnull', False), ('exposed_l__isnull', False), ('protected_a__isnull', False), ('protected_b__isnull', False), ('protected_l__isnull', False)), _connector='OR'), name='shade_pair_says_something'),
            ),
            migrations.AddConstraint(
                model_name='sizelength',
                constraint=models.CheckConstraint(condition=models.Q(('what__in', ['pit_to_pit', 'back_length', 'sleeve', 'shoulder', 'waist', 'inside_leg', 'rise', 'hem', 'head', 'brim'])), name='sizelength_what_is_known', violation_error_message='The what is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='sizelength',
                constraint=models.CheckConstraint(condition=models.Q(('mm__gte', 1), ('mm__lte', 3000)), name='size_length_is_a_length', violation_error_message='A length is from 1 to 3000 mm.'),
            ),
            migrations.AddConstraint(
                model_name='sizelength',
                constraint=models.CheckConstraint(condition=models.Q(('mark', ''), _negated=True), name='size_length_has_a_mark', violation_error_message='Say for which size mark.'),
            ),
            migrations.AddConstraint(
                model_name='sizelength',
                constraint=models.UniqueConstraint(models.F('version'), django.db.models.functions.text.Lower(django.db.models.functions.text.Replace('mark', models.Value(' '), models.Value(''))), models.F('what'), name='length_of_a_mark_stands_once', violation_error_message='This mark has this length already; capitals and spaces make no other mark.'),
            ),
            migrations.AddConstraint(
                model_name='questionview',
                constraint=models.UniqueConstraint(fields=('question', 'letter'), name='view_letter_stands_once'),
            ),
            migrations.AddConstraint(
                model_name='questionview',
                constraint=models.CheckConstraint(condition=models.Q(('taken_out', ''), ('stands', False), _connector='OR'), name='view_that_stands_is_not_taken_out'),
            ),
            migrations.AddConstraint(
                model_name='questionview',
                constraint=models.UniqueConstraint(condition=models.Q(('stands', True)), fields=('question',), name='one_view_of_a_question_stands', violation_error_message='Another view of this question stands already; a question is settled for one.'),
            ),
            migrations.AddConstraint(
                model_name='sourceaddition',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('reason', ''), ('taken_back_at__isnull', True), ('taken_back_by__isnull', True)), models.Q(('source__isnull', True), ('taken_back_at__isnull', False), ('taken_back_by__isnull', False), models.Q(('reason', ''), _negated=True)), _connector='OR'), name='source_taken_back_is_gone_and_says_why'),
            ),
            migrations.AddConstraint(
                model_name='sourcescan',
                constraint=models.CheckConstraint(condition=models.Q(('names', ''), ('names__in', ['none', 'masked', 'to_mask']), _connector='OR'), name='scan_names_are_known'),
            ),
            migrations.AddConstraint(
                model_name='sourcescan',
                constraint=models.CheckConstraint(condition=models.Q(('height__gte', 1), ('width__gte', 1)), name='scan_has_a_size'),
            ),
            migrations.AddConstraint(
                model_name='sourcescan',
                constraint=models.CheckConstraint(condition=models.Q(('key', ''), ('key__regex', '^[0-9a-f]{32}$'), _connector='OR'), name='scan_has_its_files_or_none'),
            ),
            migrations.AddConstraint(
                model_name='sourcescan',
                constraint=models.CheckConstraint(condition=models.Q(('sha256__regex', '^[0-9a-f]{64}$')), name='scan_sha256_is_a_digest'),
            ),
            migrations.AddConstraint(
                model_name='sourcescan',
                constraint=models.CheckConstraint(condition=models.Q(('shown', False), models.Q(models.Q(('key', ''), _negated=True), models.Q(('shows', ''), _negated=True), models.Q(('credit', ''), _negated=True), ('names__in', ['none', 'masked'])), _connector='OR'), name='scan_that_is_shown_says_what_and_whose_and_hides_names'),
            ),
            migrations.AddConstraint(
                model_name='sourcescan',
                constraint=models.UniqueConstraint(condition=models.Q(('key', ''), _negated=True), fields=('source', 'sha256'), name='picture_stands_once_at_its_source'),
            ),
            migrations.AddConstraint(
                model_name='stocknumber',
                constraint=models.UniqueConstraint(fields=('number', 'version'), name='number_stands_once_in_its_version'),
            ),
            migrations.AddConstraint(
                model_name='stocknumber',
                constraint=models.CheckConstraint(condition=models.Q(('first_year__isnull', True), ('last_year__isnull', True), ('first_year__lte', models.F('last_year')), _connector='OR'), name='number_years_run_upward', violation_error_message='The last year on labels lies before the first.'),
            ),
            migrations.AddConstraint(
                model_name='citation',
                constraint=models.CheckConstraint(condition=models.Q(('stance__in', ['supports', 'contradicts'])), name='citation_stance_is_known', violation_error_message='The stance is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='citation',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('cell__isnull', True), ('companion__isnull', True), ('issuer__isnull', True), ('stock_number__isnull', True), ('version__isnull', False)), models.Q(('cell__isnull', False), ('companion__isnull', True), ('issuer__isnull', True), ('stock_number__isnull', True), ('version__isnull', True)), models.Q(('cell__isnull', True), ('companion__isnull', True), ('issuer__isnull', True), ('stock_number__isnull', False), ('version__isnull', True)), models.Q(('cell__isnull', True), ('companion__isnull', True), ('issuer__isnull', False), ('stock_number__isnull', True), ('version__isnull', True)), models.Q(('cell__isnull', True), ('companion__isnull', False), ('issuer__isnull', True), ('stock_number__isnull', True), ('version__isnull', True)), _connector='OR'), name='citation_has_one_claim', violation_error_message='A citation speaks of one thing: a version, cell, number, issuer or pair.'),
            ),
            migrations.AddConstraint(
                model_name='citation',
                constraint=models.UniqueConstraint(condition=models.Q(('version__isnull', False)), fields=('source', 'version'), name='source_is_cited_once_for_a_version', violation_error_message='This source stands here already; one source is cited once for one claim.'),
            ),
            migrations.AddConstraint(
                model_name='citation',
                constraint=models.UniqueConstraint(condition=models.Q(('cell__isnull', False)), fields=('source', 'cell'), name='source_is_cited_once_for_a_cell', violation_error_message='This source stands here already; one source is cited once for one claim.'),
            ),
            migrations.AddConstraint(
                model_name='citation',
                constraint=models.UniqueConstraint(condition=models.Q(('stock_number__isnull', False)), fields=('source', 'stock_number'), name='source_is_cited_once_for_a_stock_number', violation_error_message='This source stands here already; one source is cited once for one claim.'),
            ),
            migrations.AddConstraint(
                model_name='citation',
                constraint=models.UniqueConstraint(condition=models.Q(('issuer__isnull', False)), fields=('source', 'issuer'), name='source_is_cited_once_for_a_issuer', violation_error_message='This source stands here already; one source is cited once for one claim.'),
            ),
            migrations.AddConstraint(
                model_name='citation',
                constraint=models.UniqueConstraint(condition=models.Q(('companion__isnull', False)), fields=('source', 'companion'), name='source_is_cited_once_for_a_companion', violation_error_message='This source stands here already; one source is cited once for one claim.'),
            ),
            migrations.AddConstraint(
                model_name='typefeature',
                constraint=models.UniqueConstraint(fields=('garment_type', 'feature'), name='feature_stands_once_in_its_type'),
            ),
            migrations.AddConstraint(
                model_name='garmenttype',
                constraint=models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='garmenttype_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.'),
            ),
            migrations.AddConstraint(
                model_name='typehealth',
                constraint=models.CheckConstraint(condition=models.Q(('state__regex', '^[0-9a-f]{64}$')), name='health_state_is_a_digest'),
            ),
            migrations.AddConstraint(
                model_name='typename',
                constraint=models.UniqueConstraint(fields=('garment_type', 'name'), name='type_name_stands_once'),
            ),
            migrations.AddConstraint(
                model_name='versionancestor',
                constraint=models.CheckConstraint(condition=models.Q(('role__in', ['continues', 'made_from'])), name='versionancestor_role_is_known', violation_error_message='The role is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='versionancestor',
                constraint=models.UniqueConstraint(fields=('version', 'ancestor', 'role'), name='ancestor_stands_once'),
            ),
            migrations.AddConstraint(
                model_name='versionancestor',
                constraint=models.CheckConstraint(condition=models.Q(('version', models.F('ancestor')), _negated=True), name='version_is_not_its_own_ancestor', violation_error_message='A version does not descend from itself.'),
            ),
            migrations.AddConstraint(
                model_name='versionname',
                constraint=models.CheckConstraint(condition=models.Q(('used_by__in', ['members', 'sellers'])), name='versionname_used_by_is_known', violation_error_message='The used by is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='versionname',
                constraint=models.UniqueConstraint(fields=('version', 'name'), name='version_name_stands_once'),
            ),
            migrations.AddConstraint(
                model_name='versionrecord',
                constraint=models.CheckConstraint(condition=models.Q(('standing__in', ['imported', 'written', 'approved'])), name='record_standing_is_known'),
            ),
            migrations.AddConstraint(
                model_name='versionrecord',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('standing', 'written'), _negated=True), models.Q(('written_by__isnull', False), models.Q(('why', ''), _negated=True)), _connector='OR'), name='written_record_says_who_and_why', violation_error_message='A record written by hand says who wrote it and why.'),
            ),
            migrations.AddConstraint(
                model_name='versionrecord',
                constraint=models.UniqueConstraint(fields=('version', 'number'), name='record_number_stands_once'),
            ),
            migrations.AddConstraint(
                model_name='recordseal',
                constraint=models.CheckConstraint(condition=models.Q(('number__gte', 1)), name='seal_number_begins_at_1'),
            ),
            migrations.AddConstraint(
                model_name='recordseal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('number', 1), ('previous', '')), models.Q(('number__gt', 1), ('previous__regex', '^[0-9a-f]{64}$')), _connector='OR'), name='seal_names_the_one_before'),
            ),
            migrations.AddConstraint(
                model_name='recordseal',
                constraint=models.CheckConstraint(condition=models.Q(('digest__regex', '^[0-9a-f]{64}$')), name='seal_digest_is_a_digest'),
            ),
            migrations.AddConstraint(
                model_name='recordlook',
                constraint=models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='look_has_a_reason'),
            ),
            migrations.AddConstraint(
                model_name='recordlook',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('passed', True), ('turn', 1)), ('turn__gt', 1), _connector='OR'), name='first_look_passes'),
            ),
            migrations.AddConstraint(
                model_name='recordlook',
                constraint=models.UniqueConstraint(fields=('record', 'turn'), name='look_is_one_of_its_turn'),
            ),
            migrations.AddIndex(
                model_name='proposal',
                index=models.Index(fields=['state', 'sent_at'], name='catalogue_p_state_772fd7_idx'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(('kind__in', ['change', 'new', 'retire', 'merge', 'split', 'feature', 'question', 'scan', 'backing'])), name='proposal_kind_is_known'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(('state__in', ['draft', 'open', 'returned', 'approved', 'declined', 'withdrawn', 'revoked'])), name='proposal_state_is_known'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(('weight__in', ['small', 'weighty'])), name='proposal_weight_is_known'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(('kind__in', ['new', 'feature', 'question', 'scan', 'backing']), ('version__isnull', False), _connector='OR'), name='proposal_changes_a_version_that_is_there'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'merge'), ('other__isnull', False), models.Q(('other', models.F('version')), _negated=True)), models.Q(models.Q(('kind', 'merge'), _negated=True), ('other__isnull', True)), _connector='OR'), name='merge_names_another_version_that_goes'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'split'), models.Q(('new_code', ''), _negated=True), models.Q(('second_code', ''), _negated=True), models.Q(('new_code', models.F('second_code')), _negated=True)), models.Q(models.Q(('kind', 'split'), _negated=True), ('second_code', '')), _connector='OR'), name='split_names_two_versions_that_it_makes'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(('state', 'draft'), models.Q(('sent_at__isnull', False), ('times_sent__gte', 1), models.Q(('grounds', ''), _negated=True)), _connector='OR'), name='proposal_that_was_sent_has_grounds'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'new'), ('state__in', ['approved', 'revoked']), _negated=True), ('version__isnull', False), _connector='OR'), name='approved_new_version_is_there'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'feature'), ('version__isnull', True), models.Q(('feature__isnull', False), models.Q(('new_code', ''), _negated=True), _connector='OR')), models.Q(models.Q(('kind', 'feature'), _negated=True), ('feature__isnull', True)), _connector='OR'), name='proposal_is_about_a_version_or_a_feature'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'question'), ('question__isnull', False), ('version__isnull', True)), models.Q(models.Q(('kind', 'question'), _negated=True), ('question__isnull', True)), _connector='OR'), name='proposal_on_a_question_names_it'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'backing'), ('version__isnull', True), models.Q(('backing', ''), _negated=True), models.Q(('backing_code', ''), _negated=True)), models.Q(models.Q(('kind', 'backing'), _negated=True), ('backing', ''), ('backing_code', '')), _connector='OR'), name='proposal_on_what_versions_rest_on_names_it'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'scan'), ('scan__isnull', False), ('version__isnull', True)), models.Q(models.Q(('kind', 'scan'), _negated=True), ('scan__isnull', True)), _connector='OR'), name='proposal_of_a_scan_names_it'),
            ),
            migrations.AddConstraint(
                model_name='proposal',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'feature'), ('state__in', ['approved', 'revoked']), _negated=True), ('feature__isnull', False), _connector='OR'), name='approved_new_feature_is_there'),
            ),
            migrations.AddConstraint(
                model_name='profilecell',
                constraint=models.CheckConstraint(condition=models.Q(('how_often__in', ['always', 'usually', 'sometimes', 'seldom'])), name='profilecell_how_often_is_known', violation_error_message='The how often is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='profilecell',
                constraint=models.CheckConstraint(condition=models.Q(('share__isnull', True), models.Q(('share__gt', 0), ('share__lte', 1)), _connector='OR'), name='cell_share_is_a_share', violation_error_message='A counted share is a number above 0 and up to 1; 0.3 is three in ten.'),
            ),
            migrations.AddConstraint(
                model_name='profilecell',
                constraint=models.CheckConstraint(condition=models.Q(('certainty__in', ['documented', 'observed', 'inferred', ''])), name='profilecell_certainty_is_known', violation_error_message='The certainty is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='profilecell',
                constraint=models.UniqueConstraint(fields=('record', 'state'), name='state_stands_once_in_its_record'),
            ),
            migrations.AddConstraint(
                model_name='profilecell',
                constraint=models.CheckConstraint(condition=models.Q(('first_year__isnull', True), ('last_year__isnull', True), ('first_year__lte', models.F('last_year')), _connector='OR'), name='cell_years_run_upward', violation_error_message='The last year lies before the first.'),
            ),
            migrations.AddIndex(
                model_name='issueversion',
                index=models.Index(fields=['kind'], name='catalogue_i_kind_e78334_idx'),
            ),
            migrations.AddIndex(
                model_name='issueversion',
                index=models.Index(fields=['from_year', 'to_year'], name='catalogue_i_from_ye_b3822a_idx'),
            ),
            migrations.AddConstraint(
                model_name='issueversion',
                constraint=models.UniqueConstraint(django.db.models.functions.text.Lower('code'), name='issueversion_codes_apart', violation_error_message='There is %(code)s already; a code stands once, whatever its capitals.'),
            ),
            migrations.AddConstraint(
                model_name='issueversion',
                constraint=models.CheckConstraint(condition=models.Q(('kind__in', ['issue', 'trial', 'transitional', 'depot_modification', 'conversion', 'commercial_copy', 'reproduction', 'unplaced'])), name='issueversion_kind_is_known', violation_error_message='The kind is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='issueversion',
                constraint=models.CheckConstraint(condition=models.Q(('certainty__in', ['documented', 'observed', 'inferred'])), name='issueversion_certainty_is_known', violation_error_message='The certainty is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='issueversion',
                constraint=models.CheckConstraint(condition=models.Q(('hazard_kind__in', ['do_not_open', 'treated', 'old_insecticide', 'sticky', 'unknown_finish', ''])), name='issueversion_hazard_kind_is_known', violation_error_message='The hazard kind is none of the words that the society uses.'),
            ),
            migrations.AddConstraint(
                model_name='issueversion',
                constraint=models.CheckConstraint(condition=models.Q(('rarity__gte', 1), ('rarity__lte', 5)), name='version_rarity_is_1_to_5', violation_error_message='The rarity is a whole number from 1, common, to 5, rare.'),
            ),
            migrations.AddConstraint(
                model_name='issueversion',
                constraint=models.CheckConstraint(condition=models.Q(('abundance__isnull', True), ('abundance__gte', 0), _connector='OR'), name='version_abundance_is_not_negative', violation_error_message='The abundance is a number from 0, or empty.'),
            ),
            migrations.AddConstraint(
                model_name='issueversion',
                constraint=models.CheckConstraint(condition=models.Q(('from_year__isnull', True), ('to_year__isnull', True), ('from_year__lte', models.F('to_year')), _connector='OR'), name='version_begins_before_it_ends', violation_error_message='The date ends before it begins.'),
            ),
            migrations.AddConstraint(
                model_name='decision',
                constraint=models.CheckConstraint(condition=models.Q(('kind__in', ['agreed', 'approved', 'returned', 'declined', 'undo_agreed', 'revoked'])), name='decision_kind_is_known'),
            ),
            migrations.AddConstraint(
                model_name='decision',
                constraint=models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='decision_has_a_reason'),
            ),
            migrations.AddConstraint(
                model_name='decision',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind__in', ['approved', 'revoked']), models.Q(models.Q(('feature_record__isnull', True), ('question__isnull', True), ('record__isnull', True), ('scan__isnull', True), models.Q(('backing', ''), _negated=True)), models.Q(('backing', ''), ('feature_record__isnull', True), ('question__isnull', True), ('record__isnull', False), ('scan__isnull', True)), models.Q(('backing', ''), ('feature_record__isnull', False), ('question__isnull', True), ('record__isnull', True), ('scan__isnull', True)), models.Q(('backing', ''), ('feature_record__isnull', True), ('question__isnull', False), ('record__isnull', True), ('scan__isnull', True)), models.Q(('backing', ''), ('feature_record__isnull', True), ('question__isnull', True), ('record__isnull', True), ('scan__isnull', False)), _connector='OR')), models.Q(models.Q(('kind__in', ['approved', 'revoked']), _negated=True), ('feature_record__isnull', True), ('question__isnull', True), ('record__isnull', True), ('scan__isnull', True), ('backing', '')), _connector='OR'), name='decision_that_changes_the_reference_names_its_record'),
            ),
            migrations.AddConstraint(
                model_name='decision',
                constraint=models.UniqueConstraint(fields=('proposal', 'by', 'kind', 'sending'), name='person_decides_once_on_a_sending'),
            ),
            migrations.AddConstraint(
                model_name='decision',
                constraint=models.UniqueConstraint(fields=('proposal', 'in_place_of', 'kind', 'sending'), name='place_is_taken_once_on_a_sending'),
            ),
            migrations.AddConstraint(
                model_name='decision',
                constraint=models.CheckConstraint(condition=models.Q(('in_place_of__isnull', True), models.Q(('in_place_of', models.F('by')), _negated=True), _connector='OR'), name='nobody_stands_in_for_themself'),
            ),
            migrations.AddConstraint(
                model_name='decision',
                constraint=models.UniqueConstraint(condition=models.Q(('kind', 'approved')), fields=('proposal',), name='proposal_is_approved_once'),
            ),
            migrations.AddConstraint(
                model_name='decision',
                constraint=models.UniqueConstraint(condition=models.Q(('kind', 'revoked')), fields=('proposal',), name='proposal_is_revoked_once'),
            ),
            migrations.AddConstraint(
                model_name='versionsuccessor',
                constraint=models.UniqueConstraint(fields=('version', 'successor'), name='successor_stands_once'),
            ),
            migrations.AddConstraint(
                model_name='versionsuccessor',
                constraint=models.CheckConstraint(condition=models.Q(('version', models.F('successor')), _negated=True), name='version_does_not_become_itself', violation_error_message='A version does not become itself.'),
            ),
            migrations.AddConstraint(
                model_name='viewdecision',
                constraint=models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='view_decision_has_a_reason'),
            ),
            migrations.AddConstraint(
                model_name='viewdecision',
                constraint=models.UniqueConstraint(fields=('view', 'turn'), name='view_decision_is_one_of_its_turn'),
            ),
            migrations.AddIndex(
                model_name='notice',
                index=models.Index(fields=['member', 'read_at'], name='catalogue_n_member__ac82ef_idx'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('alteration__isnull', True), ('decision__isnull', False), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', False)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', False), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', False), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', False), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', False), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', False), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', False), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', False), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', False), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', False), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', False), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', False), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', False), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', True), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', False), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), models.Q(('alteration__isnull', False), ('decision__isnull', True), ('joining__isnull', True), ('leave__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('reference_import__isnull', True), ('set_place__isnull', True), ('source_added__isnull', True), ('view__isnull', True), ('view_decision__isnull', True), ('word__isnull', True)), _connector='OR'), name='notice_tells_of_one_thing'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('sending__isnull', True), ('piece__isnull', True), ('proposal__isnull', True), ('view__isnull', True)), models.Q(models.Q(('piece__isnull', False), ('proposal__isnull', False), ('view__isnull', False), _connector='OR'), ('sending__isnull', False)), _connector='OR'), name='notice_of_what_is_sent_names_its_sending'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'proposal', 'sending'), name='person_is_told_once_of_a_sending_of_a_proposal'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'view', 'sending'), name='person_is_told_once_of_an_edition_of_a_view'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'piece', 'sending'), name='person_is_told_once_of_a_sending'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'joining'), name='person_is_told_once_of_a_request_to_join'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'name_request'), name='person_is_told_once_of_a_name_request'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'name_note'), name='person_is_told_once_of_a_name_removed'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'decision'), name='person_is_told_once_of_a_decision'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'word'), name='person_is_told_once_of_a_word'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'proposal_decision'), name='person_is_told_once_of_a_proposal_decision'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'proposal_word'), name='person_is_told_once_of_a_proposal_word'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'leave'), name='person_is_told_once_of_a_leave'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'set_place'), name='person_is_told_once_of_a_set_place'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'view_decision'), name='person_is_told_once_of_a_view_decision'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'reference_import'), name='person_is_told_once_of_a_reference_import'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'source_added'), name='person_is_told_once_of_a_source_added'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.UniqueConstraint(fields=('member', 'alteration'), name='person_is_told_once_of_a_alteration'),
            ),
            migrations.AddConstraint(
                model_name='notice',
                constraint=models.CheckConstraint(condition=models.Q(('read_at__isnull', True), ('read_at__gte', models.F('made_at')), _connector='OR'), name='notice_is_read_after_it_was_made'),
            ),
            migrations.AddConstraint(
                model_name='want',
                constraint=models.CheckConstraint(condition=models.Q(models.Q(('garment_type__isnull', True), ('version__isnull', False)), models.Q(('garment_type__isnull', False), ('version__isnull', True)), _connector='OR'), name='want_of_a_version_or_a_type'),
            ),
        ]),
        migrations.RunPython(guard, unguard),
        migrations.RunPython(make_cache_table, drop_cache_table),
    ]
