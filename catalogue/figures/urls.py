from django.urls import path

from catalogue.figures import views

app_name = "figures"
urlpatterns = [path("<path:code>/<slug:view>.svg", views.version_svg, name="version")]
