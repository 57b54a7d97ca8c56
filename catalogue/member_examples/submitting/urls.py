from django.urls import path

from catalogue.member_examples.submitting.views import begin, looks, photographs, record, sending

app_name = "submitting"
urlpatterns = [
    path("", begin.mine, name="mine"),
    path("new/", begin.new, name="new"),
    path("<str:code>/", begin.piece, name="piece"),
    path("<str:code>/withdraw/", begin.withdraw, name="withdraw"),
    path("<str:code>/delete/", begin.delete, name="delete"),
    path("<str:code>/garment/", record.garment, name="garment"),
    path("<str:code>/photographs/", photographs.photographs, name="photographs"),
    path("<str:code>/photographs/<int:number>/", photographs.one, name="picture"),
    path("<str:code>/photographs/<int:number>/change/", photographs.change, name="change_picture"),
    path("<str:code>/photographs/<int:number>/blur/", photographs.blur, name="blur"),
    path("<str:code>/seen/", looks.seen, name="seen"),
    path("<str:code>/seen/next/", looks.ask, name="ask"),
    path("<str:code>/seen/<str:feature>/", looks.question, name="question"),
    path("<str:code>/labels/", record.labels, name="labels"),
    path("<str:code>/labels/new/", record.label, name="new_label"),
    path("<str:code>/labels/<int:number>/", record.label, name="label"),
    path("<str:code>/labels/<int:number>/drop/", record.drop_label, name="drop_label"),
    path("<str:code>/size/", record.size, name="size"),
    path("<str:code>/condition/", record.condition, name="condition"),
    path("<str:code>/alterations/", record.alterations, name="alterations"),
    path("<str:code>/alterations/new/", record.alteration, name="new_alteration"),
    path("<str:code>/alterations/<int:number>/", record.alteration, name="alteration"),
    path("<str:code>/alterations/<int:number>/drop/", record.drop_alteration, name="drop_alteration"),
    path("<str:code>/held/", looks.held, name="held"),
    path("<str:code>/names/", sending.names, name="names"),
    path("<str:code>/review/", sending.review, name="review"),
]
