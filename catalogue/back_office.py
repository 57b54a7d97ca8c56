"""The back office as a whole: its tables grouped by what people do with them."""

from django.contrib.admin import AdminSite
from django.contrib.admin.apps import AdminConfig
from django.urls import reverse

REFERENCE, EVIDENCE, PEOPLE, HISTORY, OTHER = (
    "The reference",
    "Evidence and sources",
    "People",
    "What was changed",
    "Other tables",
)
GROUPS = (REFERENCE, EVIDENCE, PEOPLE, HISTORY, OTHER)


class BackOffice(AdminSite):
    """A table says where it stands by `office_group` and `office_place` of its admin; one that does not, at the end."""

    site_header = "Back office"
    site_title = "Back office"
    index_title = "What would you like to work on?"
    index_template = "admin/office_index.html"

    def get_app_list(self, request, app_label=None):
        """The tables that this person may see, by group; of one app, where one is asked for."""
        if app_label is not None:
            return super().get_app_list(request, app_label)
        placed: dict[str, list[tuple[int, str, dict]]] = {}
        for app in self._build_app_dict(request).values():
            for table in app["models"]:
                group, place = self.place_of(table["model"])
                about = getattr(self._registry[table["model"]], "office_about", "")
                placed.setdefault(group, []).append((place, table["name"], table | {"about": about}))
        return [
            {
                "name": group,
                "app_label": f"group-{GROUPS.index(group) + 1}",
                "app_url": f"{reverse('admin:index', current_app=self.name)}#group-{GROUPS.index(group) + 1}",
                "has_module_perms": True,
                "models": [table for *_, table in sorted(placed[group], key=lambda row: row[:2])],
            }
            for group in GROUPS
            if group in placed
        ]

    def place_of(self, model) -> tuple[str, int]:
        own = self._registry[model]
        group = getattr(own, "office_group", PEOPLE if model._meta.app_label == "auth" else OTHER)
        return (group if group in GROUPS else OTHER), getattr(own, "office_place", 99)


class BackOfficeConfig(AdminConfig):
    """Django's back office with our arrangement of it."""

    default_site = "catalogue.back_office.BackOffice"
