"""From a plan to lines, and what the office does to them."""

from decimal import Decimal

import pytest

from office.models import AuditEvent
from office.versions import Clash
from parts.models import Part, Price
from quoting.cost_side import cost_side
from quoting.errors import NotADraft, PlanNotPriceable
from quoting.models import Choice, Policy, Quote, QuoteLine
from quoting.offer import stages_of
from quoting.policies import get_policy
from quoting.services import (
    add_line,
    differences,
    discard_draft,
    draft_quote,
    edit_draft,
    edit_line,
    hindrances,
    issue_quote,
    new_revision,
    remove_line,
    rework_quote,
)
from quoting.totals import chosen_lines, total_of
from tests.quoting.factories import load_price_book, make_draft, make_plan, make_site

pytestmark = pytest.mark.django_db


def line_of(quote, key):
    return quote.lines.get(key=key)


def edit(line, clerk, **fields):
    saved = edit_line(line=line, began_from=line.version, by=clerk, fields=fields)
    return saved, Quote.objects.get(pk=line.quote_id)


def sums_hold(quote):
    lines = list(quote.lines.all())
    totals = total_of(chosen_lines(lines), quote.tax_by)
    return (totals.net, totals.tax, totals.total) == (quote.net, quote.tax, quote.total)


def test_a_draft_holds_what_the_plan_needs(draft):
    """Site S1 of the trade's test sites: 15 heads, 2 valves, 13 threaded tees, 16 sticks."""
    assert line_of(draft, "rotary-6").quantity == 15
    assert line_of(draft, "valve-25").quantity == 2
    assert line_of(draft, "pvc-25@6").quantity == 16
    assert line_of(draft, "swing-joint-15").quantity == 15
    assert sums_hold(draft)


def test_each_bought_line_says_where_it_goes(draft):
    ids = {node["id"] for node in draft.plan.document["layout"]["nodes"]}
    heads = line_of(draft, "rotary-6").where
    assert len(heads) == 15
    assert set(heads) <= ids
    assert all(line.where for line in draft.lines.filter(kind="material"))


def test_the_price_of_site_s1_to_the_cent(clerk):
    """Price test of site S1 (trade practice, worked by hand): labour 38 h at 30.00 x 1.30, overhead
    31.00 an hour, materials 1 450.00, contingency 5 %, margin 15 %, subcontract 650 at 1.15, permit 120."""
    load_price_book()
    quote = draft_quote(plan=make_plan(), by=clerk)
    quote.lines.all().delete()
    rows = [
        {"kind": "labour", "section": "ground", "text": "All work", "quantity": 38, "unit": "h"},
        {"kind": "material", "section": "pipe", "text": "All materials", "unit_cost": Decimal(1450)},
        {"kind": "subcontract", "section": "specialists", "text": "Plumber", "unit_cost": Decimal(650)},
        {"kind": "permit", "section": "permits", "text": "Permit", "unit_cost": Decimal(120)},
    ]
    for fields in rows:
        add_line(quote=quote, by=clerk, fields=fields)
    quote.refresh_from_db()
    assert (quote.net, quote.tax, quote.total) == (Decimal("5880.00"), Decimal("470.40"), Decimal("6350.40"))
    assert stages_of(quote.total, quote.basis.rates)[0]["amount"] == "1905.12"
    side = cost_side(list(quote.lines.all()))
    own = [row.cost for row in side.rows if row.label in ("Labour", "Material")]
    assert sum(own) == Decimal("4256.60")
    assert (side.overhead, side.contingency) == (Decimal("1178.00"), Decimal("146.60"))
    assert round(side.before_overhead * 100, 1) == Decimal("34.5")
    assert sums_hold(quote)


def test_margin_and_markup_are_both_there_and_differ(draft):
    whole = cost_side(list(draft.lines.all())).whole
    assert whole.markup > whole.margin > 0
    assert abs(whole.markup - whole.margin / (1 - whole.margin)) < Decimal("0.0001")


def test_editing_a_quantity_prices_everything_anew(draft, clerk):
    line, before = line_of(draft, "rotary-6"), draft.total
    saved, quote = edit(line, clerk, quantity=Decimal(30))
    assert saved.cost == 2 * line.cost
    assert saved.quantity_edited
    assert quote.total > before
    assert sums_hold(quote)
    assert quote.net % 5 == 0  # still rounded up to the step


def test_a_price_of_ones_own_stands_and_needs_a_reason(draft, clerk):
    line = line_of(draft, "rotary-6")
    saved, quote = edit(
        line, clerk, price=Decimal("400.00"), price_fixed=True, price_reason="agreed on the phone"
    )
    assert saved.price == Decimal("400.00")
    assert saved.computed_price == line.computed_price
    assert sums_hold(quote)
    from django.db import IntegrityError, transaction

    with pytest.raises(IntegrityError), transaction.atomic():
        QuoteLine.objects.filter(pk=line.pk).update(price_reason="")
    freed, _ = edit(saved, clerk, price_fixed=False)
    assert freed.price == line.price
    assert freed.price_reason == ""


def test_an_hour_added_by_hand_costs_what_an_hour_costs(draft, clerk):
    line = add_line(
        quote=draft, by=clerk,
        fields={"kind": "labour", "section": "other", "text": "Move the shed", "quantity": 2, "unit": "h"},
    )  # fmt: skip
    assert line.unit_cost == Decimal("39.0000")
    assert (line.cost, line.hours, line.overhead) == (Decimal("78.00"), 2, Decimal("62.00"))


def test_a_discount_is_an_adjustment_below_zero(draft, clerk):
    before = draft.net
    fields = {
        "kind": "adjustment", "section": "other", "text": "Neighbour's discount",
        "price": Decimal("-100.00"), "price_fixed": True, "price_reason": "two gardens at once",
    }  # fmt: skip
    add_line(quote=draft, by=clerk, fields=fields)
    draft.refresh_from_db()
    assert draft.net == before - 100
    assert sums_hold(draft)


def test_removing_a_line_takes_its_price_out(draft, clerk):
    before = draft.total
    remove_line(line=line_of(draft, "fee/plumber"), by=clerk)
    draft.refresh_from_db()
    assert draft.total < before
    assert sums_hold(draft)


def test_an_optional_line_is_not_in_the_total(draft, clerk):
    line, before = line_of(draft, "fee/plumber"), draft.net
    saved, quote = edit(line, clerk, choice=Choice.OPTIONAL)
    assert saved.price == line.price == Decimal("747.50")
    assert quote.net <= before - Decimal("745")
    assert sums_hold(quote)


def test_two_people_on_one_line_never_overwrite_silently(draft, clerk, owner):
    line = line_of(draft, "rotary-6")
    edit(line, clerk, text="Heads")
    with pytest.raises(Clash):
        edit_line(line=line, began_from=line.version, by=owner, fields={"text": "Sprinklers"})
    assert line_of(draft, "rotary-6").text == "Heads"


def test_two_people_on_one_title_never_overwrite_silently(draft, clerk, owner):
    edit_draft(quote=draft, began_from=draft.version, fields={"title": "First"}, by=clerk)
    with pytest.raises(Clash):
        edit_draft(quote=draft, began_from=draft.version, fields={"title": "Second"}, by=owner)


def test_working_out_anew_takes_todays_prices_and_keeps_what_people_did(draft, clerk):
    edit(
        line_of(draft, "rotary-6"),
        clerk,
        text="My heads",
        price=Decimal(333),
        price_fixed=True,
        price_reason="why not",
    )
    edit(line_of(draft, "valve-25"), clerk, quantity=Decimal(3))
    add_line(
        quote=draft, by=clerk, fields={"kind": "permit", "text": "Street closure", "unit_cost": Decimal(50)}
    )
    Price.objects.filter(part__code="pvc-25").update(price=Decimal("60.00"))
    quote = rework_quote(quote=draft, by=clerk)
    assert line_of(quote, "pvc-25@6").unit_cost == Decimal("60.0000")
    assert (line_of(quote, "rotary-6").text, line_of(quote, "rotary-6").price) == (
        "My heads",
        Decimal("333.00"),
    )
    assert line_of(quote, "valve-25").quantity == 3
    assert line_of(quote, "valve-25").computed_quantity == 2
    assert quote.lines.filter(text="Street closure").count() == 1
    assert sums_hold(quote)


def test_working_out_anew_twice_changes_nothing(draft, clerk):
    rework_quote(quote=draft, by=clerk)
    draft.refresh_from_db()
    once = list(draft.lines.values_list("pk", "key", "price", "quantity"))
    rework_quote(quote=draft, by=clerk)
    assert list(draft.lines.values_list("pk", "key", "price", "quantity")) == once


def test_rates_of_the_day_stay_with_a_draft_until_it_is_worked_out_anew(draft, clerk):
    get_policy()
    before = draft.total
    Policy.objects.update(wage_per_hour=Decimal("60.00"))
    _, quote = edit(line_of(draft, "rotary-6"), clerk, text="Heads")
    assert quote.total == before
    assert rework_quote(quote=draft, by=clerk).total > before


def test_a_part_without_a_price_is_a_line_that_holds_the_quote_back(clerk):
    load_price_book()
    Price.objects.filter(part__code="valve-25").delete()
    quote = draft_quote(plan=make_plan(), by=clerk)
    assert line_of(quote, "valve-25").lacks_price
    text = line_of(quote, "valve-25").text
    assert any(text in hindrance.sentence for hindrance in hindrances(quote))


def test_a_plan_that_cannot_be_priced_says_why_and_leaves_nothing(clerk):
    load_price_book()
    Part.objects.filter(code="pvc-25").delete()
    with pytest.raises(PlanNotPriceable, match="pvc-25"):
        draft_quote(plan=make_plan(), by=clerk)
    assert not Quote.objects.exists()


def test_no_trencher_through_the_gate_means_digging_by_hand(draft, clerk):
    before = draft.total
    edit_draft(quote=draft, began_from=draft.version, fields={"machine_access": False}, by=clerk)
    quote = rework_quote(quote=draft, by=clerk)
    assert quote.lines.filter(key="labour/trench-hand").exists()
    assert not quote.lines.filter(key="labour/trench-machine").exists()
    assert quote.total > before


def test_the_smallest_job_is_a_line_of_its_own(clerk):
    get_policy()
    Policy.objects.update(minimum_job=Decimal("9000.00"))
    quote = make_draft(clerk)
    assert quote.net == Decimal("9000.00")
    assert quote.lines.get(key="smallest-job").price > 3000
    quote = rework_quote(quote=quote, by=clerk)
    assert quote.lines.filter(key="smallest-job").count() == 1
    assert sums_hold(quote)


def test_tax_by_line_and_by_total_hold_on_their_own_terms(clerk):
    get_policy()
    Policy.objects.update(tax_by="line", tax_material=Decimal("7.7"), tax_labour=Decimal("19"))
    quote = make_draft(clerk)
    assert quote.tax_by == "line"
    assert sums_hold(quote)
    totals = total_of(chosen_lines(list(quote.lines.all())), "line")
    assert {tax.percent for tax in totals.taxes} == {Decimal("7.7"), Decimal(19), Decimal(8)}


def test_discarding_a_draft_removes_it_and_keeps_the_trail(draft, clerk):
    discard_draft(quote=draft, by=clerk)
    assert not Quote.objects.exists()
    assert AuditEvent.objects.filter(verb="quote.discarded").exists()


def test_what_is_out_cannot_be_discarded(issued, clerk):
    with pytest.raises(NotADraft):
        discard_draft(quote=issued, by=clerk)


def test_differences_between_revisions_in_words(issued, clerk):
    draft = new_revision(quote=issued, by=clerk)
    assert differences(issued, draft) == []
    remove_line(line=draft.lines.get(key="fee/permit"), by=clerk)
    add_line(
        quote=draft, by=clerk, fields={"kind": "permit", "text": "Street closure", "unit_cost": Decimal(50)}
    )
    edit(draft.lines.get(key="valve-25"), clerk, quantity=Decimal(3))
    draft.refresh_from_db()
    said = "\n".join(differences(issued, draft))
    for words in (
        "New: Street closure, €50.00.",
        "Gone: Permit, €120.00.",
        "quantity 2 became 3 each",
        "The total is",
    ):
        assert words in said
    assert "€2.96 became €2.97" not in said  # shared-out cents are no change of anything


def test_a_revision_copies_alternatives_to_its_own_lines(draft, clerk):
    valve = line_of(draft, "valve-25")
    add_line(
        quote=draft, by=clerk,
        fields={"kind": "material", "section": "valves", "text": "Brass valves", "unit_cost": Decimal(90),
                "choice": Choice.ALTERNATE, "alternative_to": valve},
    )  # fmt: skip
    draft.refresh_from_db()
    issued = issue_quote(quote=draft, by=clerk)
    copy = new_revision(quote=issued, by=clerk)
    brass = copy.lines.get(text="Brass valves")
    assert brass.alternative_to.quote_id == copy.pk
    assert brass.alternative_to.key == "valve-25"
    assert copy.total == issued.total


def test_another_plan_of_the_site_may_take_the_place_of_the_first(draft, clerk):
    newer = make_plan(site=draft.site)
    quote = rework_quote(quote=draft, by=clerk, plan=newer)
    assert quote.plan_id == newer.pk


def test_us_units_reach_the_words(clerk):
    issued = issue_quote(quote=make_draft(clerk, make_plan(site=make_site(units="us"))), by=clerk)
    offer = issued.seal.sealed["offer"]
    assert "sq ft" in offer["figures"][0]["value"]
    assert offer["water"]["available"].endswith("US gal/min")
