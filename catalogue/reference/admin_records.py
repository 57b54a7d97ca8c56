"""Profiles in the back office: a record is read, never changed; a changed profile is written as a new record."""

from django.contrib import admin, messages
from django.core.exceptions import PermissionDenied
from django.db import transaction
from django.http import HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse

from catalogue.back_office import EVIDENCE, REFERENCE
from catalogue.reference import admin_profiles as profiles
from catalogue.reference.actions import write_profile
from catalogue.reference.addresses import address_of
from catalogue.reference.admin_base import ReferenceAdmin
from catalogue.reference.models import IssueVersion, ProfileCell, ReferenceState, VersionRecord
from catalogue.reference.nearest import near_codes
from catalogue.reference.review_state import address_to_propose, review_is_on

NO_WHY = "Say why the record is changed, and on what that rests: it is kept with the record. Nothing was written."
NO_STATE = "A record needs at least one state. Nothing was written."
UNDER_REVIEW = "A profile is changed by a proposal now, which somebody else decides: propose the change."
SAME = "This is what the current record says already. Nothing was written."
OVERTAKEN = "A newer record was written while you had this open. Nothing of yours was written yet, and nothing is lost."


@admin.register(VersionRecord)
class VersionRecordAdmin(ReferenceAdmin):
    """Written once: a new one can be added, an old one only read."""

    office_group, office_place = REFERENCE, 3
    office_about = "How each version looks, with who wrote it and why"
    list_display = ["version", "number", "standing", "made_at", "written_by", "in_force"]
    list_filter = ["standing", "version__garment_type", "written_by"]
    list_select_related = ["version", "written_by"]
    search_fields = ["version__code", "version__name", "why"]
    search_help_text = "Code or name of the version, or a word of why"

    @admin.display(description="stands", boolean=True)
    def in_force(self, record) -> bool:
        return record.version.current_record_id == record.pk

    def has_change_permission(self, request, obj=None):
        return False

    def has_delete_permission(self, request, obj=None):
        return False

    # ---- writing

    def add_view(self, request, form_url="", extra_context=None):
        """The whole profile of a version, begun with its current record."""
        if not self.has_add_permission(request):
            raise PermissionDenied
        version = asked_version(request.GET.get("version", ""))
        if version is None:
            return self.choose(request)
        if request.method != "POST" and review_is_on():
            messages.warning(request, UNDER_REVIEW)
            return HttpResponseRedirect(address_to_propose(version.code))
        if request.method != "POST":
            return self.show(request, profiles.begun(version, version.current_record))
        with transaction.atomic():
            ReferenceState.hold()
            version = asked_version(str(version.pk))
            record = version.records.filter(number=number_of(request.POST.get("begins_with", ""))).first()
            form = profiles.sent(version, record, request.POST)
            form.made_by = frozenset(version.makers.values_list("pk", flat=True))
            written = self.write(request, form) if "_save" in request.POST else None
        if written is None:
            return self.show(request, form)
        self.log_addition(request, written, f"Record {written.number}: {written.why}")
        messages.success(request, f"Record {written.number} of {version.code} was written; the older ones stay.")
        return HttpResponseRedirect(reverse("admin:catalogue_versionrecord_change", args=[written.pk]))

    def write(self, request, form: profiles.ProfileForm) -> VersionRecord | None:
        """The new record; None, with the reasons in the form, where there is something against it."""
        version = form.version
        if form.begins_with != version.current_record:
            profiles.merge_with(form, version.current_record)
            if form.clash:
                form.general.append(OVERTAKEN)
        cells = form.read()
        if not form.errors and not cells:
            form.general.append(NO_STATE)
        elif not form.errors and profiles.same_as(version.current_record, cells):
            form.general.append(SAME)
        if not form.why:
            form.general.append(NO_WHY)
        if review_is_on():
            form.general.append(f"{UNDER_REVIEW} Nothing was written.")
        if form.errors or form.general:
            return None
        return write_profile(version=version, cells=cells, author=request.user, why=form.why)

    def show(self, request, form: profiles.ProfileForm):
        if request.method == "POST" and not form.errors:
            form.read()  # what is wrong is said whichever button was pressed
        if "_show" in request.POST:
            form.unfold_chosen(profiles.profile_of(form.begins_with))
        return self.page(
            request,
            "admin/catalogue/profile.html",
            f"New record of {form.version.code}",
            form=form,
            groups=form.groups(),
            faults=form.faults(),
            page=address_of("version", form.version.code),
        )

    def choose(self, request):
        """Which version the record is of; in the address it may stand as a number or as a code."""
        asked = request.GET.get("version", "").strip()[:80]
        codes = dict(IssueVersion.objects.values_list("code", "name"))
        near = [(code, codes[code]) for code in near_codes(asked, codes)] if asked else []
        return self.page(request, "admin/catalogue/choose_version.html", "New record", asked=asked, near=near)

    def page(self, request, template: str, title: str, **context):
        return render(
            request,
            template,
            {**self.admin_site.each_context(request), "title": title, "opts": self.model._meta, **context},
        )

    # ---- reading

    def change_view(self, request, object_id, form_url="", extra_context=None):
        """A record is read here, whoever asks."""
        record = self.get_object(request, object_id)
        if record is None:
            return self._get_obj_does_not_exist_redirect(request, self.opts, object_id)
        if not self.has_view_permission(request, record) or request.method == "POST":
            raise PermissionDenied
        before = record.version.records.filter(number__lt=record.number).first()
        cells = record.cells.select_related("state__feature").prefetch_related("makers", "citations__source")
        in_order = cells.order_by("state__feature__position", "state__feature__code", "state__position")
        return self.page(
            request,
            "admin/catalogue/record.html",
            f"{record.version.code}, record {record.number}",
            record=record,
            groups=profiles.read_groups(in_order),
            before=before,
            lines=profiles.lines_between(before, record) if before else [],
            newest=record.version.current_record_id == record.pk,
            may_write=self.has_add_permission(request),
            page=address_of("version", record.version.code),
        )

    def history_view(self, request, object_id, extra_context=None):
        """The history of a record is that of its version's profile: every record of it, and what each changed."""
        record = self.get_object(request, object_id)
        if record is None:
            return self._get_obj_does_not_exist_redirect(request, self.opts, object_id)
        if not self.has_view_permission(request, record):
            raise PermissionDenied
        rows = list(record.version.records.select_related("written_by"))
        told = [
            {"record": row, "lines": profiles.lines_between(before, row) if before else None}
            for row, before in zip(rows, [*rows[1:], None], strict=True)
        ]
        title = f"Profile of {record.version.code}: every record"
        return self.page(request, "admin/catalogue/profile_history.html", title, told=told, version=record.version)


def asked_version(asked: str) -> IssueVersion | None:
    """The version that an address names by its number or its code."""
    rows = IssueVersion.objects.select_related("garment_type", "current_record__written_by")
    asked = asked.strip()
    if asked.isascii() and asked.isdigit() and (found := rows.filter(pk=number_of(asked)).first()):
        return found
    return rows.filter(code__iexact=asked).first() if asked else None


def number_of(text: str) -> int:
    """A number as an address or a form gives it; 0 for anything else."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 10 else 0


@admin.register(ProfileCell)
class ProfileCellAdmin(admin.ModelAdmin):
    """For finding cells; they are written with their record."""

    office_group, office_place = EVIDENCE, 6
    office_about = "Every state in every record, to be searched"
    list_display = ["record", "feature", "state", "how_often", "certainty"]
    list_filter = ["certainty", "how_often", "record__version__garment_type"]
    list_select_related = ["record__version", "state__feature"]
    search_fields = ["record__version__code", "state__feature__name", "state__label", "citations__source__code"]
    search_help_text = "Code of a version, words of a feature or state, or code of a source"

    @admin.display(description="feature", ordering="state__feature")
    def feature(self, cell):
        return cell.state.feature

    def has_add_permission(self, request, obj=None):
        return False

    def has_change_permission(self, request, obj=None):
        return False

    def has_delete_permission(self, request, obj=None):
        return False
