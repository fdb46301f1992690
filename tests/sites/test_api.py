"""Customers, sites, visits and plans by API: who may, versions, refusals."""

import pytest

from sites.models import Customer, PlanRevision, Visit
from tests.sites.makers import make_site, plan_document

VISIT = {
    "visited_on": "2026-05-04", "measured_by": "Ola", "static_text": "58",
    "tests": [{"kind": "bucket", "volume_text": "5", "fill_text": "45"},
              {"kind": "gauge", "flow_text": "5.5 gpm", "residual_text": "44 psi"}],
    "heights": [{"place": "Back lawn", "height_text": "1 ft"}],
}  # fmt: skip


def send(client, method, place, body):
    return getattr(client, method)(place, body, content_type="application/json")


@pytest.fixture
def visit(us_site, parts_book, owner_client):
    return send(owner_client, "post", f"/api/sites/{us_site.pk}/visits/", VISIT).json()


@pytest.fixture
def places(customer, site, us_site, plan, visit):
    return [
        "/api/customers/", f"/api/customers/{customer.pk}/", "/api/sites/", f"/api/sites/{site.pk}/",
        f"/api/sites/{us_site.pk}/visits/", f"/api/sites/{us_site.pk}/visits/{visit['id']}/",
        f"/api/sites/{site.pk}/plans/", f"/api/sites/{site.pk}/plans/1/",
        f"/api/sites/{site.pk}/plans/1/check/",
    ]  # fmt: skip


def test_who_may(places, owner_client, clerk_client, installer_client, client):
    for place in places:
        assert owner_client.get(place).status_code == 200, place
        assert clerk_client.get(place).status_code == 200
        assert installer_client.get(place).status_code == 403
        assert client.get(place).status_code == 403
        assert owner_client.delete(place).status_code == 405


@pytest.mark.parametrize(
    "place",
    ["customers/999", "customers/" + "9" * 30, "sites/999", "sites/999/visits", "sites/999/plans",
     "sites/999/plans/1", "sites/999/plans/1/check", "sites/999/visits/1"],
)  # fmt: skip
def test_what_is_missing_is_a_404(owner_client, place):
    assert owner_client.get(f"/api/{place}/").status_code == 404


def test_a_visit_of_another_site_is_a_404(site, visit, owner_client):
    assert owner_client.get(f"/api/sites/{site.pk}/visits/{visit['id']}/").status_code == 404


def test_lists_take_the_same_queries_for_many(customer, owner_client, django_assert_max_num_queries):
    for number in range(20):
        make_site(customer, name=f"Site {number}")
    for place in ("/api/customers/", "/api/sites/"):
        with django_assert_max_num_queries(5):
            owner_client.get(place)


def test_a_customer_is_added_searched_and_changed_with_its_version(owner_client):
    made = send(owner_client, "post", "/api/customers/", {"name": "Ines Okoro", "phone": "030/99-88-77"})
    assert made.status_code == 201
    found = owner_client.get("/api/customers/", {"q": "+4930998877"}).json()
    assert found["count"] == 0  # the country code was never written down
    assert owner_client.get("/api/customers/", {"q": "30 99 88 77"}).json()["count"] == 1
    place, body = f"/api/customers/{made.json()['id']}/", {"name": "Ines Okoro-Lund", "version": 1}
    assert send(owner_client, "put", place, body).json()["version"] == 2
    late = send(owner_client, "put", place, {**body, "name": "Other"})
    assert late.status_code == 409
    assert late.json()["current"]["name"] == "Ines Okoro-Lund"
    assert send(owner_client, "put", place, {"name": "Other"}).json() == {
        "version": ["Give the version that this change began from."]
    }


def test_a_site_is_added_and_changed(customer, owner_client):
    body = {"customer": customer.pk, "name": "Yard", "units": "us"}
    made = send(owner_client, "post", "/api/sites/", body)
    assert made.status_code == 201
    place = f"/api/sites/{made.json()['id']}/"
    assert send(owner_client, "put", place, {**body, "name": "Back yard", "version": 1}).status_code == 200
    assert send(owner_client, "put", place, {**body, "version": 1}).status_code == 409


BAD_BODIES = [
    "", "{", "[]", "3", "null", '{"name": ""}', '{"name": NaN}', '{"name": {}}', '{"name": "a\\u0000b"}',
    '{"name": "\\ud800"}', '{"name": "' + "x" * 201 + '"}', '{"name": "x", "email": "nobody"}',
    '{"name": "x", "customer": 1e400}', '{"name": "x", "customer": ' + "9" * 40 + "}",
    "[" * 50_000, '{"name": ' + "9" * 5000 + "}",
]  # fmt: skip


@pytest.mark.parametrize(
    ("place", "body"),
    [
        *(("customers", body) for body in BAD_BODIES if '"customer": 99' not in body),
        *(("sites", body) for body in BAD_BODIES),
    ],
)
def test_a_bad_body_is_a_400_with_a_sentence(owner_client, place, body):
    answer = send(owner_client, "post", f"/api/{place}/", body)
    assert answer.status_code == 400
    assert answer.json()
    assert not Customer.objects.exists()


def test_a_body_of_ten_megabytes_is_refused(plan, owner_client):
    for place in ("customers", "sites", f"sites/{plan.site_id}/plans", f"sites/{plan.site_id}/visits"):
        answer = send(owner_client, "post", f"/api/{place}/", '{"name": "' + "x" * 10_000_000 + '"}')
        assert answer.status_code == 413
        assert "larger than" in answer.json()["detail"]


def test_a_visit_goes_in_as_typed_and_comes_out_in_si_too(visit):
    # NIST SP 811 appendix B: 1 psi = 6.894757 kPa, 1 US gal = 3.785411784 L
    assert (visit["static_text"], visit["static_kpa"]) == ("58 psi", pytest.approx(58 * 6.894757))
    bucket, gauge = visit["tests"]
    assert (bucket["volume_text"], bucket["volume_l"]) == ("5 gal", pytest.approx(5 * 3.785411784))
    assert (gauge["flow_text"], gauge["flow_lpm"]) == ("5.5 gpm", pytest.approx(5.5 * 3.785411784))
    assert visit["heights"][0]["height_m"] == pytest.approx(0.3048)


def test_what_came_out_may_go_in_again(visit, us_site, owner_client):
    place = f"/api/sites/{us_site.pk}/visits/{visit['id']}/"
    again = send(owner_client, "put", place, visit)
    assert again.status_code == 200, again.json()
    assert again.json() == {**visit, "version": 2}
    assert send(owner_client, "put", place, visit).status_code == 409


@pytest.mark.parametrize(
    ("fields", "where", "words"),
    [
        ({"static_text": "60 bar"}, "static", "Did you mean 60.0 psi"),
        ({"static_text": "NaN"}, "static_text", "is not a number"),
        ({"static_text": 5.5e300}, "static_text", ""),
        ({"static_text": ["58"]}, "static_text", "valid string"),
        ({"visited_on": "soon"}, "visited_on", "wrong format"),
        ({"tests": 7}, "tests", ""),
        ({"tests": [{"kind": "bucket", "volume_text": "5"}]}, "tests", "needs this"),
        ({"tests": [{"kind": "hose"}]}, "tests", "valid choice"),
        ({"tests": [VISIT["tests"][0]] * 41}, "tests", "no more than 40"),
        ({"meter": "no-such-meter"}, "meter", "There is no meter"),
        ({"service_material": "lead"}, "service_material", "valid choice"),
    ],
)
def test_a_bad_visit_is_a_400_by_field(us_site, parts_book, owner_client, fields, where, words):
    answer = send(owner_client, "post", f"/api/sites/{us_site.pk}/visits/", {**VISIT, **fields})
    assert answer.status_code == 400
    assert words in str(answer.json()[where])
    assert not Visit.objects.exists()


def test_an_unusual_figure_asks_until_its_token_comes_back(us_site, parts_book, owner_client):
    place, body = f"/api/sites/{us_site.pk}/visits/", {**VISIT, "static_text": "120"}
    asked = send(owner_client, "post", place, body)
    assert asked.status_code == 400
    assert "rare static pressure" in asked.json()["static"][0]
    made = send(owner_client, "post", place, {**body, "confirmed": asked.json()["confirmed"]})
    assert made.status_code == 201


def test_a_plan_goes_in_and_its_check_comes_out(site, parts_book, owner_client):
    place = f"/api/sites/{site.pk}/plans/"
    made = send(owner_client, "post", place, {"began_from": 0, "document": plan_document()})
    assert (made.status_code, made.json()["number"]) == (201, 1)
    assert made.json()["document"]["supply"]["static_kpa"] == 450
    # trade facts, plain rectangle: design flow min(30.0; 47.8) L/min, common practice, no source
    report = owner_client.get(f"{place}1/check/").json()
    assert report["supply"]["design_flow_lpm"] == pytest.approx(30.0, rel=0.01)
    listed = owner_client.get(place).json()["results"]
    assert [sorted(row) for row in listed] == [["digest", "made_at", "name", "number"]]


def test_a_bad_plan_lists_its_problems(plan, owner_client):
    document = plan_document()
    document["layout"]["nodes"][3]["part"] = "no-such-part"
    body = {"began_from": 1, "document": document}
    answer = send(owner_client, "post", f"/api/sites/{plan.site_id}/plans/", body)
    assert answer.status_code == 400
    problem = answer.json()["problems"][0]
    assert (problem["field"], "no-such-part" in problem["sentence"]) == ("part", True)
    for wrong in (7, "text", None, []):
        body = {"began_from": 1, "document": wrong}
        answer = send(owner_client, "post", f"/api/sites/{plan.site_id}/plans/", body)
        assert answer.status_code == 400
    assert PlanRevision.objects.count() == 1


def test_a_plan_begun_from_an_older_revision_is_a_409(plan, owner_client):
    body = {"began_from": 0, "document": plan_document()}
    answer = send(owner_client, "post", f"/api/sites/{plan.site_id}/plans/", body)
    assert answer.status_code == 409
    assert answer.json()["current"]["number"] == 1


def test_a_plan_that_cannot_be_worked_out_says_why(plan, owner_client):
    from parts.models import Part

    Part.objects.filter(code="rotary-6").update(active=False)
    answer = owner_client.get(f"/api/sites/{plan.site_id}/plans/1/check/")
    assert answer.status_code == 422
    assert "rotary-6" in answer.json()["detail"]
