from django.urls import path

from catalogue.review.proposals import draft_views, views

app_name = "proposals"
urlpatterns = [
    path("proposals/", views.queue, name="queue"),
    path("proposals/new/", draft_views.new, name="new"),
    path("proposals/new-version/", draft_views.new_version, name="new_version"),
    path("proposals/merge/", draft_views.merge, name="merge"),
    path("proposals/split/", draft_views.split, name="split"),
    path("proposals/<int:number>/", views.proposal, name="proposal"),
    path("proposals/<int:number>/words/", views.write_word, name="word"),
    path("proposals/<int:number>/settle/", views.settle, name="settle"),
    path("proposals/<int:number>/revoke/", views.revoke, name="revoke"),
    path("proposals/<int:number>/edit/", draft_views.edit, name="edit"),
    path("proposals/<int:number>/edit/profile/", draft_views.edit_profile, name="edit_profile"),
    path("proposals/<int:number>/edit/second/", draft_views.edit, {"second": True}, name="edit_second"),
    path(
        "proposals/<int:number>/edit/second/profile/",
        draft_views.edit_profile,
        {"second": True},
        name="edit_profile_second",
    ),
    path("proposals/<int:number>/send/", draft_views.send, name="send"),
    path("proposals/<int:number>/withdraw/", draft_views.withdraw, name="withdraw"),
]
