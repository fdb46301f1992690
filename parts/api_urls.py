"""Addresses of the parts API."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
