from django.urls import path

from catalogue.review.unreviewed import views

app_name = "unreviewed"
urlpatterns = [path("not-reviewed/", views.unreviewed, name="list")]
