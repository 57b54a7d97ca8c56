from django.urls import path

from catalogue.reference import views

app_name = "reference"
urlpatterns = [
    path("search/", views.search_page, name="search"),
    path("compare/", views.compare_versions, name="compare"),
    path("garment-types/", views.types, name="types"),
    path("garment-types/<path:code>/", views.garment_type, name="type"),
    path("issue-versions/", views.versions, name="versions"),
    path("issue-versions/<path:code>/", views.version, name="version"),
    path("sources/", views.sources, name="sources"),
    path("sources/<path:code>/", views.source, name="source"),
    path("makers/", views.makers, name="makers"),
    path("makers/<path:code>/", views.maker, name="maker"),
    path("issuers/<path:code>/", views.issuer, name="issuer"),
    path("open-questions/", views.open_questions, name="open_questions"),
    path("open-questions/<path:code>/", views.open_question, name="open_question"),
    path("features/", views.features, name="features"),
    path("features/<path:group>/", views.feature_group, name="feature_group"),
]
