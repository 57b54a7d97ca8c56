from django.urls import path

from catalogue.review.notices import views

app_name = "notices"
urlpatterns = [
    path("my/notices/", views.notices, name="all"),
    path("my/notices/read/", views.read, name="read"),
    path("my/notices/by-mail/", views.by_mail, name="by_mail"),
]
