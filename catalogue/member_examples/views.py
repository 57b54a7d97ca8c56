"""Pages of members' pieces: the gallery, one piece, seeing it differently, agreement, photographs."""

from django.shortcuts import redirect, render
from django.utils.cache import patch_cache_control
from django.views.decorators.http import require_safe

from catalogue.accounts.roles import member_required
from catalogue.member_examples import gates
from catalogue.member_examples.actions import Look, NotDone, add_attribution, add_observation
from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.agreement_page import agreement_context
from catalogue.member_examples.example_page import example_context
from catalogue.member_examples.forms import AttributionForm, LookForm
from catalogue.member_examples.gallery import gallery_context
from catalogue.member_examples.photographs.serving import photograph_answer
from catalogue.member_examples.titles import title_of
from catalogue.reference.models import Feature, IssueVersion, ReferenceState
from catalogue.reference.snapshots import type_facts


@require_safe
def gallery(request):
    """Accepted pieces, and of others those that the person may read."""
    context = gallery_context(request.user, request.GET, number=ReferenceState.current_number())
    return kept_apart(request, render(request, "member_examples/gallery.html", context))


@require_safe
def example(request, code):
    """One piece with everything known of it."""
    found = gates.example_for_reader(request.user, code)
    context = example_context(request.user, found, number=ReferenceState.current_number())
    return kept_apart(request, render(request, "member_examples/example.html", context))


def kept_apart(request, response):
    """What a member sees more than others is kept by no cache that others share."""
    if request.user.is_authenticated:
        patch_cache_control(response, private=True, no_cache=True)
    return response


@member_required
def differently(request, code):
    """A member's own attribution, or own look at one feature (`?feature=CODE`). Nothing is overwritten."""
    found = gates.example_for_reader(request.user, code)
    number = ReferenceState.current_number()
    facts = type_facts(found.garment_type.code, number=number) if found.garment_type else None
    feature = facts.features.get(request.GET.get("feature", "")) if facts else None
    given = request.POST if request.method == "POST" else None
    form = AttributionForm(given, facts=facts) if feature is None else LookForm(given, feature=feature)
    if request.method == "POST" and form.is_valid():
        try:
            write_down(found, request.user, form, feature)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect(f"{example_address(found.code)}#{'seen' if feature else 'held'}")
    context = {
        "example": found,
        "title": title_of(found),
        "facts": facts,
        "feature": feature,
        "form": form,
        "features": list(facts.features.values()) if facts else [],
    }
    return render(request, "member_examples/differently.html", context)


def write_down(example, member, form, feature) -> None:
    if feature is not None:
        row = Feature.objects.get(code=feature.code)
        add_observation(example=example, member=member, look=Look(feature=row, **form.look))
        return
    code = form.cleaned_data["version"]
    version = None if form.held else IssueVersion.objects.select_related("garment_type").get(code=code)
    add_attribution(
        example=example, member=member, version=version, held=form.held, grounds=form.cleaned_data["grounds"]
    )


@require_safe
def photograph(request, number, longer):
    """One size of a photograph, for whoever may read the piece; a hidden one for its owner and moderators."""
    return photograph_answer(request, number, longer)


@require_safe
def agreement(request):
    """How far members agree who looked at the same pieces."""
    return render(request, "member_examples/agreement.html", agreement_context(number=ReferenceState.current_number()))
