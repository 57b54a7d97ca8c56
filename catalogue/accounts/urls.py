from django.urls import path, re_path

from catalogue.accounts.views import joining, own_page, people, secretary, unsent

app_name = "accounts"
urlpatterns = [
    re_path(r"^join/(?P<token>[A-Za-z0-9_~-]{20,200})/$", joining.invited, name="invited"),
    path("people/<str:name>/", people.person, name="person"),
    path("my/", own_page.my_page, name="my_page"),
    path("my/waiting/", joining.waiting, name="waiting"),
    path("my/second-factor-first/", joining.second_factor_first, name="second_factor_first"),
    path("my/shown/", own_page.shown, name="shown"),
    path("my/unsent/", unsent.unsent, name="unsent"),
    path("my/devices/", own_page.devices, name="devices"),
    path("my/data/", people.my_data, name="my_data"),
    path("my/leave/", people.leave, name="leave"),
    path("my/invitations/new/", own_page.new_invitation, name="new_invitation"),
    path("my/invitations/<int:number>/", own_page.invitation, name="invitation"),
    path("my/invitations/<int:number>/revoke/", own_page.revoke, name="revoke"),
    path("my/<slug:kind>/add/", own_page.add, name="add"),
    path("my/<slug:kind>/<int:number>/", own_page.change, name="change"),
    path("my/<slug:kind>/<int:number>/remove/", own_page.remove, name="remove"),
    path("society/", secretary.society, name="society"),
    path("society/people/<int:number>/role/", secretary.role, name="role"),
    path("society/requests/", secretary.requests, name="requests"),
    path("society/requests/<int:number>/", secretary.decide, name="decide"),
]
