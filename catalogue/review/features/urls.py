"""Included before the reference's own addresses, whose groups and codes may hold a /."""

from django.urls import path

from catalogue.review.features import draft_views, views

app_name = "feature_records"
urlpatterns = [
    path("features/<path:code>/history/", views.history, name="history"),
    path("features/<path:code>/history/<int:number>/", views.one_record, name="record"),
    path("proposals/feature/", draft_views.begin, name="begin"),
    path("proposals/new-feature/", draft_views.new, name="new"),
    path("proposals/<int:number>/edit/feature/", draft_views.edit, name="edit"),
]
