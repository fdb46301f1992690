"""Addresses of the jobs API."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
