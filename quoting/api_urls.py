"""Addresses of the quoting API."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
