from django.urls import path

from identification.mistakes import views

app_name = "mistakes"
urlpatterns = [path("<path:code>/", views.mistaken_for, name="version")]
