"""Pricing settings, for the owner."""

from decimal import Decimal
from typing import cast

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from office.access import owner_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from quoting.forms import begin_from
from quoting.models import Kind, Policy, ProductionRate
from quoting.policies import get_policy, production_rates, rates_dict, save_policy, save_rate
from quoting.policy_forms import PolicyForm, RateForm
from quoting.priced_quote import Kind as PureKind
from quoting.priced_quote import Target
from quoting.pricing_rates import KINDS, target_of


@require_http_methods(["GET", "HEAD", "POST"])
@owner_only
def policy_edit(request: HttpRequest) -> HttpResponse:
    policy = get_policy()
    if request.method != "POST":
        return _policy_page(request, PolicyForm(instance=policy), policy)
    form = PolicyForm(request.POST, instance=get_policy())
    if not form.is_valid():
        return _policy_page(request, form, policy, status=422)
    try:
        save_policy(
            policy=policy,
            began_from=form.cleaned_data["began_from"],
            fields=form.fields_for_service(),
            by=person_of(request),
        )
    except Clash as clash:
        current = cast(Policy, clash.current)
        rows = clash_rows(form, PolicyForm(instance=current))
        begin_from(form, current.version)
        return _policy_page(request, form, current, status=409, clash=rows)
    messages.success(request, "Saved. Drafts keep the rates of their day until you work them out anew.")
    return redirect("quoting:policy")


def _policy_page(
    request: HttpRequest, form: PolicyForm, policy: Policy, status: int = 200, clash: object = None
) -> HttpResponse:
    stored = rates_dict(policy, {})
    rows = [_earned(kind, target_of(stored, kind)) for kind in KINDS]
    context = {
        "form": form,
        "earned_rows": rows,
        "clash": clash,
        "wide": ("stages", "exclusions", "warranty"),
    }
    return render(request, "quoting/policy.html", context, status=status)


def _earned(kind: PureKind, target: Target) -> dict[str, object]:
    """One method's figure in both ways, so that nobody takes the one for the other."""
    price = target.price(Decimal(100))
    return {"label": Kind(kind).label, "margin": target.margin, "markup": target.markup, "price": price}


@require_safe
@owner_only
def rate_list(request: HttpRequest) -> HttpResponse:
    rows = [(rate, RateForm(instance=rate)) for rate in production_rates().values()]
    return render(request, "quoting/rates.html", {"rows": rows})


@require_POST
@owner_only
def rate_edit(request: HttpRequest, work: str) -> HttpResponse:
    """One row of the table; htmx takes the row back, a plain form the page."""
    rate = get_object_or_404(ProductionRate, work=work)
    form = RateForm(request.POST, instance=get_object_or_404(ProductionRate, work=work))
    status, saved = 422, False
    if form.is_valid():
        status, saved = _save_rate(request, rate, form)
    if saved and not getattr(request, "htmx", False):
        messages.success(request, f"{rate.label}: saved.")
        return redirect("quoting:rates")
    if saved:
        rate.refresh_from_db()
        form = RateForm(instance=rate)
    context = {"rate": rate, "form": form, "saved": saved}
    if getattr(request, "htmx", False):
        return render(request, "quoting/_rate.html", context, status=status)
    rows = [(r, form if r.work == work else RateForm(instance=r)) for r in production_rates().values()]
    return render(request, "quoting/rates.html", {"rows": rows}, status=status)


def _save_rate(request: HttpRequest, rate: ProductionRate, form: RateForm) -> tuple[int, bool]:
    data = form.cleaned_data
    try:
        save_rate(rate=rate, began_from=data["began_from"], value=data["value"], by=person_of(request))
    except Clash as clash:
        current = cast(ProductionRate, clash.current)
        theirs = f"{current.value.normalize():f}"
        form.add_error("value", f"Somebody else saved {theirs} here. Save again to replace it.")
        begin_from(form, current.version)
        return 409, False
    except ValidationError as error:
        form.add_error("value", error.messages)
        return 422, False
    return 200, True
