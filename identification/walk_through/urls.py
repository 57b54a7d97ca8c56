from django.urls import path

from identification.walk_through import views

app_name = "walk_through"
urlpatterns = [
    path("", views.choose, name="choose"),
    path("any-garment/", views.walk_any, name="any"),
    path("any-garment.json", views.walk_any_as_data, name="any_data"),
    path("<path:type_code>.json", views.walk_as_data, name="type_data"),
    path("<path:type_code>/", views.walk_page, name="type"),
]
