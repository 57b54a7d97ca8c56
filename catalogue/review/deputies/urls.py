from django.urls import path

from catalogue.review.deputies import views

app_name = "deputies"
urlpatterns = [
    path("my/away/", views.away, name="away"),
    path("my/away/back/", views.back, name="back"),
]
