"""Migrations 0007 to 0014 in one, for sites that are new: a site that has begun them goes on with these.

What those did with rows that were there already is left out, since there are none.
"""

import catalogue.accounts.models.people
import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.core.management import call_command
from django.db import migrations, models

from catalogue.review.proposals import written_once
from catalogue.review.records import refusing


def make_cache_table(apps, schema_editor):
    """Where all processes of the site count failed attempts together."""
    call_command("createcachetable", database=schema_editor.connection.alias, verbosity=0)


def drop_cache_table(apps, schema_editor):
    schema_editor.execute("DROP TABLE IF EXISTS catalogue_cache")


class Migration(migrations.Migration):

    replaces = [('catalogue', '0007_members'), ('catalogue', '0008_submitting'), ('catalogue', '0009_examples_queue'), ('catalogue', '0010_sealed_records'), ('catalogue', '0011_names_asked_for_and_notices'), ('catalogue', '0012_alterations_added'), ('catalogue', '0013_proposals'), ('catalogue', '0014_health')]

    dependencies = [
        ('account', '0009_emailaddress_unique_primary_email'),
        ('catalogue', '0001_to_0006'),
    ]

    operations = [
        migrations.CreateModel(
            name='Holding',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('note', models.CharField(blank=True, default='', max_length=500)),
                ('is_shown', models.BooleanField(default=False, verbose_name='show it on my page')),
                ('number', models.PositiveSmallIntegerField(default=1, verbose_name='how many')),
                ('added_at', models.DateTimeField(default=django.utils.timezone.now)),
            ],
            options={
                'ordering': ['pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('number__gte', 1), ('number__lte', 999)), name='holding_of_one_or_more')],
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
            ],
            options={
                'ordering': ['-made_at', '-pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('expires_at__gt', models.F('made_at'))), name='invitation_lasts_a_while')],
            },
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
            ],
            options={
                'ordering': ['-made_at', '-pk'],
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
            ],
            options={
                'ordering': ['-at', '-pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('before', models.F('after')), _negated=True), name='role_change_changes'), models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='role_change_has_a_reason')],
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
            ],
            options={
                'ordering': ['pk'],
            },
        ),
        migrations.AlterModelManagers(
            name='member',
            managers=[
                ('objects', catalogue.accounts.models.people.MemberManager()),
            ],
        ),
        migrations.AddField(
            model_name='member',
            name='about',
            field=models.TextField(blank=True, default='', max_length=1000),
        ),
        migrations.AddField(
            model_name='member',
            name='admitted_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='member',
            name='former_number',
            field=models.PositiveIntegerField(blank=True, null=True, unique=True),
        ),
        migrations.AddField(
            model_name='member',
            name='joined_year',
            field=models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='in the society since'),
        ),
        migrations.AddField(
            model_name='member',
            name='left_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='member',
            name='name_key',
            field=models.CharField(editable=False, max_length=600, unique=True),
        ),
        migrations.AlterField(
            model_name='member',
            name='email',
            field=models.EmailField(max_length=254, verbose_name='e-mail address'),
        ),
        migrations.AlterField(
            model_name='member',
            name='username',
            field=models.CharField(error_messages={'unique': 'Somebody has that name already.'}, max_length=150, unique=True, validators=[catalogue.accounts.models.people.validate_display_name], verbose_name='display name'),
        ),
        migrations.AddConstraint(
            model_name='member',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('former_number__isnull', True), ('left_at__isnull', True)), models.Q(('email', ''), ('former_number__isnull', False), ('is_active', False), ('left_at__isnull', False)), _connector='OR'), name='member_who_left_keeps_nothing_personal'),
        ),
        migrations.AddField(
            model_name='holding',
            name='garment_type',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.garmenttype'),
        ),
        migrations.AddField(
            model_name='holding',
            name='member',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='holdings', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='holding',
            name='version',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion'),
        ),
        migrations.AddField(
            model_name='invitation',
            name='inviter',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='invitations', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='invitation',
            name='used_by',
            field=models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='invitation_used', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='joinrequest',
            name='decided_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='join_requests_decided', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='joinrequest',
            name='member',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='join_requests', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='rolechange',
            name='by',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='role_changes_made', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='rolechange',
            name='member',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='role_changes', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='want',
            name='garment_type',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.garmenttype'),
        ),
        migrations.AddField(
            model_name='want',
            name='member',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='wants', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='want',
            name='spare',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion', verbose_name='a spare that I would give'),
        ),
        migrations.AddField(
            model_name='want',
            name='version',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalogue.issueversion'),
        ),
        migrations.AddConstraint(
            model_name='holding',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('garment_type__isnull', True), ('version__isnull', False)), models.Q(('garment_type__isnull', False), ('version__isnull', True)), _connector='OR'), name='holding_of_a_version_or_a_type'),
        ),
        migrations.AddConstraint(
            model_name='invitation',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('used_at__isnull', True), ('used_by__isnull', True)), models.Q(('revoked_at__isnull', True), ('used_at__isnull', False), ('used_by__isnull', False)), _connector='OR'), name='invitation_used_by_one_and_not_revoked'),
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
            model_name='rolechange',
            constraint=models.CheckConstraint(condition=models.Q(('member', models.F('by')), _negated=True), name='role_is_given_by_somebody_else'),
        ),
        migrations.AddConstraint(
            model_name='want',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('garment_type__isnull', True), ('version__isnull', False)), models.Q(('garment_type__isnull', False), ('version__isnull', True)), _connector='OR'), name='want_of_a_version_or_a_type'),
        ),
        migrations.AddField(
            model_name='example',
            name='begun_once',
            field=models.UUIDField(blank=True, editable=False, help_text='given with the form that began it', null=True, unique=True),
        ),
        migrations.AddField(
            model_name='photograph',
            name='taken_out_at',
            field=models.DateTimeField(blank=True, editable=False, help_text='by its owner, who can put it back for a while', null=True),
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
                'constraints': [models.CheckConstraint(condition=models.Q(('place__in', ['text', 'photograph'])), name='hiddenname_place_is_known', violation_error_message='The place is none of the words that the society uses.'), models.CheckConstraint(condition=models.Q(('on_request', False), ('name', ''), _connector='OR'), name='name_removed_on_request_is_kept_nowhere')],
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
                'constraints': [models.CheckConstraint(condition=models.Q(('text', ''), _negated=True), name='word_of_a_thread_says_something')],
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
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('last__gte', models.F('since'))), name='look_ends_after_it_began')],
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
                'constraints': [models.CheckConstraint(condition=models.Q(('number__gte', 1)), name='seal_number_begins_at_1'), models.CheckConstraint(condition=models.Q(models.Q(('number', 1), ('previous', '')), models.Q(('number__gt', 1), ('previous__regex', '^[0-9a-f]{64}$')), _connector='OR'), name='seal_names_the_one_before'), models.CheckConstraint(condition=models.Q(('digest__regex', '^[0-9a-f]{64}$')), name='seal_digest_is_a_digest')],
            },
        ),
        migrations.CreateModel(
            name='MailWish',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('member', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='mail_wish', to=settings.AUTH_USER_MODEL)),
                ('digest_at', models.DateTimeField(blank=True, editable=False, help_text='when the last one went out', null=True)),
                ('how', models.CharField(choices=[('at_once', 'Each at once'), ('daily', 'One mail a day')], default='at_once', max_length=8)),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('how__in', ['at_once', 'daily'])), name='mailwish_how_is_known', violation_error_message='The how is none of the words that the society uses.')],
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
                'constraints': [models.CheckConstraint(condition=models.Q(models.Q(('settled_at__isnull', True), ('settled_by__isnull', True), models.Q(('words', ''), _negated=True)), models.Q(('settled_at__isnull', False), ('settled_by__isnull', False), ('words', '')), _connector='OR'), name='settled_request_keeps_no_words'), models.UniqueConstraint(condition=models.Q(('settled_at__isnull', True)), fields=('example', 'by'), name='person_asks_once_for_a_name_of_a_piece')],
            },
        ),
        migrations.CreateModel(
            name='Notice',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('read_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('decision', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='catalogue.exampledecision')),
                ('member', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='notices', to=settings.AUTH_USER_MODEL)),
                ('word', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='catalogue.pieceword')),
                ('joining', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.joinrequest')),
                ('name_note', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.hiddenname')),
                ('piece', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.example')),
                ('sending', models.PositiveSmallIntegerField(blank=True, help_text='which sending of the piece', null=True)),
                ('name_request', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='notices', to='catalogue.namerequest')),
            ],
            options={
                'ordering': ['-made_at', '-pk'],
                'indexes': [models.Index(fields=['member', 'read_at'], name='catalogue_n_member__ac82ef_idx')],
                'constraints': [models.UniqueConstraint(fields=('member', 'decision'), name='person_is_told_once_of_a_decision'), models.UniqueConstraint(fields=('member', 'word'), name='person_is_told_once_of_a_word'), models.CheckConstraint(condition=models.Q(('read_at__isnull', True), ('read_at__gte', models.F('made_at')), _connector='OR'), name='notice_is_read_after_it_was_made'), models.CheckConstraint(condition=models.Q(models.Q(('piece__isnull', True), ('sending__isnull', True)), models.Q(('piece__isnull', False), ('sending__isnull', False)), _connector='OR'), name='notice_of_a_piece_names_its_sending'), models.UniqueConstraint(fields=('member', 'piece', 'sending'), name='person_is_told_once_of_a_sending'), models.UniqueConstraint(fields=('member', 'joining'), name='person_is_told_once_of_a_request_to_join'), models.UniqueConstraint(fields=('member', 'name_request'), name='person_is_told_once_of_a_name_request'), models.UniqueConstraint(fields=('member', 'name_note'), name='person_is_told_once_of_a_name_removed')],
            },
        ),
        migrations.AddField(
            model_name='alteration',
            name='added_at',
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
        migrations.AddField(
            model_name='alteration',
            name='added_by',
            field=models.ForeignKey(blank=True, help_text="who saw it once the piece was accepted; empty: it stands in the owner's record", null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='alteration',
            name='taken_back_at',
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
        migrations.AddField(
            model_name='alteration',
            name='taken_back_by',
            field=models.ForeignKey(blank=True, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddConstraint(
            model_name='alteration',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('added_at__isnull', True), ('added_by__isnull', True)), models.Q(('added_at__isnull', False), ('added_by__isnull', False)), _connector='OR'), name='added_alteration_says_by_whom_and_when'),
        ),
        migrations.AddConstraint(
            model_name='alteration',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('taken_back_at__isnull', True), ('taken_back_by__isnull', True)), models.Q(('added_by__isnull', False), ('taken_back_at__isnull', False), ('taken_back_by__isnull', False)), _connector='OR'), name='only_an_added_alteration_is_taken_back'),
        ),
        migrations.AddField(
            model_name='issueversion',
            name='retired_why',
            field=models.TextField(blank=True, default='', help_text='why it is no longer held to be a version; empty while it is in force'),
        ),
        migrations.CreateModel(
            name='Decision',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('agreed', 'Agreed to, one more is needed'), ('approved', 'Approved'), ('returned', 'Returned with a question'), ('declined', 'Declined'), ('undo_agreed', 'Agreed to revoke it, one more is needed'), ('revoked', 'Revoked')], max_length=12)),
                ('sending', models.PositiveIntegerField()),
                ('reason', models.TextField()),
                ('before', models.JSONField(default=dict)),
                ('after', models.JSONField(default=dict)),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='decisions', to=settings.AUTH_USER_MODEL)),
                ('record', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='decision', to='catalogue.versionrecord')),
            ],
            options={
                'ordering': ['made_at', 'pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['agreed', 'approved', 'returned', 'declined', 'undo_agreed', 'revoked'])), name='decision_kind_is_known'), models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='decision_has_a_reason'), models.CheckConstraint(condition=models.Q(models.Q(('kind__in', ['approved', 'revoked']), ('record__isnull', False)), models.Q(models.Q(('kind__in', ['approved', 'revoked']), _negated=True), ('record__isnull', True)), _connector='OR'), name='decision_that_changes_the_reference_names_its_record')],
            },
        ),
        migrations.AddField(
            model_name='notice',
            name='proposal_decision',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='catalogue.decision'),
        ),
        migrations.CreateModel(
            name='Proposal',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('change', 'Change'), ('new', 'New version'), ('retire', 'Retirement')], max_length=8)),
                ('state', models.CharField(choices=[('draft', 'Draft'), ('open', 'Waiting'), ('returned', 'Returned with a question'), ('approved', 'Approved'), ('declined', 'Declined'), ('withdrawn', 'Withdrawn'), ('revoked', 'Approved, then revoked')], default='draft', max_length=10)),
                ('weight', models.CharField(choices=[('small', 'Small: one person decides'), ('weighty', 'Changes identification or dates: two people decide')], default='small', max_length=8)),
                ('new_code', models.CharField(blank=True, default='', help_text='of a version that is to be made', max_length=80)),
                ('base', models.JSONField(default=dict)),
                ('rows', models.JSONField(default=dict)),
                ('grounds', models.TextField(blank=True, default='')),
                ('sources', models.JSONField(default=list, help_text='codes of the sources that are cited for it')),
                ('revision', models.PositiveIntegerField(default=0)),
                ('times_sent', models.PositiveIntegerField(default=0)),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('sent_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('based_on', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to='catalogue.versionrecord')),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to=settings.AUTH_USER_MODEL)),
                ('garment_type', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to='catalogue.garmenttype')),
                ('version', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='proposals', to='catalogue.issueversion')),
            ],
            options={
                'ordering': ['sent_at', 'pk'],
                'indexes': [models.Index(fields=['state', 'sent_at'], name='catalogue_p_state_772fd7_idx')],
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['change', 'new', 'retire'])), name='proposal_kind_is_known'), models.CheckConstraint(condition=models.Q(('state__in', ['draft', 'open', 'returned', 'approved', 'declined', 'withdrawn', 'revoked'])), name='proposal_state_is_known'), models.CheckConstraint(condition=models.Q(('weight__in', ['small', 'weighty'])), name='proposal_weight_is_known'), models.CheckConstraint(condition=models.Q(('state', 'draft'), models.Q(('sent_at__isnull', False), ('times_sent__gte', 1), models.Q(('grounds', ''), _negated=True)), _connector='OR'), name='proposal_that_was_sent_has_grounds'), models.CheckConstraint(condition=models.Q(('kind', 'new'), ('version__isnull', False), _connector='OR'), name='proposal_changes_a_version_that_is_there'), models.CheckConstraint(condition=models.Q(models.Q(('kind', 'new'), ('state__in', ['approved', 'revoked']), _negated=True), ('version__isnull', False), _connector='OR'), name='approved_new_version_is_there')],
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
                'constraints': [models.CheckConstraint(condition=models.Q(('text', ''), _negated=True), name='word_on_a_proposal_says_something')],
            },
        ),
        migrations.AddField(
            model_name='notice',
            name='proposal_word',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='catalogue.proposalword'),
        ),
        migrations.AddConstraint(
            model_name='notice',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('decision__isnull', False), ('joining__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('word__isnull', False)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', False), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', False), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('name_note__isnull', True), ('name_request__isnull', False), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('name_note__isnull', False), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', False), ('proposal_word__isnull', True), ('word__isnull', True)), models.Q(('decision__isnull', True), ('joining__isnull', True), ('name_note__isnull', True), ('name_request__isnull', True), ('piece__isnull', True), ('proposal_decision__isnull', True), ('proposal_word__isnull', False), ('word__isnull', True)), _connector='OR'), name='notice_tells_of_one_thing'),
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
            model_name='decision',
            constraint=models.UniqueConstraint(fields=('proposal', 'by', 'kind', 'sending'), name='person_decides_once_on_a_sending'),
        ),
        migrations.AddConstraint(
            model_name='decision',
            constraint=models.UniqueConstraint(condition=models.Q(('kind', 'approved')), fields=('proposal',), name='proposal_is_approved_once'),
        ),
        migrations.AddConstraint(
            model_name='decision',
            constraint=models.UniqueConstraint(condition=models.Q(('kind', 'revoked')), fields=('proposal',), name='proposal_is_revoked_once'),
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
                ('feature', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='error_rates_taken', to='catalogue.feature')),
                ('moderator', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='error_rates_taken', to=settings.AUTH_USER_MODEL)),
                ('undoes', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='undone_by', to='catalogue.errorratetaken')),
            ],
            options={
                'ordering': ['pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('after__gte', 0), ('after__lt', 1), ('before__gte', 0), ('before__lt', 1)), name='taken_error_is_a_chance'), models.CheckConstraint(condition=models.Q(('before', models.F('after')), _negated=True), name='taken_error_changes_something'), models.CheckConstraint(condition=models.Q(('wrong__gte', 0), ('wrong__lte', models.F('looks'))), name='taken_error_was_measured')],
            },
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
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('state__regex', '^[0-9a-f]{64}$')), name='health_state_is_a_digest')],
            },
        ),
        migrations.RunPython(refusing.guard, refusing.unguard),
        migrations.RunPython(written_once.guard, written_once.unguard),
        migrations.RunPython(make_cache_table, drop_cache_table),
    ]
