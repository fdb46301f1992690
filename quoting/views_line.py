"""Editing the lines of a draft."""

from typing import cast

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from office.access import office_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from quoting import services
from quoting.access import get_line_for, get_quote_for
from quoting.errors import QuoteError
from quoting.forms import LineForm, begin_from, whole_number
from quoting.models import Quote, QuoteLine


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def line_add(request: HttpRequest, pk: int) -> HttpResponse:
    person = person_of(request)
    quote = get_quote_for(person, pk)
    form = LineForm(request.POST or None, quote=quote, initial={"unit": "each", "quantity": 1})
    if request.method != "POST":
        return _line_page(request, quote, form)
    if not form.is_valid():
        return _line_page(request, quote, form, status=422)
    try:
        services.add_line(quote=quote, by=person, fields=form.fields_for_service())
    except ValidationError as error:
        _show(form, error)
        return _line_page(request, quote, form, status=422)
    except QuoteError as error:
        form.add_error(None, error.sentence)
        return _line_page(request, quote, form, status=409)
    messages.success(request, "The line is in. The quote is priced anew.")
    return redirect("quoting:quote", pk=pk)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def line_edit(request: HttpRequest, pk: int, line_pk: int) -> HttpResponse:
    person = person_of(request)
    line = get_line_for(person, pk, line_pk)
    quote = line.quote
    if request.method != "POST":
        return _line_page(request, quote, LineForm(instance=line, quote=quote))
    form = LineForm(request.POST, instance=line, quote=quote)
    if not form.is_valid():
        return _line_page(request, quote, form, status=422)
    try:
        services.edit_line(
            line=get_line_for(person, pk, line_pk),
            began_from=form.cleaned_data["began_from"] or 0,
            by=person,
            fields=form.fields_for_service(),
        )
    except Clash as clash:
        return _clash_page(request, quote, form, cast(QuoteLine, clash.current))
    except ValidationError as error:
        _show(form, error)
        return _line_page(request, quote, form, status=422)
    except QuoteError as error:
        form.add_error(None, error.sentence)
        return _line_page(request, quote, form, status=409)
    messages.success(request, "Saved. The quote is priced anew.")
    return redirect("quoting:quote", pk=pk)


@require_POST
@office_only
def line_remove(request: HttpRequest, pk: int, line_pk: int) -> HttpResponse:
    person = person_of(request)
    line = get_line_for(person, pk, line_pk)
    try:
        services.remove_line(line=line, by=person, began_from=whole_number(request.POST.get("version", "")))
    except Clash:
        messages.warning(request, "Somebody changed this line meanwhile. Look at it again first.")
        return redirect("quoting:line", pk=pk, line_pk=line_pk)
    except QuoteError as error:
        messages.error(request, error.sentence)
    else:
        messages.success(request, f"“{line.text}” is out. The quote is priced anew.")
    return redirect("quoting:quote", pk=pk)


def _line_page(
    request: HttpRequest, quote: Quote, form: LineForm, status: int = 200, clash: object = None
) -> HttpResponse:
    context = {"quote": quote, "form": form, "line": form.instance, "clash": clash}
    return render(request, "quoting/line.html", context, status=status)


def _clash_page(request: HttpRequest, quote: Quote, form: LineForm, current: QuoteLine) -> HttpResponse:
    """What was typed stays; saving again from here puts it in place of what stands now."""
    rows = clash_rows(form, LineForm(instance=current, quote=quote))
    begin_from(form, current.version)
    return _line_page(request, quote, form, status=409, clash=rows)


def _show(form: LineForm, error: ValidationError) -> None:
    """Beside the field where the form has it, else above."""
    for name, sentences in getattr(error, "message_dict", {"__all__": error.messages}).items():
        form.add_error(name if name in form.fields else None, sentences)
