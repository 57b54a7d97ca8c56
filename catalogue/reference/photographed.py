"""Features read together with their states and the marked photographs of both."""

from django.db.models import Prefetch, QuerySet

from catalogue.reference.models import Feature, FeatureState


def with_states(features: QuerySet[Feature]) -> QuerySet[Feature]:
    """The features with all that is read of their states, and with photographs."""
    states = FeatureState.objects.select_related("photograph")
    return features.select_related("parent", "absent_state", "photograph").prefetch_related(Prefetch("states", states))
