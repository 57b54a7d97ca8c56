from django.urls import path

from catalogue.review.sources import views

app_name = "sources"
urlpatterns = [
    path("proposals/source/", views.add, name="add"),
    path("proposals/sources-added/", views.added, name="added"),
    path("proposals/sources-added/<int:pk>/take-back/", views.take_back, name="take_back"),
]
