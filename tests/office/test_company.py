"""The company's profile: saved by version, refused with a sentence."""

import pytest
from django.urls import reverse

from office import services
from office.company import get_company
from office.models import Company
from office.versions import Clash


def typed(company, **changed):
    from office.forms import CompanyForm

    data = {name: getattr(company, name) for name in CompanyForm.Meta.fields}
    return {**data, "began_from": company.version, **changed}


def test_the_owner_changes_the_profile(owner_client):
    company = get_company()
    answer = owner_client.post(reverse("office:company"), typed(company, name="Lindwater Gardens"))
    assert answer.status_code == 302
    assert get_company().name == "Lindwater Gardens"
    assert get_company().version == company.version + 1


def test_two_who_edit_at_once_never_overwrite_each_other(owner, owner_client):
    company = get_company()
    services.update_company(by=owner, began_from=company.version, fields={"phone": "111"})
    answer = owner_client.post(reverse("office:company"), typed(company, phone="222"))
    assert answer.status_code == 422
    assert "Somebody else saved this in the meantime" in answer.content.decode()
    assert 'value="222"' in answer.content.decode()
    assert get_company().phone == "111"
    with pytest.raises(Clash) as clash:
        services.update_company(by=owner, began_from=company.version, fields={"phone": "333"})
    assert clash.value.current.phone == "111"


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"locale": "klingon!"}, "language and country"),
        ({"currency": "XQQ"}, "three letters"),
        ({"country": "D3"}, "two letters"),
        ({"accent": "red"}, "hexadecimal"),
        ({"locate_working_days": "-1"}, "greater than or equal to 0"),
        ({"name": ""}, "required"),
    ],
)
def test_bad_input_gets_a_sentence(owner_client, wrong, sentence):
    company = get_company()
    answer = owner_client.post(reverse("office:company"), typed(company, **wrong))
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert Company.objects.get() == company
