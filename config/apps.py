"""The project itself as an app, so that its system checks and commands are found."""

from django.apps import AppConfig


class ConfigConfig(AppConfig):
    name = "config"
    label = "config"
    verbose_name = "Trenchbook"
