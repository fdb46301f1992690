"""Plan revisions: brought in, judged, kept as they were, and never overwritten in silence."""

import json

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from sites import check
from sites.errors import PlanClash, PlanRefused
from sites.models import PlanRevision
from sites.plan_difference import differences
from sites.plan_layout_text import editable_text
from sites.services import add_plan_revision
from tests.sites.makers import make_plan, make_site, plan_document, plan_text, visit_post


@pytest.fixture
def save_address(site):
    return reverse("sites:plan-save", args=[site.pk])


def changed(**supply):
    document = plan_document()
    document["supply"].update(supply)
    return document


def posted(document, began_from=1, name=""):
    text = document if isinstance(document, str) else json.dumps(document)
    return {"document": text, "began_from": began_from, "name": name}


def plan_pages(site):
    numbered = ["plan", "plan-edit", "plan-json", "plan-svg"]
    return [*(reverse(f"sites:{name}", args=[site.pk, 1]) for name in numbered),
            reverse("sites:plan-case", args=[site.pk, 1]) + "?label=Edge rows",
            reverse("sites:plan-import", args=[site.pk])]  # fmt: skip


def test_who_may_open_the_pages(plan, site, owner_client, clerk_client, installer_client, client):
    for address in plan_pages(site):
        assert owner_client.get(address).status_code == 200, address
        assert clerk_client.get(address).status_code == 200
        assert installer_client.get(address).status_code == 403
        assert client.get(address).status_code == 302
        assert owner_client.delete(address).status_code == 405


def test_who_may_save(plan, save_address, owner_client, installer_client, client):
    assert owner_client.get(save_address).status_code == 405
    assert installer_client.post(save_address, {}).status_code == 403
    assert client.post(save_address, {}).status_code == 302


def test_a_plan_of_another_site_is_a_404(plan, customer, owner_client):
    other = make_site(customer, name="Other")
    for name in ("plan", "plan-edit", "plan-json", "plan-svg", "plan-case"):
        assert owner_client.get(reverse(f"sites:{name}", args=[other.pk, 1])).status_code == 404
        for pair in ([10**30, 1], [plan.site_id, 10**30]):
            assert owner_client.get(reverse(f"sites:{name}", args=pair)).status_code == 404


def test_saving_makes_the_next_revision_and_the_first_stays(plan, save_address, owner_client):
    answer = owner_client.post(save_address, posted(changed(static_kpa=430), name="More care"))
    second = PlanRevision.objects.get(number=2)
    assert answer["Location"] == reverse("sites:plan", args=[plan.site_id, 2])
    assert (second.began_from, second.name, second.document["supply"]["static_kpa"]) == (
        plan,
        "More care",
        430,
    )
    plan.refresh_from_db()
    assert plan.document["supply"]["static_kpa"] == 450


def test_the_same_document_makes_no_new_revision(plan, save_address, owner_client):
    answer = owner_client.post(save_address, posted(plan_text()), follow=True)
    assert "Nothing differs from revision 1" in answer.content.decode()
    assert PlanRevision.objects.count() == 1


def test_export_and_import_again_give_the_same_document(plan, owner_client, site):
    text = owner_client.get(reverse("sites:plan-json", args=[site.pk, 1])).content.decode()
    other = make_site(site.customer, name="Copy")
    assert make_plan(other, document=text).digest == plan.digest


def without(path):
    document = plan_document()
    here = document
    for step in path[:-1]:
        here = here[step]
    del here[path[-1]]
    return document


def with_(path, value):
    document = plan_document()
    here = document
    for step in path[:-1]:
        here = here[step]
    if isinstance(here, list) and path[-1] == "+":
        here.append(value)
    else:
        here[path[-1]] = value
    return document


HEAD = {"id": "H99", "kind": "head", "at": [3, 3], "part": "rotary-6", "area": "lawn"}
BAD_PLANS = [
    ("", "The plan is empty"),
    ("{", "This is not JSON: line 1"),
    ("[]", "one JSON object"),
    ("[" * 100_000, "nested too deeply"),
    ('{"format": "plan/1", "supply": {"static_kpa": NaN}}', "NaN, which is no number"),
    (without(["supply"]), "supply"),
    (with_(["supply", "static_kpa"], "many"), "static_kpa"),
    (with_(["supply", "static_kpa"], -4), "out of range"),
    (with_(["supply", "static_kpa"], 1e300), "out of range"),
    (with_(["ground", "areas", 0, "outline"], [[0, 0], [10, 10], [10, 0], [0, 10]]), "lawn, outline"),
    (
        with_(["layout", "nodes", 3, "part"], "no-such-part"),
        "There is no part “no-such-part” in the parts book",
    ),
    (with_(["layout", "nodes", 3, "part"], "pvc-25"), "this place needs"),
    (with_(["layout", "pipes", 3, "to"], "NOWHERE"), "NOWHERE"),
    (with_(["layout", "nodes", "+"], HEAD), "H99"),
    (with_(["layout", "nodes", "+"], {"id": "S2", "kind": "supply", "at": [9, 9]}), "S2"),
    (with_(["layout", "notes"], [{"text": "a\x00b"}]), "NUL"),
    (with_(["layout", "colour"], "red"), "colour"),
    (with_(["layout", "pipes"], 7), "pipes"),
]


@pytest.mark.parametrize(("document", "words"), BAD_PLANS, ids=[words for _, words in BAD_PLANS])
def test_a_bad_plan_gets_entity_field_and_sentence_and_stays_typed(
    plan, save_address, owner_client, document, words
):
    answer = owner_client.post(save_address, posted(document))
    page = answer.content.decode()
    assert answer.status_code == 422
    assert words in page
    if isinstance(document, dict):
        assert "Nothing was saved." in page
        assert "one valve box for both valves" in page.lower() or "notes" in words or "NUL" in words
    assert PlanRevision.objects.count() == 1


def test_a_plan_text_above_a_megabyte_is_refused(plan, save_address, owner_client):
    answer = owner_client.post(save_address, posted(" " * 1_000_001))
    assert answer.status_code == 422
    assert "at most 1000000 characters" in answer.content.decode()
    huge = owner_client.post(save_address, posted(" " * 10_000_000))
    assert huge.status_code in (400, 413)


@pytest.mark.parametrize("began_from", ["", "many", "-1"])
def test_a_save_without_its_revision_is_refused(plan, save_address, owner_client, began_from):
    assert owner_client.post(save_address, posted(changed(static_kpa=430), began_from)).status_code == 422
    assert PlanRevision.objects.count() == 1


def upload(address, client, content, name="plan.json", began_from=0):
    file = SimpleUploadedFile(name, content)
    return client.post(address, {"file": file, "began_from": began_from, "name": "From a file"})


@pytest.fixture
def import_address(site, parts_book):
    return reverse("sites:plan-import", args=[site.pk])


def test_a_file_is_imported(import_address, owner_client):
    answer = upload(import_address, owner_client, plan_text().encode())
    assert answer.status_code == 302
    assert PlanRevision.objects.get().name == "From a file"


@pytest.mark.parametrize(
    ("content", "name", "sentence"),
    [
        (b"", "plan.json", "That file is empty"),
        (b"{}", "plan.txt", "ends with .json"),
        (b"\xff\xfe{}", "plan.json", "not UTF-8 text"),
        (b" " * 1_000_001, "plan.json", "a plan has at most 1 MB"),
        (b" " * 10_000_000, "plan.json", "That file has 10.0 MB"),
        (b'{"format": "plan/2"}', "plan.json", "supply"),
    ],
    ids=["empty", "other kind", "binary", "large", "ten megabytes", "invalid"],
)  # fmt: skip
def test_a_bad_file_gets_a_sentence(import_address, owner_client, content, name, sentence):
    answer = upload(import_address, owner_client, content, name)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert not PlanRevision.objects.exists()


def test_a_file_with_an_error_can_be_put_right_in_the_page(import_address, owner_client):
    page = upload(import_address, owner_client, plan_text().replace("rotary-6", "rotary-7").encode())
    assert "There is no part “rotary-7”" in page.content.decode()
    assert "<textarea" in page.content.decode()


def test_a_clash_shows_both_and_offers_the_next_revision(plan, save_address, owner_client, clerk_client):
    assert owner_client.post(save_address, posted(changed(static_kpa=430))).status_code == 302
    answer = clerk_client.post(save_address, posted(changed(static_kpa=420), name="Mine"))
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "static_kpa 430 → 420" in page
    assert "revision 2" in page
    assert 'name="began_from" value="2"' in page
    assert PlanRevision.objects.count() == 2
    assert clerk_client.post(save_address, posted(changed(static_kpa=420), 2)).status_code == 302
    statics = [row.document["supply"]["static_kpa"] for row in PlanRevision.objects.order_by("number")]
    assert statics == [450, 430, 420]


def test_the_service_refuses_what_the_page_refuses(plan, site):
    with pytest.raises(PlanClash):
        add_plan_revision(site=site, document=changed(static_kpa=430), began_from=0, by=None)
    with pytest.raises(PlanRefused):
        add_plan_revision(site=site, document={}, began_from=1, by=None)


def test_the_text_to_edit_has_one_entity_a_line_and_says_the_same():
    document = plan_document()
    text = editable_text(document)
    assert json.loads(text) == document
    assert max(len(line) for line in text.splitlines()) < 200
    assert any(line.strip().startswith('{"id": "A2", "kind": "head"') for line in text.splitlines())


def test_differences_name_the_entity_and_the_field():
    before, after = plan_document(), plan_document()
    after["supply"]["static_kpa"] = 430
    after["layout"]["pipes"][0]["part"] = "pvc-32"
    del after["layout"]["cables"][1]
    after["ground"]["marks"].append({"id": "C", "at": [1, 2]})
    assert differences(before, after) == [
        "supply: static_kpa 450 → 430",
        "mark C added",
        'pipe M1: part "pvc-25" → "pvc-32"',
        "cable K2 removed",
    ]


def test_the_page_shows_drawing_supply_cases_and_trench(plan, site, owner_client):
    page = owner_client.get(reverse("sites:plan", args=[site.pk, 1])).content.decode()
    # trade.md's plain rectangle: 30 L/min design flow, 86 m of lateral pipe and 0.4 m of manifold
    for text in ("<svg", 'id="e-A1"', "30.0 L/min", "Edge rows", "case.inp?label=Edge%20rows", "rotary-6"):
        assert text in page
    for row in owner_client.get(reverse("sites:plan", args=[site.pk, 1])).context["page"].findings:
        assert row.finding.sentence


def test_layers_are_hidden_by_plain_links(plan, site, owner_client):
    address = reverse("sites:plan", args=[site.pk, 1])
    page = owner_client.get(address, {"hide": ["wetting", "no-such-layer"]}).content.decode()
    assert "layer-wetting" not in page
    assert "layer-wetting" in owner_client.get(address).content.decode()


def test_a_check_is_worked_out_once_until_the_parts_change(plan, monkeypatch):
    from parts.models import Part
    from parts.services import update_part

    calls = []
    monkeypatch.setattr(check, "_reports", check.OrderedDict())
    real = check.check
    monkeypatch.setattr(check, "check", lambda *given: calls.append(1) or real(*given))
    first = check.check_revision(plan)
    assert check.check_revision(plan) is first
    part = Part.objects.get(code="pvc-25")
    data = {**part.data, "bore_mm": 19.0}
    update_part(part, began_from=1, data=data, category="pipe", active=True, by=None)
    assert check.check_revision(plan).cases[0].worst_head_kpa < first.cases[0].worst_head_kpa
    assert len(calls) == 2


def test_a_plan_whose_part_left_the_book_still_has_its_page(plan, site, owner_client):
    from parts.models import Part

    Part.objects.filter(code="rotary-6").update(active=False)
    answer = owner_client.get(reverse("sites:plan", args=[site.pk, 1]))
    assert answer.status_code == 200
    assert "There is no part “rotary-6” in the parts book" in answer.content.decode()
    assert owner_client.get(reverse("sites:plan-svg", args=[site.pk, 1])).status_code == 200
    assert owner_client.get(reverse("sites:plan-case", args=[site.pk, 1])).status_code in (404, 422)


def test_files_come_with_their_names(plan, site, owner_client):
    svg = owner_client.get(reverse("sites:plan-svg", args=[site.pk, 1]))
    assert svg["Content-Type"].startswith("image/svg+xml")
    assert svg["Content-Disposition"] == 'attachment; filename="house-plan-1.svg"'
    case = owner_client.get(reverse("sites:plan-case", args=[site.pk, 1]), {"label": "Edge rows"})
    assert "[JUNCTIONS]" in case.content.decode()
    assert owner_client.get(reverse("sites:plan-case", args=[site.pk, 1]), {"label": "x"}).status_code == 404


def test_a_plan_starts_from_a_visit(us_site, parts_book, owner_client):
    figures = {"static": "58", "bucket-0-volume": "5", "bucket-0-fill": "45", "height-0-place": "Hill",
               "height-0-height": "2", "service_bore": "0.785", "meter": "meter-0.625in"}  # fmt: skip
    owner_client.post(reverse("sites:visit-add", args=[us_site.pk]), visit_post(**figures))
    visit = us_site.visits.get()
    page = owner_client.get(reverse("sites:plan-start", args=[visit.pk]))
    form = page.context["form"]
    supply = json.loads(form.initial["document"])["supply"]
    assert supply["static_kpa"] == pytest.approx(58 * 6.894757, rel=1e-5)
    assert supply["tests"] == [{"kind": "bucket", "litres": pytest.approx(18.9271), "seconds": 45}]
    assert supply["meter"] == "meter-0.625in"
    saved = owner_client.post(
        reverse("sites:plan-save", args=[us_site.pk]), posted(form.initial["document"], began_from=0)
    )
    assert saved.status_code == 302, saved.content.decode()
    assert owner_client.get(saved["Location"]).status_code == 200


def test_a_later_visit_puts_its_readings_into_the_newest_plan(plan, site, owner_client):
    figures = {"static": "4.1", "gauge-0-flow": "38", "gauge-0-residual": "3.1"}
    owner_client.post(reverse("sites:visit-add", args=[site.pk]), visit_post(**figures))
    page = owner_client.get(reverse("sites:plan-start", args=[site.visits.get().pk]))
    document = json.loads(page.context["form"].initial["document"])
    assert document["supply"]["static_kpa"] == 410
    assert document["supply"]["at"] == plan.document["supply"]["at"]
    assert document["layout"] == plan.document["layout"]


def test_who_may_start_a_plan(us_site, parts_book, owner_client, installer_client):
    owner_client.post(reverse("sites:visit-add", args=[us_site.pk]), visit_post(static="58"))
    address = reverse("sites:plan-start", args=[us_site.visits.get().pk])
    assert installer_client.get(address).status_code == 403
    assert owner_client.post(address).status_code == 405
    assert owner_client.get(reverse("sites:plan-start", args=[999])).status_code == 404
