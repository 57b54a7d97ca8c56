"""Who signs in, and what their role lets them do in the back office."""

from allauth.account.auth_backends import AuthenticationBackend
from django.apps import apps

from catalogue.accounts.roles import MAINTAIN_REFERENCE, MANAGE_MEMBERS, may


class SignInBackend(AuthenticationBackend):
    """Signs in by e-mail address or display name. Rights in the back office follow the role, from one moment to the
    next, and are kept in no table; what is given to a single person there comes on top."""

    def has_perm(self, user_obj, perm, obj=None):
        if super().has_perm(user_obj, perm, obj):
            return True
        app, _, codename = perm.partition(".")
        action, _, model_name = codename.partition("_")
        if app != "catalogue" or not user_obj.is_authenticated:
            return False
        if is_of_the_reference(model_name):
            return may(user_obj, MAINTAIN_REFERENCE)
        return action == "view" and model_name == "member" and may(user_obj, MANAGE_MEMBERS)

    def has_module_perms(self, user_obj, app_label):
        if super().has_module_perms(user_obj, app_label):
            return True
        return app_label == "catalogue" and may(user_obj, MAINTAIN_REFERENCE)


def is_of_the_reference(model_name: str) -> bool:
    """Whether the table belongs to the reference, which authors maintain."""
    try:
        model = apps.get_model("catalogue", model_name)
    except LookupError:
        return False
    return model.__module__.startswith("catalogue.reference.")
