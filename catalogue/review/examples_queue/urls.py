from django.urls import path

from catalogue.review.examples_queue import own_views, views

app_name = "examples_queue"
urlpatterns = [
    path("pieces-that-wait/", views.queue, name="queue"),
    path("pieces-that-wait/<str:code>/", views.piece, name="piece"),
    path("pieces-that-wait/<str:code>/next/", views.following, name="following"),
    path("pieces-that-wait/<str:code>/open-again/", views.reopen, name="reopen"),
    path("pieces-that-wait/<str:code>/attribute-anew/", views.attribute, name="attribute"),
    path("pieces-that-wait/<str:code>/keep/", views.keep, name="keep"),
    path("my/notices/<str:code>/", own_views.thread, name="thread"),
]
