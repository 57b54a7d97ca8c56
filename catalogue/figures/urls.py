from django.urls import path

from catalogue.figures import views

app_name = "figures"
urlpatterns = [
    path("board/<path:code>/", views.drawing_board, name="drawing_board"),
    path("<path:code>/outline.svg", views.type_svg, name="type"),
    path("drawings/<path:code>/", views.choose_drawing, name="choose_drawing"),
    path("<path:code>/<slug:view>.svg", views.version_svg, name="version"),
]
