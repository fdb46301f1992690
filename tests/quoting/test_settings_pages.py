"""The owner's settings pages: pricing, and how fast work goes."""

import pytest
from django.urls import reverse

from quoting.models import Policy, ProductionRate
from quoting.policies import get_policy, production_rates

pytestmark = pytest.mark.django_db


def policy_form(**more):
    from quoting.policy_forms import PolicyForm

    form = PolicyForm(instance=get_policy())
    values = {name: form[name].value() for name in form.fields}
    return {name: "" if value is None else value for name, value in {**values, **more}.items()}


def test_the_owner_saves_the_policy(owner_client):
    url = reverse("quoting:policy")
    stages = "50 when the main is laid\n20,0 % at the end"
    response = owner_client.post(url, policy_form(wage_per_hour="41.50", stages=stages))
    assert response.status_code == 302
    policy = get_policy()
    assert str(policy.wage_per_hour) == "41.50"
    assert policy.stages == [
        {"percent": "50", "label": "when the main is laid"},
        {"percent": "20", "label": "at the end"},
    ]


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"wage_per_hour": "-1"}, "greater than or equal to 0"),
        ({"wage_per_hour": "nan"}, "Enter a number"),
        ({"labour_method": "margin", "labour_percent": "96"}, "below 95"),
        ({"tax_labour": "101"}, "less than or equal to 100"),
        ({"stages": "half at the end"}, "Line 1 is not a percentage"),
        ({"stages": "40 first\n20 then"}, "have to make 100"),
        ({"deposit_percent": "30", "deposit_cap_percent": "10"}, "at most 10"),
        ({"validity_days": "0"}, "greater than or equal to 1"),
        ({"burden": "0.5"}, "greater than or equal to 1"),
    ],
)
def test_bad_policy_input_is_said_and_stays(owner_client, typed, sentence):
    response = owner_client.post(reverse("quoting:policy"), policy_form(**typed))
    assert response.status_code == 422
    assert sentence in response.content.decode()
    assert get_policy().version == 1


def test_a_clash_on_the_policy_shows_both(owner_client):
    form = policy_form(wage_per_hour="50.00")
    Policy.objects.update(version=2, wage_per_hour="44.00")
    response = owner_client.post(reverse("quoting:policy"), form)
    assert response.status_code == 409
    text = response.content.decode()
    assert "44.00" in text
    assert "50.00" in text
    assert str(get_policy().wage_per_hour) == "44.00"


def test_production_rates_are_edited_row_by_row(owner_client):
    production_rates()
    url = reverse("quoting:rate", args=["trench-machine"])
    rate = ProductionRate.objects.get(work="trench-machine")
    assert owner_client.post(url, {"began_from": rate.version, "value": "0"}).status_code == 422
    response = owner_client.post(url, {"began_from": rate.version, "value": "22.5"}, HTTP_HX_REQUEST="true")
    assert response.status_code == 200
    assert "<html" not in response.content.decode()
    rate.refresh_from_db()
    assert rate.value == 22.5
    clash = owner_client.post(url, {"began_from": 1, "value": "9"})
    assert clash.status_code == 409
    assert "Somebody else saved 22.5" in clash.content.decode()
    assert owner_client.post(reverse("quoting:rate", args=["no-such-work"]), {}).status_code == 404
