"""Features that people answer wrongly more or less often than the engine is told, over all garment types."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping

from django.urls import reverse

from catalogue.reference.models import Feature
from catalogue.reference.words import ServiceChange
from catalogue.review.words import share_words
from identification.health.error_rates import ErrorRate, error_rate, worth_telling


def rates(healths: Iterable[Mapping]) -> dict[str, ErrorRate]:
    """The measured rate of each feature, by code: the looks at pieces of every type count together."""
    patterns: dict[str, Counter] = defaultdict(Counter)
    for health in healths:
        for feature, found in health["patterns"].items():
            for pattern, many in found:
                patterns[feature][tuple((state, people) for state, people in pattern)] += many
    measured = {feature: error_rate(found) for feature, found in patterns.items()}
    return {feature: rate for feature, rate in measured.items() if rate}


def error_lines(healths: Iterable[Mapping], only: Iterable[str] | None = None) -> list[dict]:
    """Lines for the page, those first that are most often wrong beyond what the engine is told. `only`: codes."""
    found = rates(healths)
    wanted = Feature.objects.filter(code__in=found if only is None else set(found) & set(only))
    lines = []
    for feature in wanted.order_by("position", "code"):
        rate = found[feature.code]
        if worth_telling(rate, feature.error, only_higher=feature.service_change != ServiceChange.NO):
            lines.append(
                {
                    "pk": feature.pk,
                    "name": feature.name,
                    "address": reverse("reference:feature_group", args=[feature.code]),
                    "group": feature.group,
                    "looks": rate.looks,
                    "pieces": rate.pieces,
                    "wrong": round(rate.wrong, 1),
                    "in_use": round(feature.error, 4),
                    "rate": round(rate.rate, 4),
                    "in_use_words": share_words(feature.error),
                    "rate_words": share_words(rate.rate),
                    "oftener": rate.rate > feature.error,
                }
            )
    return sorted(lines, key=lambda line: line["in_use"] - line["rate"])
