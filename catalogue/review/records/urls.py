"""Included before the reference's own addresses, whose codes may hold a /."""

from django.urls import path

from catalogue.review.records import views

app_name = "records"
urlpatterns = [
    path("issue-versions/<path:code>/history/", views.history, name="history"),
    path("issue-versions/<path:code>/history/<int:number>/", views.one_record, name="record"),
]
