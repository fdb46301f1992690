"""The page of suppliers: who sells us parts."""

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from office.access import office_only
from parts import services
from parts.forms import SupplierForm
from parts.models import Supplier


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def supplier_list(request: HttpRequest) -> HttpResponse:
    form = SupplierForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            supplier = services.add_supplier(**form.cleaned_data)
        except ValidationError as error:  # somebody else added it since the form was looked through
            form.add_error(None, error)
        else:
            messages.success(request, f"{supplier} can be chosen for a price now.")
            return redirect("parts:suppliers")
    context = {"form": form, "suppliers": Supplier.objects.all()}
    return render(request, "parts/suppliers.html", context, status=422 if request.method == "POST" else 200)
