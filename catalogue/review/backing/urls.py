"""Included before the reference's own addresses, whose codes may hold a /."""

from django.urls import path

from catalogue.review.backing import views

app_name = "backing"
urlpatterns = [
    path("proposals/rests-on/<slug:table>/", views.begin, name="begin"),
    path("proposals/<int:number>/edit/rests-on/", views.edit, name="edit"),
]
