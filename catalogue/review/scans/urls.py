"""Included before the reference's own addresses, whose codes may hold a /."""

from django.urls import path

from catalogue.review.scans import views

app_name = "scans"
urlpatterns = [
    path("proposals/scan/", views.begin, name="begin"),
    path("proposals/<int:number>/edit/scan/", views.edit, name="edit"),
    path("scans/<slug:key>-<int:longer>.webp", views.file, name="file"),
    path("scans/<int:number>/", views.one, name="one"),
    path("scans/<int:number>/blur/", views.blur, name="blur"),
    path("scans/<int:number>/take-out/", views.take_out, name="take_out"),
]
