"""The page that takes in a price book file."""

import json

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from design.problems import Problem
from office.access import office_only, person_of
from parts import services
from parts.forms import PriceBookForm

MAX_BYTES = 5_000_000


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def price_book_import(request: HttpRequest) -> HttpResponse:
    form = PriceBookForm(request.POST or None, request.FILES or None)
    problems: list[Problem] = []
    if request.method == "POST" and form.is_valid():
        try:
            count = services.import_price_book(_read(form), person_of(request))
        except services.PriceBookInvalid as error:
            problems = error.problems
        else:
            text = f"Taken in: {count.added} new parts, {count.changed} changed parts, {count.prices} prices."
            messages.success(request, text)
            return redirect("parts:list")
    status = 422 if request.method == "POST" else 200
    return render(request, "parts/import.html", {"form": form, "problems": problems}, status=status)


def _read(form: PriceBookForm) -> object:
    file = form.cleaned_data["file"]
    if file.size > MAX_BYTES:
        raise services.PriceBookInvalid(
            [Problem("file", "", "The file is larger than 5 MB; split the book.")]
        )
    try:
        return json.loads(file.read().decode("utf-8-sig"))
    except (ValueError, RecursionError) as error:
        sentence = f"The file is not JSON text in UTF-8 ({error})."
        raise services.PriceBookInvalid([Problem("file", "", sentence)]) from None
