"""Photos of a visit: sent, described, placed on the plan, taken out."""

from datetime import date

import pytest
from django.urls import reverse
from PIL import Image

from office.models import AuditEvent
from sites.models import Picture, SitePhoto
from sites.photo_services import add_photo, photos_on_plan
from sites.readings import VisitData
from sites.services import save_visit
from sites.survey_services import save_survey
from tests.sites.makers import make_plan
from tests.sites.pictures import encoded, photo, upload

HTMX = {"HX-Request": "true"}


@pytest.fixture
def visit(site, clerk):
    return save_visit(VisitData(date(2026, 5, 4), "Ola"), site=site, by=clerk)


@pytest.fixture
def kept(visit, clerk):
    return add_photo(visit=visit, upload=upload(), by=clerk, about="gate")


def photos_page(visit):
    return reverse("sites:photos", args=[visit.pk])


def one(kept):
    return reverse("sites:photo", args=[kept.pk])


def test_a_photo_is_sent_from_the_list(visit, clerk_client):
    answer = clerk_client.post(
        photos_page(visit), {"file": upload(), "caption": "The meter", "about": "meter"}
    )
    assert answer["Location"] == photos_page(visit)
    text = clerk_client.get(photos_page(visit)).content.decode()
    assert "The meter" in text
    assert "Which meter is it" in text
    assert reverse("sites:picture-small", args=[Picture.objects.get().pk]) in text


def test_from_a_line_of_the_walk_it_comes_back_as_that_lines_strip(visit, clerk_client):
    sent = {"file": upload(), "about": "gate", "from_walk": "1"}
    text = clerk_client.post(photos_page(visit), sent, headers=HTMX).content.decode()
    assert text.startswith('<div class="photos" id="photos-gate">')
    assert "<img" in text
    assert "1 of 12 photos" in text
    plain = clerk_client.post(photos_page(visit), {**sent, "file": upload(encoded(photo(shade=200)))})
    assert plain["Location"].endswith("/walk/#line-gate")


@pytest.mark.parametrize("headers", [{}, HTMX])
def test_what_is_no_picture_is_refused_with_a_sentence(visit, clerk_client, headers):
    sent = {"file": upload(b"<svg/>"), "about": "gate", "caption": "My words"}
    answer = clerk_client.post(photos_page(visit), sent, headers=headers)
    assert answer.status_code == 422
    assert "no picture that can be read" in answer.content.decode()
    assert headers or "My words" in answer.content.decode()
    assert not SitePhoto.objects.exists()
    assert not Picture.objects.exists()


@pytest.mark.parametrize(
    "sent", [{}, {"file": ""}, {"file": "text"}, {"about": "nonsense"}, {"caption": "x" * 300}]
)
def test_a_form_without_a_photo_is_asked_back(visit, clerk_client, sent):
    for headers in ({}, HTMX):
        assert clerk_client.post(photos_page(visit), sent, headers=headers).status_code == 422


def test_the_same_photo_twice_is_one(visit, kept, site, clerk, clerk_client):
    assert add_photo(visit=visit, upload=upload(), by=clerk, about="gate") == kept
    answer = clerk_client.post(photos_page(visit), {"file": upload(), "about": "meter"})
    assert answer.status_code == 422
    assert "here already" in answer.content.decode()
    other = save_visit(VisitData(date(2026, 5, 5), "Ola"), site=site, by=clerk)
    answer = clerk_client.post(photos_page(other), {"file": upload()})
    assert "with the visit of 2026-05-04" in answer.content.decode()
    assert SitePhoto.objects.count() == 1


def test_the_camera_says_when_it_was_taken(visit, clerk):
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = "2026:05:04 10:31:07"  # Exif 2.32 (CIPA DC-008), DateTimeOriginal
    taken = add_photo(visit=visit, upload=upload(encoded(photo(), exif=exif.tobytes())), by=clerk).taken_at
    assert f"{taken:%Y-%m-%d %H:%M:%S}" == "2026-05-04 10:31:07"
    exif.get_ifd(0x8769)[0x9003] = "yesterday"
    odd = upload(encoded(photo(shade=200), exif=exif.tobytes()))
    assert add_photo(visit=visit, upload=odd, by=clerk).taken_at is None


def typed(**fields):
    return {
        "began_from": 1,
        "caption": "The gate",
        "about": "gate",
        "east": "",
        "north": "",
        "looks_deg": "",
        **fields,
    }


def test_a_photo_gets_its_words_its_place_and_its_direction(site, kept, clerk_client):
    assert photos_on_plan(site) == []
    answer = clerk_client.post(one(kept), typed(east="3,5", north="10 ft", looks_deg="360"))
    assert answer.status_code == 302
    kept.refresh_from_db()
    # 10 ft of 0.3048 m (international foot); 360 degrees is north again
    assert (kept.east_m, kept.north_m, kept.looks_deg) == (3.5, pytest.approx(3.048), 0)
    assert photos_on_plan(site) == [
        {
            "id": kept.pk, "at": [3.5, pytest.approx(3.048)], "caption": "The gate", "looks_deg": 0,
            "small_url": f"/pictures/{kept.picture_id}/small/", "url": f"/pictures/{kept.picture_id}/",
        }
    ]  # fmt: skip


@pytest.mark.parametrize(
    "wrong",
    [
        {"east": "3"}, {"north": "3"}, {"east": "9000", "north": "1"}, {"east": "NaN", "north": "NaN"},
        {"looks_deg": "361"}, {"looks_deg": "-1"}, {"looks_deg": "NaN"}, {"looks_deg": "9" * 400},
        {"caption": "x" * 201}, {"caption": "\x00"}, {"about": "nonsense"}, {"began_from": "9" * 30},
    ],
)  # fmt: skip
def test_what_cannot_be_is_asked_back(kept, clerk_client, wrong):
    answer = clerk_client.post(one(kept), typed(**wrong))
    assert answer.status_code == 422
    assert "errorlist" in answer.content.decode()


def test_two_who_describe_it_see_both(kept, clerk_client, owner_client):
    clerk_client.post(one(kept), typed(caption="The gate"))
    answer = owner_client.post(one(kept), typed(caption="The side gate"))
    text = answer.content.decode()
    assert answer.status_code == 409
    assert "The gate" in text
    assert 'value="The side gate"' in text
    assert owner_client.post(one(kept), typed(caption="The side gate", began_from=2)).status_code == 302


def test_the_plan_is_there_to_tap_on(kept, site, parts_book, clerk_client):
    assert "no plan yet" in clerk_client.get(one(kept)).content.decode()
    make_plan(site)
    text = clerk_client.get(one(kept)).content.decode()
    assert 'id="photo-map"' in text
    assert "<svg" in text


def test_a_tap_lands_where_the_drawing_says(site, parts_book, clerk):
    """The frame handed to the page is the drawing's own: the corner of an area is drawn where it says."""
    from design.drawing import DrawingOptions, plan_drawing
    from sites.check import plan_of
    from sites.photo_map import _LAYERS, photo_map

    plan = plan_of(make_plan(site))
    frame = photo_map(site, clerk).frame
    drawing = plan_drawing(plan, None, DrawingOptions(layers=_LAYERS, plain=True))
    areas = {ring[0] for g in drawing.groups for s in g.shapes for ring in getattr(s, "rings", ())}
    x, y = frame.page(plan.ground.areas[0].outline[0])
    assert min(abs(x - a) + abs(y - b) for a, b in areas) < 0.01


def test_a_photo_is_taken_out_and_the_trail_keeps_that_there_was_one(visit, kept, clerk_client):
    answer = clerk_client.post(reverse("sites:photo-remove", args=[kept.pk]))
    assert answer["Location"] == photos_page(visit)
    assert not SitePhoto.objects.exists()
    assert not Picture.objects.exists()
    event = AuditEvent.objects.get(verb="photo.removed")
    assert event.detail["digest"] == kept.picture.digest
    assert clerk_client.get(reverse("sites:photo-remove", args=[kept.pk])).status_code == 405


def test_a_picture_that_is_traced_over_stays(visit, kept, clerk, clerk_client):
    traces = {"traces": [{"picture": kept.picture_id}]}
    save_survey(visit=visit, part="traces", document=traces, began_from=0, by=clerk)
    clerk_client.post(reverse("sites:photo-remove", args=[kept.pk]))
    assert not SitePhoto.objects.exists()
    assert Picture.objects.count() == 1


def test_who_sees_photos(visit, kept, installer_client, client, clerk_client):
    for address in (photos_page(visit), one(kept), reverse("sites:photo-remove", args=[kept.pk])):
        assert installer_client.post(address).status_code == 403
        assert client.post(address)["Location"].startswith("/account/login/")
    assert clerk_client.get(reverse("sites:photo", args=[kept.pk + 1])).status_code == 404
    assert SitePhoto.objects.exists()


def test_the_list_reads_no_picture(visit, kept, clerk, clerk_client, django_assert_max_num_queries):
    for shade in (100, 110, 120):
        add_photo(visit=visit, upload=upload(encoded(photo(shade=shade))), by=clerk)
    with django_assert_max_num_queries(12) as queries:
        clerk_client.get(photos_page(visit))
    assert not [row for row in queries.captured_queries if '"sites_picture"."data"' in row["sql"]]
