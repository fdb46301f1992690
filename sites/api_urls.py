"""Addresses of the sites API."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
