"""Addresses of the quoting pages."""

from django.urls import URLPattern

app_name = "quoting"
urlpatterns: list[URLPattern] = []
