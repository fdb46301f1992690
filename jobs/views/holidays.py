"""Days that do not count as notice before digging."""

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from jobs.forms import HolidayForm
from jobs.models import Holiday
from jobs.services import add_holiday, remove_holiday
from office.access import office_only, person_of


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def holiday_list(request: HttpRequest) -> HttpResponse:
    form = HolidayForm(request.POST if request.method == "POST" else None)
    if form.is_bound and form.is_valid():
        try:
            add_holiday(by=person_of(request), **form.cleaned_data)
        except ValidationError:
            form.add_error("date", "This day is in the list already.")
        else:
            return redirect("jobs:holidays")
    context = {"form": form, "holidays": Holiday.objects.all()}
    return render(request, "jobs/holidays.html", context, status=400 if form.errors else 200)


@require_POST
@office_only
def holiday_remove(request: HttpRequest, pk: int) -> HttpResponse:
    holiday = get_object_or_404(Holiday, pk=pk)
    name = str(holiday)
    remove_holiday(holiday=holiday, by=person_of(request))
    messages.success(request, f"Removed {name}.")
    return redirect("jobs:holidays")
