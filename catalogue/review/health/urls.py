from django.urls import path

from catalogue.review.health import views

app_name = "health"
urlpatterns = [
    path("health/", views.society, name="society"),
    path("health/error-rates/<int:feature>/take/", views.take, name="take"),
    path("health/error-rates/taken/<int:taken>/undo/", views.undo, name="undo"),
    path("health/<path:code>/", views.garment_type, name="type"),
]
