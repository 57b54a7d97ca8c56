from django.urls import path

from identification.telling_apart import views

app_name = "telling_apart"
urlpatterns = [
    path("claim/", views.claim_page, name="claim"),
    path("claim.json", views.claim_as_data, name="claim_data"),
    path("<path:type_code>/key/", views.key_page, name="key"),
]
