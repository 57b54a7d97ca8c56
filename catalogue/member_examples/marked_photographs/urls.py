from django.urls import path

from catalogue.member_examples.marked_photographs import views

app_name = "marked"
urlpatterns = [
    path("add/", views.add, name="add"),
    path("<slug:key>-<int:longer>.webp", views.file, name="file"),
    path("<int:number>/", views.one, name="one"),
    path("<int:number>/mark/", views.mark, name="mark"),
    path("of/<path:code>/", views.of_feature, name="of_feature"),
]
