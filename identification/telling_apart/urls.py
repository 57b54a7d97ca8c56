from django.urls import path

from identification.telling_apart import views

app_name = "telling_apart"
urlpatterns = [
    path("<path:type_code>/key/", views.key_page, name="key"),
]
