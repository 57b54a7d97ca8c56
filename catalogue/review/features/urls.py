"""Included before the reference's own addresses, whose groups and codes may hold a /."""

from django.urls import path

from catalogue.review.features import views

app_name = "feature_records"
urlpatterns = [
    path("features/<path:code>/history/", views.history, name="history"),
    path("features/<path:code>/history/<int:number>/", views.one_record, name="record"),
]
