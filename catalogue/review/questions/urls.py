"""Included before the reference's own addresses, whose codes may hold a /."""

from django.urls import path

from catalogue.review.questions import views

app_name = "questions"
urlpatterns = [
    path("proposals/open-question/", views.begin, name="begin"),
    path("proposals/<int:number>/edit/open-question/", views.edit, name="edit"),
    path("my/views-on-questions/add/", views.add_view, name="add_view"),
    path("my/views-on-questions/<int:pk>/", views.change_view, name="change_view"),
    path("views-on-questions/<int:pk>/whose/", views.whose_view, name="whose_view"),
    path("views-on-questions/<int:pk>/moderate/", views.moderate_view, name="moderate_view"),
]
