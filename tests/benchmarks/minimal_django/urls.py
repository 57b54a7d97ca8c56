from django.urls import path

from tests.benchmarks.minimal_django import views

urlpatterns = [
    path("empty/", views.empty),
    path("list/", views.plain_list),
    path("facets/", views.facets),
    path("pieces/<slug:code>/", views.piece, name="piece"),
]
