"""The pages of climate, restrictions and the year: who may, what is kept, what is said."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from office.models import AuditEvent
from office.versions import Clash
from sites.models import ClimateMonth, SiteClimate, WateringRules
from tests.watering.pages import (
    climate_post,
    csv_text,
    keep_climate,
    keep_rules,
    rows_of,
    rules_post,
)
from tests.watering.zones import ETO_MM


def url(name, site, plan=None):
    return reverse(f"sites:{name}", args=[site.pk, plan.number] if plan else [site.pk])


def upload(client, site, content, began_from=0, name="climate.csv"):
    file = SimpleUploadedFile(name, content if isinstance(content, bytes) else content.encode(), "text/csv")
    return client.post(url("climate-file", site), {"began_from": began_from, "source": "file", "file": file})


# who may


@pytest.mark.parametrize("name", ["climate", "watering-rules"])
@pytest.mark.parametrize("method", ["get", "post"])
def test_an_installer_may_not(installer_client, site, name, method):
    assert getattr(installer_client, method)(url(name, site)).status_code == 403


def test_an_installer_may_not_see_the_year(installer_client, site, plan, climate):
    assert installer_client.get(url("watering", site, plan)).status_code == 403
    api = f"/api/sites/{site.pk}/plans/{plan.number}/watering/"
    assert installer_client.get(api).status_code in (403, 404)


def test_a_stranger_is_sent_to_the_login(client, site, plan):
    for address in (url("climate", site), url("watering-rules", site), url("watering", site, plan)):
        assert client.get(address)["Location"].startswith("/account/login/")
    assert client.get(f"/api/sites/{site.pk}/plans/1/watering/").status_code in (401, 403)


def test_what_is_not_there_is_a_404(clerk_client, site, plan):
    assert clerk_client.get(reverse("sites:watering", args=[site.pk, 99])).status_code == 404
    assert clerk_client.get(reverse("sites:climate", args=[site.pk + 999])).status_code == 404
    assert clerk_client.get(f"/api/sites/{site.pk}/plans/99/watering/").status_code == 404


def test_wrong_methods(clerk_client, site, plan):
    assert clerk_client.post(url("watering", site, plan)).status_code == 405
    assert clerk_client.get(url("climate-file", site)).status_code == 405
    assert clerk_client.delete(url("climate", site)).status_code == 405


# climate, typed


def test_a_typed_climate_is_kept_with_its_text(clerk_client, clerk, site, plan):
    answer = clerk_client.post(url("climate", site), climate_post(eto_7="3.8 in"))
    assert answer["Location"] == url("watering", site, plan)
    july = ClimateMonth.objects.get(climate__site=site, month=7)
    assert (july.eto_mm, july.eto_text) == (pytest.approx(96.52), "3.8 in")
    assert july.rain_text == "45 mm"
    assert AuditEvent.objects.filter(verb="climate.saved", person=clerk).count() == 1


def test_without_a_plan_the_way_goes_back_to_the_site(clerk_client, site):
    answer = clerk_client.post(url("climate", site), climate_post())
    assert answer["Location"] == reverse("sites:site", args=[site.pk])


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("eto_3", "", "a month without any has 0"),
        ("eto_3", "nan", "is not a number"),
        ("rain_3", "-4", "cannot be negative"),
        ("eto_3", "600", "more than any month has"),
        ("rain_3", "4 bar", "no unit of depth"),
        ("rain_3", "9" * 41, "at most 40 characters"),
        ("source", "x" * 201, "at most 200 characters"),
    ],
)
def test_a_figure_that_cannot_be_is_said_beside_its_field(clerk_client, site, field, typed, words):
    answer = clerk_client.post(url("climate", site), climate_post(**{field: typed}))
    assert answer.status_code == 422
    text = answer.content.decode()
    assert words in text
    assert 'value="96"' in text  # July stays
    assert not SiteClimate.objects.exists()


def test_two_people_at_once_are_shown_both(clerk_client, site, climate):
    keep_climate(site, rows=rows_of(eto=[10] * 12), began_from=1)
    answer = clerk_client.post(url("climate", site), climate_post(began_from=1))
    assert answer.status_code == 409
    text = answer.content.decode()
    assert "Somebody else saved this" in text
    assert 'name="began_from" value="2"' in text
    assert ClimateMonth.objects.filter(climate__site=site, eto_mm=10).count() == 12
    again = clerk_client.post(url("climate", site), climate_post(began_from=2))
    assert again.status_code == 302


def test_the_first_save_of_two_wins(site, climate):
    with pytest.raises(Clash):
        keep_climate(site, rows=rows_of(eto=[10] * 12))
    assert ClimateMonth.objects.get(climate__site=site, month=7).eto_mm == 96


# climate, from a file


def test_a_file_takes_the_place_of_all_months(clerk_client, site, plan, climate):
    rows = [(month, 50, 40) for month in range(1, 13)]
    assert upload(clerk_client, site, csv_text(rows=rows), began_from=1).status_code == 302
    assert set(ClimateMonth.objects.filter(climate__site=site).values_list("eto_mm", flat=True)) == {50.0}
    assert SiteClimate.objects.get(site=site).source == "file"


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "That file is empty"),
        (b"month,eto,rain\n5,x,3\n", "Row 2: May, reference evapotranspiration"),
        (b"x" * 30_000, "kB"),
        (b"\xff\xfe", "not UTF-8"),
    ],
)
def test_a_bad_file_is_said_and_nothing_changes(clerk_client, site, climate, content, words):
    answer = upload(clerk_client, site, content, began_from=1)
    assert answer.status_code == 422
    assert words in answer.content.decode()
    assert [m.eto_mm for m in ClimateMonth.objects.filter(climate__site=site)] == ETO_MM


def test_no_file_at_all(clerk_client, site):
    answer = clerk_client.post(url("climate-file", site), {"began_from": 0})
    assert answer.status_code == 422
    assert "Choose a file first" in answer.content.decode()


def test_what_a_file_holds_is_shown_as_text(clerk_client, site):
    answer = upload(clerk_client, site, csv_text(rows=[("<script>x</script>", 1, 2)]))
    assert b"<script>x" not in answer.content


def test_a_file_that_clashes_is_laid_into_the_table(clerk_client, site, climate):
    keep_climate(site, rows=rows_of(eto=[10] * 12), began_from=1)
    answer = upload(clerk_client, site, csv_text(), began_from=1)
    assert answer.status_code == 409
    assert 'value="96 mm"' in answer.content.decode()


# restrictions


def test_restrictions_are_kept(clerk_client, site, plan):
    answer = clerk_client.post(url("watering-rules", site), rules_post())
    assert answer["Location"] == url("watering", site, plan)
    rules = WateringRules.objects.get(site=site)
    assert rules.weekdays == [1, 3]
    assert (rules.monthly_cap_l, rules.monthly_cap_text) == (30_000, "30 m3")


def test_nothing_written_down_shows_every_day(clerk_client, site):
    text = clerk_client.get(url("watering-rules", site)).content.decode()
    assert text.count("checked") == 7


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"days": ()}, "Tick at least one day"),
        ({"to_time": ""}, "Give both a beginning and an end"),
        ({"to_time": "21:00"}, "Beginning and end are the same"),
        ({"from_time": "25:99"}, "Enter a valid time"),
        ({"monthly_cap": "0"}, "above zero"),
        ({"monthly_cap": "nan"}, "is not a number"),
        ({"monthly_cap": "900000 m3"}, "below 100,000 m3"),
        ({"rain_share_pct": "101"}, "less than or equal to 100"),
        ({"rain_share_pct": "-1"}, "greater than or equal to 0"),
        ({"multiplier": "both"}, "Select a valid choice"),
    ],
)
def test_restrictions_that_cannot_be(clerk_client, site, changed, words):
    answer = clerk_client.post(url("watering-rules", site), rules_post(**changed))
    assert answer.status_code == 422
    assert words in answer.content.decode()
    assert not WateringRules.objects.exists()


def test_two_people_at_once_on_restrictions(clerk_client, site):
    keep_rules(site, weekdays=[6])
    answer = clerk_client.post(url("watering-rules", site), rules_post(began_from=0))
    assert answer.status_code == 409
    text = answer.content.decode()
    assert "Sunday" in text
    assert 'name="began_from" value="1"' in text
    assert WateringRules.objects.get(site=site).weekdays == [6]


# the year


def test_without_a_climate_the_page_says_what_to_do(clerk_client, site, plan):
    answer = clerk_client.get(url("watering", site, plan))
    assert answer.status_code == 200
    assert "no climate yet" in answer.content.decode()
    assert url("climate", site) in answer.content.decode()


def test_the_year_shows_minutes_water_baseline_and_caution(clerk_client, site, plan, climate):
    keep_rules(site, weekdays=[1, 3], monthly_cap_l=15_000.0, monthly_cap_text="15 m3")
    text = clerk_client.get(url("watering", site, plan)).content.decode()
    assert "Restrictions by the local authority come first" in text
    assert "the peak month&#x27;s minutes in every month that waters" in text
    assert "no credit for rain" in text
    assert "watering.cap.over" in text
    assert "<svg" in text
    assert "at most 15,000 L a month" in text


def test_the_page_and_the_api_say_the_same(clerk_client, site, plan, climate):
    api = clerk_client.get(f"/api/sites/{site.pk}/plans/{plan.number}/watering/").json()
    text = clerk_client.get(url("watering", site, plan)).content.decode()
    assert f"{api['litres']:,.0f} L" in text
    july = api["months"][6]
    for zone in july["zones"]:
        assert zone["week_l"] == pytest.approx(
            zone["week_min"] * next(z["flow_lpm"] for z in api["zones"] if z["id"] == zone["zone"])
        )
        assert f"{zone['days']} × {zone['day_min']}" in text
    assert api["litres"] == pytest.approx(sum(month["litres"] for month in api["months"]))


def test_the_api_without_a_climate(clerk_client, site, plan):
    answer = clerk_client.get(f"/api/sites/{site.pk}/plans/{plan.number}/watering/")
    assert answer.status_code == 422
    assert "no climate" in answer.json()["detail"]


def test_us_units_are_gallons_and_inches(clerk_client, db):
    from tests.sites.makers import make_plan, make_site, take_in_parts

    take_in_parts()
    site = make_site(units="us")
    plan = make_plan(site)
    keep_climate(site)
    text = clerk_client.get(url("watering", site, plan)).content.decode()
    assert "US gal" in text
    assert "3.78 in" in text  # 96 mm
    assert " L a month" not in text


def test_the_plan_and_the_site_lead_there(clerk_client, site, plan):
    plan_page = clerk_client.get(reverse("sites:plan", args=[site.pk, plan.number])).content.decode()
    site_page = clerk_client.get(reverse("sites:site", args=[site.pk])).content.decode()
    assert url("watering", site, plan) in plan_page
    assert url("climate", site) in site_page
    assert url("watering-rules", site) in site_page


def test_hostile_text_stays_text(clerk_client, site, plan):
    keep_climate(site, source="<b>bold</b>")
    assert b"<b>bold" not in clerk_client.get(url("watering", site, plan)).content


def test_the_year_asks_the_database_a_handful_of_times(
    clerk_client, site, plan, climate, django_assert_max_num_queries
):
    clerk_client.get(url("watering", site, plan))  # fills the cache of checks
    with django_assert_max_num_queries(14):
        clerk_client.get(url("watering", site, plan))
