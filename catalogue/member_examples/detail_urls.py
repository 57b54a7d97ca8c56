"""Included before the reference's own addresses, whose codes may hold a /."""

from django.urls import path

from catalogue.member_examples import detail_views

app_name = "details"
urlpatterns = [
    path("garment-types/<path:code>/details/", detail_views.of_type, name="of_type"),
    path("garment-types/<path:code>/details/<path:feature>/dated.csv", detail_views.as_csv, name="csv"),
    path("garment-types/<path:code>/details/<path:feature>/", detail_views.detail, name="detail"),
    path("issuers/<path:code>/details/", detail_views.issuer_details, name="issuer"),
    path("issuers/<path:code>/details/<path:feature>/", detail_views.issuer_detail, name="of_issuer"),
]
