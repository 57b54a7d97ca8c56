from django.urls import path

from catalogue.member_examples import views
from catalogue.member_examples.removing_names import views as names
from catalogue.member_examples.sets import views as sets
from catalogue.member_examples.submitting.views import altered

app_name = "member_examples"
urlpatterns = [
    path("examples/", views.gallery, name="gallery"),
    path("examples/agreement/", views.agreement, name="agreement"),
    path("examples/photographs/<int:number>-<int:longer>.webp", views.photograph, name="photograph"),
    path("examples/<str:code>/differently/", views.differently, name="differently"),
    path("examples/<str:code>/names/", names.remove, name="names"),
    path("examples/<str:code>/names/ask/", names.ask, name="ask_for_removal"),
    path("examples/<str:code>/names/requests/<int:number>/settle/", names.settle, name="settle_name"),
    path("examples/<str:code>/names/photographs/<int:number>/", names.blur, name="blur_name"),
    path("examples/<str:code>/altered/", altered.altered, name="altered"),
    path("examples/<str:code>/altered/<int:number>/confirm/", altered.confirm, name="confirm_alteration"),
    path("examples/<str:code>/altered/<int:number>/take-back/", altered.take_back, name="take_back_alteration"),
    path("examples/<str:code>/", views.example, name="example"),
    path("sets/", sets.sets, name="sets"),
    path("sets/new/", sets.new, name="new_set"),
    path("sets/<str:code>/", sets.example_set, name="set"),
    path("sets/<str:code>/change/", sets.change, name="change_set"),
    path("sets/<str:code>/add/", sets.add, name="add_to_set"),
    path("sets/<str:code>/take-out/", sets.out, name="take_out_of_set"),
    path("sets/<str:code>/dissolve/", sets.dissolve, name="dissolve_set"),
    path("sets/<str:code>/bring-back/", sets.bring_back, name="bring_back_set"),
]
