from django.contrib import admin
from django.urls import include, path

handler400 = "catalogue.site_pages.views.not_read"
handler403 = "catalogue.site_pages.views.not_open"
handler404 = "catalogue.site_pages.views.not_found"

urlpatterns = [
    path("", include("catalogue.site_pages.urls")),
    path("", include("catalogue.member_examples.detail_urls")),
    path("", include("catalogue.review.records.urls")),
    path("", include("catalogue.review.features.urls")),
    path("", include("catalogue.review.questions.urls")),
    path("", include("catalogue.review.backing.urls")),
    path("", include("catalogue.review.health.urls")),
    path("", include("catalogue.review.scans.urls")),
    path("", include("catalogue.review.sources.urls")),
    path("", include("catalogue.reference.urls")),
    path("", include("catalogue.member_examples.urls")),
    path("figures/", include("catalogue.figures.urls")),
    path("marked-photographs/", include("catalogue.member_examples.marked_photographs.urls")),
    path("which/", include("identification.telling_apart.urls")),
    path("mistaken-for/", include("identification.mistakes.urls")),
    path("label/", include("identification.labels_on_pages.urls")),
    path("which/", include("identification.walk_through.urls")),
    path("", include("catalogue.accounts.sign_in_urls")),
    path("", include("catalogue.accounts.urls")),
    path("my-pieces/", include("catalogue.member_examples.submitting.urls")),
    path("", include("catalogue.review.notices.urls")),  # before the threads, whose addresses follow it
    path("", include("catalogue.review.deputies.urls")),
    path("", include("catalogue.review.examples_queue.urls")),
    path("", include("catalogue.review.importing.urls")),
    path("", include("catalogue.review.proposals.urls")),
    path("", include("catalogue.review.unreviewed.urls")),
    path("admin/", admin.site.urls),
]
