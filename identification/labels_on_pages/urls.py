from django.urls import path

from identification.labels_on_pages import views

app_name = "labels_on_pages"
urlpatterns = [path("", views.label_page, name="label")]
