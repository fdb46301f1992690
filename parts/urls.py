"""Addresses of the parts pages."""

from django.urls import URLPattern

app_name = "parts"
urlpatterns: list[URLPattern] = []
