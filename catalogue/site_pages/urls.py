from django.urls import path

from catalogue.site_pages import views

app_name = "site_pages"
urlpatterns = [
    path("", views.home, name="home"),
    path("cautions/", views.cautions, name="cautions"),
    path("about/", views.about, name="about"),
    path("robots.txt", views.robots, name="robots"),
]
