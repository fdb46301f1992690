"""The daily page."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from office.access import person_of, staff_only
from office.navigation import panels_for


@require_safe
@staff_only
def day(request: HttpRequest) -> HttpResponse:
    return render(request, "office/day.html", {"panels": panels_for(person_of(request))})
