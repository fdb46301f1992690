"""The invented company and customers point at files, people and parts that exist."""

import pytest

from design.document import BucketTest, GaugeTest
from tests.demo.files import DEMO, demo_catalogue, plan_of, read

COMPANY = read(DEMO / "company.json")
CUSTOMERS = read(DEMO / "customers.json")["customers"]
SITES = [site for customer in CUSTOMERS for site in customer["sites"]]
# exact, or conventional: NIST SP 811 for the gallon and the inch, psi from memory
IN_SI = {"bar": 100.0, "psi": 6.894757, "L/min": 1.0, "gpm": 3.785412, "L": 1.0, "gal": 3.785412}


def in_si(typed: str) -> float:
    number, unit = typed.split()
    return float(number) * IN_SI[unit]


def test_one_person_of_each_role_may_log_in():
    assert [person["role"] for person in COMPANY["people"]] == ["owner", "office", "installer"]


def test_nobody_can_be_written_to():
    """Addresses end in a name that RFC 2606 keeps from ever being used."""
    people = [*COMPANY["people"], *CUSTOMERS, COMPANY["company"]]
    assert all(person["email"].endswith(".example") for person in people)


def test_the_three_sites_stand_in_three_different_states():
    states = [(site.get("quote") or {}).get("status") for site in SITES]
    assert states == ["accepted", "issued", None]
    assert [bool(site.get("job")) for site in SITES] == [True, False, False]


@pytest.mark.parametrize("site", SITES, ids=lambda site: site["name"])
def test_every_site_names_a_plan_and_people_that_exist(site):
    plan_of(DEMO / site["plan"]["file"])
    staff = {person["email"] for person in COMPANY["people"]}
    assert set(site.get("job", {}).get("crew", [])) <= staff
    if "visit" in site:
        assert site["visit"]["measured_by"] in staff
        assert site["visit"]["meter"] in demo_catalogue()


@pytest.mark.parametrize("site", [s for s in SITES if "visit" in s], ids=lambda site: site["name"])
def test_what_was_typed_at_the_visit_is_what_the_plan_holds(site):
    supply, visit = plan_of(DEMO / site["plan"]["file"]).supply, site["visit"]
    assert in_si(visit["static_pressure"]["typed"]) == pytest.approx(supply.static_kpa, abs=0.05)
    assert len(visit["tests"]) == len(supply.tests)
    for typed, held in zip(visit["tests"], supply.tests, strict=True):
        if isinstance(held, BucketTest):
            assert in_si(typed["volume"]) == pytest.approx(held.litres, abs=0.005)
            assert float(typed["seconds"]) == held.seconds
        else:
            assert isinstance(held, GaugeTest)
            assert in_si(typed["flow"]) == pytest.approx(held.flow_lpm, abs=0.005)
            assert in_si(typed["residual"]) == pytest.approx(held.residual_kpa, abs=0.05)
