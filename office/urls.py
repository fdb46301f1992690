"""Addresses of the office pages."""

from django.urls import path

from office import views

app_name = "office"
urlpatterns = [
    path("", views.day, name="day"),
    path("company/", views.company_edit, name="company"),
    path("people/", views.people, name="people"),
    path("people/add/", views.person_add, name="person_add"),
    path("people/<int:pk>/", views.person_edit, name="person_edit"),
    path("trail/", views.audit_trail, name="audit"),
]
