from django.urls import path

from catalogue.review.importing import views

app_name = "imports"
urlpatterns = [
    path("proposals/imports/", views.imported, name="list"),
    path("proposals/imports/<int:number>/", views.together, name="together"),
]
