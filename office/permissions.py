"""API permissions by role."""

from typing import TYPE_CHECKING

from rest_framework.permissions import BasePermission
from rest_framework.request import Request

if TYPE_CHECKING:  # rest_framework.views imports this module while it loads
    from rest_framework.views import APIView


class IsStaff(BasePermission):
    """Anyone who works here, installers included."""

    def has_permission(self, request: Request, view: "APIView") -> bool:
        return bool(request.user and request.user.is_authenticated)


class IsOfficeStaff(BasePermission):
    """Owner and office."""

    def has_permission(self, request: Request, view: "APIView") -> bool:
        return bool(request.user and request.user.is_authenticated and request.user.is_office)


class IsOwner(BasePermission):
    def has_permission(self, request: Request, view: "APIView") -> bool:
        return bool(request.user and request.user.is_authenticated and request.user.is_owner)
