"""The owner moves a limit: page, refusals, clashes, trail, and every check judged by it."""

import io

import pytest
from django.core.management import call_command
from django.urls import reverse

from hydraulics.limits import DEFAULT_LIMITS, BadLimit
from office.models import AuditEvent, Company
from office.versions import Clash
from quoting.drafting import draft_quote
from quoting.reports import report_of
from sites.check import check_revision
from sites.limit_services import company_limits, move_limit
from sites.models import LimitSetting

NAME = "pipe_velocity_warn_mps"
pytestmark = pytest.mark.django_db


def page(name=NAME):
    return reverse("sites:limit", args=[name])


def typed(value, reason="Our own jobs", began_from=0):
    return {"value": value, "reason": reason, "began_from": began_from}


def moved(value=0.4, name=NAME, began_from=0):
    return move_limit(name=name, value=value, reason="Our own jobs", began_from=began_from, by=None)


def test_the_page_lists_every_limit_with_its_source(owner_client):
    text = owner_client.get(reverse("sites:limits")).content.decode()
    assert "Velocity in a pipe, to be judged above" in text
    assert "29 CFR 1926.652(a)(1)" in text
    assert "All limits stand at their usual values" in text
    assert reverse("sites:limits") in owner_client.get(reverse("office:company")).content.decode()


def test_only_the_owner_sees_or_moves_limits(clerk_client, installer_client, client):
    for address in (reverse("sites:limits"), page()):
        assert clerk_client.get(address).status_code == 403
        assert installer_client.get(address).status_code == 403
        assert client.get(address).status_code == 302
    assert clerk_client.post(page(), typed("1.8")).status_code == 403
    assert not LimitSetting.objects.exists()


def test_a_moved_limit_names_who_when_and_why(owner_client, owner):
    assert owner_client.post(page(), typed("1,8")).status_code == 302
    row = LimitSetting.objects.get()
    assert (row.value, row.reason, row.changed_by) == (1.8, "Our own jobs", owner)
    event = AuditEvent.objects.get(verb="limit.moved")
    assert event.detail == {"limit": NAME, "from": None, "to": 1.8, "reason": "Our own jobs"}
    text = owner_client.get(reverse("sites:limits")).content.decode()
    assert "1.8 m/s" in text
    assert "Our own jobs" in text
    assert "Olga Test" in text


def test_it_goes_back_to_the_usual_value(owner_client):
    moved(1.8)
    assert owner_client.post(page(), typed("", began_from=1)).status_code == 302
    assert company_limits() == DEFAULT_LIMITS
    assert AuditEvent.objects.get(verb="limit.put_back").detail["from"] == 1.8


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        (typed("fast"), "Type a number"),
        (typed("nan"), "Type a number"),
        (typed("1e999"), "Type a number"),
        (typed("-2"), "cannot be meant"),
        (typed("900"), "cannot be meant"),
        (typed("2.2"), "would lie above"),
        (typed("1.8", reason=" "), "Say why"),
        (typed("1.8", began_from="x"), ""),
    ],
)
def test_what_cannot_be_is_refused_beside_the_field_and_stays_typed(owner_client, fields, said):
    answer = owner_client.post(page(), fields)
    text = answer.content.decode()
    assert answer.status_code == 422
    assert said in text
    assert f'value="{fields["value"]}"' in text
    assert not LimitSetting.objects.exists()


def test_a_limit_that_there_is_not(owner_client):
    assert owner_client.get(page("gravity")).status_code == 404
    assert owner_client.post(page("gravity"), typed("9.8")).status_code == 404
    with pytest.raises(BadLimit):
        moved(name="gravity")


def test_two_people_never_overwrite_each_other_in_silence(owner_client):
    moved(1.8)
    answer = owner_client.post(page(), typed("1.7", began_from=0))
    text = answer.content.decode()
    assert answer.status_code == 409
    assert "Somebody else saved this" in text
    assert "1.8" in text
    assert 'value="1.7"' in text
    assert company_limits().pipe_velocity_warn_mps == 1.8
    assert owner_client.post(page(), typed("1.7", began_from=1)).status_code == 302
    assert company_limits().pipe_velocity_warn_mps == 1.7


def test_a_first_move_begun_from_nothing_clashes_where_somebody_was_first():
    moved(1.8)
    with pytest.raises(Clash):
        moved(1.7, began_from=0)


def test_a_pair_is_judged_with_what_else_was_moved():
    moved(3.0, "pipe_velocity_stop_mps")
    moved(2.5)
    with pytest.raises(BadLimit, match="would lie above"):
        moved(2.1, "pipe_velocity_stop_mps", began_from=1)


def test_what_a_later_program_no_longer_knows_stops_no_check():
    LimitSetting.objects.create(name="forgotten", value=3, reason="x")
    LimitSetting.objects.create(name="coverage_grid_m", value=0, reason="x")
    assert company_limits() == DEFAULT_LIMITS


def test_every_check_is_judged_by_the_companys_limits_at_once(plan, owner_client):
    usual = check_revision(plan)
    assert usual.moved_limits == ()
    moved()
    own = check_revision(plan)
    assert [(row.name, row.usual, row.own) for row in own.moved_limits] == [(NAME, 1.5, 0.4)]
    assert "pipe.velocity.high" in {finding.code for finding in own.findings}
    assert check_revision(plan) is own
    text = owner_client.get(reverse("sites:plan", args=[plan.site_id, 1])).content.decode()
    assert "Judged by limits of our own" in text
    assert "0.4 m/s" in text
    move_limit(name=NAME, value=None, reason="back", began_from=1, by=None)
    assert check_revision(plan) == usual


def test_the_command_says_so_too_and_can_judge_by_the_usual_ones(plan, tmp_path):
    file = "tests/plans/s1.json"
    moved(1.4)
    out = io.StringIO()
    call_command("check_plan", file, stdout=out)
    assert "LIMITS THAT THE COMPANY HAS MOVED" in out.getvalue()
    out = io.StringIO()
    call_command("check_plan", file, "--usual-limits", stdout=out)
    assert "LIMITS" not in out.getvalue()


def test_the_report_kept_with_a_quote_says_which_limits_were_moved(plan):
    moved(1.4)
    quote = draft_quote(plan=plan, by=None)
    assert quote.basis.report["moved_limits"][0]["own"] == 1.4
    kept = report_of(quote.basis.report)
    assert kept.moved_limits[0].name == NAME
    # a report that was kept before limits could be moved still reads
    old = {name: value for name, value in quote.basis.report.items() if name != "moved_limits"}
    old["areas"] = [
        {
            name: value
            for name, value in area.items()
            if name not in ("outside", "dry_spots", "driest_mm_per_hour")
        }
        for area in old["areas"]
    ]
    assert report_of(old).moved_limits == ()


def test_a_company_in_us_units_sees_both(owner_client):
    Company.objects.update_or_create(pk=1, defaults={"name": "Firm", "units": "us"})
    text = owner_client.get(reverse("sites:limits")).content.decode()
    assert "1.5 m/s (4.92 ft/s)" in text
    assert "0.45 m (1.48 ft)" in text
