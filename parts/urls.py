"""Addresses of the parts pages."""

from django.urls import path

from parts import import_views, supplier_views, views

app_name = "parts"
urlpatterns = [
    path("", views.part_list, name="list"),
    path("add/", views.part_add, name="add"),
    path("import/", import_views.price_book_import, name="import"),
    path("suppliers/", supplier_views.supplier_list, name="suppliers"),
    # /parts/part/<code>/
    path("part/<str:code>/", views.part_detail, name="part"),
    path("part/<str:code>/edit/", views.part_edit, name="edit"),
    path("part/<str:code>/prices/", views.price_add, name="price-add"),
]
