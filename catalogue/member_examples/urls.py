from django.urls import path

from catalogue.member_examples import views

app_name = "member_examples"
urlpatterns = [
    path("examples/", views.gallery, name="gallery"),
    path("examples/agreement/", views.agreement, name="agreement"),
    path("examples/photographs/<int:number>-<int:longer>.webp", views.photograph, name="photograph"),
    path("examples/<str:code>/differently/", views.differently, name="differently"),
    path("examples/<str:code>/", views.example, name="example"),
    path("sets/", views.sets, name="sets"),
    path("sets/<str:code>/", views.example_set, name="set"),
]
