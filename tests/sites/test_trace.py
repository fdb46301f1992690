"""The page of a picture drawn over: choose, send, work out, keep, clash, the drawing board."""

import io
import json

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image, ImageDraw

from sites.models import GroundSurvey, Picture, PlanDraft, Visit
from sites.picture_services import keep_picture
from sites.survey_services import save_survey
from tests.sites.makers import make_site, visit_post


def sketch_bytes(size=(800, 600)):
    """An invented sketch: a lawn, a house, a bar of 10 m."""
    image = Image.new("RGB", size, "#f6f1e4")
    pen = ImageDraw.Draw(image)
    pen.polygon([(100, 500), (600, 480), (560, 200), (120, 180)], outline="#2f5d2a", fill="#d9e6c8")
    pen.rectangle([620, 260, 760, 470], outline="#444", fill="#ccc")
    pen.line([(100, 560), (300, 560)], fill="#000", width=3)
    pen.text((170, 566), "10 m", fill="#000")
    kept = io.BytesIO()
    image.save(kept, "PNG")
    return kept.getvalue()


def upload(content=None, name="sketch.png"):
    return SimpleUploadedFile(name, sketch_bytes() if content is None else content, content_type="image/png")


# by hand: 200 pixels are 10 m, 0.05 m a pixel; the house is 7 m by 10.5 m
DRAWN = {
    "scale": {"first_px": [100, 560], "second_px": [300, 560], "length": "10 m", "first": "", "second": "",
              "bearing": ""},
    "check": {"first_px": [620, 260], "second_px": [620, 470], "length": "10.5", "first": "", "second": ""},
    "known": [],
    "slanted": False,
    "outlines": [
        {"id": "o1", "label": "House", "becomes": "surface", "kind": "building", "depth": "",
         "pixels": [[620, 260], [760, 260], [760, 470], [620, 470]]},
        {"id": "o2", "label": "", "becomes": "service", "kind": "electric", "depth": "60 cm",
         "pixels": [[620, 300], [100, 300]]},
    ],
}  # fmt: skip


@pytest.fixture
def visit(site, clerk_client):
    clerk_client.post(reverse("sites:visit-add", args=[site.pk]), visit_post())
    return Visit.objects.get()


@pytest.fixture
def picture(site, clerk):
    return keep_picture(site=site, upload=upload(), by=clerk)


@pytest.fixture
def ask(visit, picture, clerk_client):
    """Sends a drawing to the address of that name."""

    def send(name="trace-save", began_from=0, trace=DRAWN, client=clerk_client, **more):
        body = {"picture": picture.pk, "began_from": began_from, "trace": trace, **more}
        return client.post(reverse(f"sites:{name}", args=[visit.pk]), body, "application/json")

    return send


def with_bar(name, **props):
    return {**DRAWN, name: {**DRAWN[name], **props}}


def with_outline(**props):
    return {**DRAWN, "outlines": [{**DRAWN["outlines"][0], **props}]}


def test_a_picture_is_sent_and_opened(visit, clerk_client):
    address = reverse("sites:trace", args=[visit.pk])
    assert "Choose a picture" in clerk_client.get(address).content.decode()
    answer = clerk_client.post(address, {"picture": upload()})
    picture = Picture.objects.get()
    assert answer["Location"] == f"{address}?picture={picture.pk}"
    page = clerk_client.get(answer["Location"]).content.decode()
    data = json.loads(page.split('id="trace-data" type="application/json">')[1].split("</script>")[0])
    assert (data["picture"]["width"], data["picture"]["height"], data["began_from"]) == (800, 600, 0)
    assert data["trace"]["outlines"] == []


@pytest.mark.parametrize(
    "content", [b"", b"GIF89a", b"<svg onload=alert(1)>", b"\x89PNG\r\n\x1a\n" + b"9" * 500]
)
def test_a_hostile_picture_is_refused_with_a_sentence(visit, clerk_client, content):
    from sites.errors import PictureRefused

    with pytest.raises(PictureRefused) as refusal:
        keep_picture(site=visit.site, upload=upload(content), by=None)
    answer = clerk_client.post(reverse("sites:trace", args=[visit.pk]), {"picture": upload(content)})
    assert answer.status_code == 422
    assert str(refusal.value)[:30] in answer.content.decode()


def test_no_picture_chosen_says_so(visit, clerk_client):
    answer = clerk_client.post(reverse("sites:trace", args=[visit.pk]), {})
    assert answer.status_code == 422
    assert "Choose a picture first" in answer.content.decode()


def test_working_out_keeps_nothing(ask):
    answer = ask("trace-work")
    said = answer.json()
    assert answer.status_code == 200
    assert said["tone"] == "good"
    assert said["outlines"]["o1"]["size"] == "73.5 m², 35.00 m round"
    assert said["outlines"]["o2"]["size"] == "26.00 m"
    assert "50.0 mm" in said["per_pixel"]
    assert not GroundSurvey.objects.exists()


def test_without_a_scale_it_says_what_to_mark(ask):
    said = ask("trace-work", trace={**DRAWN, "scale": None}).json()
    assert "Mark two points" in said["scale_missing"]


def test_what_is_kept_shows_again_as_typed(ask, visit, picture, clerk_client):
    assert ask().json()["began_from"] == 1
    (kept,) = GroundSurvey.objects.get().traces["traces"]
    assert kept["scale"]["length"] == {"text": "10 m", "m": 10}
    assert kept["check"]["length"] == {"text": "10.5 m", "m": 10.5}
    assert kept["outlines"][1]["depth"] == {"text": "60 cm", "m": pytest.approx(0.6)}
    page = clerk_client.get(reverse("sites:trace", args=[visit.pk]), {"picture": picture.pk}).content.decode()
    data = json.loads(page.split('id="trace-data" type="application/json">')[1].split("</script>")[0])
    assert data["trace"]["scale"]["length"] == "10 m"
    assert data["trace"]["outlines"][0]["label"] == "House"
    assert data["answer"]["tone"] == "good"


def test_two_pictures_are_kept_beside_each_other(ask, site, clerk):
    other = keep_picture(site=site, upload=upload(sketch_bytes((640, 640))), by=clerk)
    ask()
    assert ask(began_from=1, picture=other.pk, trace=with_outline(pixels=[[1, 1]])).status_code == 200
    assert [one["picture"] for one in GroundSurvey.objects.get().traces["traces"]] != [other.pk]
    assert len(GroundSurvey.objects.get().traces["traces"]) == 2


@pytest.mark.parametrize(
    ("trace", "part", "field", "says"),
    [
        (with_bar("scale", length="soon"), "scale", "length", "not a number"),
        (with_bar("scale", length="-3"), "scale", "length", "above zero"),
        (with_bar("check", length="9" * 500), "check", "length", "too large"),
        (with_bar("scale", bearing="up"), "scale", "bearing", "no bearing"),
        (with_bar("scale", first_px=[900, 0]), "scale", "", "outside the picture"),
        (with_bar("scale", first_px="x"), "scale", "", "outside the picture"),
        (with_outline(kind="moon"), "o1", "kind", "Choose what this becomes"),
        (with_outline(label="a\x00b"), "o1", "label", "cannot be stored"),
        (with_outline(pixels=[[1, True]]), "o1", "", "outside the picture"),
        (with_outline(depth="deep"), "o1", "depth", "not a number"),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field(ask, trace, part, field, says):
    for name in ("trace-save", "trace-work"):
        answer = ask(name, trace=trace)
        assert answer.status_code == 422
        (problem,) = answer.json()["problems"]
        assert (problem["part"], problem["field"]) == (part, field)
        assert says in problem["sentence"]
    assert not GroundSurvey.objects.exists()


@pytest.mark.parametrize(
    "body",
    [b"", b"[]", b"null", b"{}", b'{"picture": 1}', b"[" * 100_000, b'{"a":' * 50_000, b"\xff", b"NaN"],
)
@pytest.mark.parametrize("name", ["trace-save", "trace-work"])
def test_a_body_that_is_none_gets_a_sentence(visit, picture, clerk_client, name, body):
    address = reverse(f"sites:{name}", args=[visit.pk])
    answer = clerk_client.post(address, body, "application/json")
    assert answer.status_code in (404, 413, 422)


HOSTILE = [None, True, 0, -1, 1e308, "x", "\x00", [], {}, [[]], [{}], {"a": {}}, ["9"] * 3000]


@pytest.mark.parametrize("value", HOSTILE, ids=lambda value: repr(value)[:20])
def test_hostile_drawings_never_break_it(ask, value):
    bodies = [value, *({**DRAWN, key: value} for key in DRAWN)]
    bodies += [with_bar(bar, **{key: value}) for bar in ("scale", "check") for key in DRAWN["scale"]]
    bodies += [with_outline(**{key: value}) for key in DRAWN["outlines"][0]]
    bodies += [{**DRAWN, "known": [{"point": value, "at_px": [1, 1]}, {"point": "A", "at_px": value}]}]
    for trace in bodies:
        for name in ("trace-work", "trace-save"):
            assert ask(name, trace=trace).status_code in (200, 409, 422), trace


def test_a_clash_shows_both_and_loses_nothing(ask):
    ask()
    other = with_outline(label="Shed")
    answer = ask(trace=other)
    said = answer.json()
    assert answer.status_code == 409
    assert said["began_from"] == 1
    assert said["theirs"]["outlines"][0]["label"] == "House"
    assert "House: building, 4 corners" in said["their_summary"]
    assert "Shed: building, 4 corners" in said["my_summary"]
    assert ask(began_from=1, trace=other).status_code == 200


def test_outlines_go_onto_the_drawing_board(ask, visit, picture, clerk, clerk_client):
    ask()
    board = reverse("sites:trace-board", args=[visit.pk])
    for _ in range(2):  # again: the same outlines are replaced
        assert clerk_client.post(board, {"picture": picture.pk}).status_code == 302
    ground = PlanDraft.objects.get(person=clerk).document["ground"]
    (house,) = ground["surfaces"]
    assert house["id"] == f"trace-{picture.pk}-o1"
    # by hand: 520 pixels right and 300 up of the scale's first point, at 0.05 m
    assert house["outline"][0] == [26, 15]
    (cable,) = ground["services"]
    assert (cable["kind"], cable["depth_m"], cable["path"][1]) == ("electric", 0.6, [0, 13])


@pytest.mark.parametrize(
    ("trace", "says"),
    [
        (None, "saved yet"),
        ({**DRAWN, "scale": None}, "no scale yet"),
        (with_bar("check", length="12"), "not to be used"),
        (with_outline(pixels=[[1, 1], [9, 9]]), "2 of the 3 corners"),
    ],
)
def test_what_may_not_be_used_stays_off_the_board(ask, visit, picture, clerk_client, trace, says):
    if trace:
        assert ask(trace=trace).status_code == 200
    answer = clerk_client.post(reverse("sites:trace-board", args=[visit.pk]), {"picture": picture.pk})
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert not PlanDraft.objects.exists()


def test_points_of_the_survey_hold_the_picture(ask, visit):
    marks = [{"name": n, "east": {"text": "0", "m": x}, "north": {"text": "0", "m": y}}
             for n, x, y in (("A", 50, 10), ("B", 50, 20))]  # fmt: skip
    save_survey(visit=visit, part="plane", document={"marks": marks}, began_from=0, by=None)
    said = ask("trace-work", trace=with_bar("scale", length="", first="A", second="B")).json()
    assert said["outlines"]["o1"]["size"].startswith("73.5 m²")
    unknown = ask("trace-work", trace=with_bar("scale", length="", first="A", second="Z")).json()
    assert "Z has no place yet" in unknown["scale_missing"]


def test_in_us_units_a_bare_number_is_feet(us_site, clerk, clerk_client):
    clerk_client.post(reverse("sites:visit-add", args=[us_site.pk]), visit_post())
    visit, picture = Visit.objects.get(), keep_picture(site=us_site, upload=upload(), by=clerk)
    body = {"picture": picture.pk, "trace": with_bar("scale", length="10")}
    said = clerk_client.post(reverse("sites:trace-work", args=[visit.pk]), body, "application/json").json()
    # by hand: the house is 7 ft by 10.5 ft, 35 ft round
    assert said["outlines"]["o1"]["size"].endswith(" ft², 35 ft 0 in round")
    assert said["tone"] == "good"


def test_in_us_units_no_sentence_speaks_of_metres(us_site, clerk, clerk_client):
    """The bar is 10 m, so the check of 10.5 m typed as 12 m is 1.5 m off: 4.9 ft (0.3048 m a foot)."""
    clerk_client.post(reverse("sites:visit-add", args=[us_site.pk]), visit_post())
    visit, picture = Visit.objects.get(), keep_picture(site=us_site, upload=upload(), by=clerk)
    body = {"picture": picture.pk, "trace": with_bar("check", length="12 m")}
    said = clerk_client.post(reverse("sites:trace-work", args=[visit.pk]), body, "application/json").json()
    assert "4.9 ft" in " ".join(said["sentences"])
    assert " m " not in " ".join(said["sentences"])


def test_who_may(ask, visit, picture, owner_client, installer_client, client):
    for name in ("trace", "trace-work", "trace-save", "trace-board"):
        address = reverse(f"sites:{name}", args=[visit.pk])
        assert installer_client.post(address).status_code == 403
        assert client.post(address).status_code == 302
        assert owner_client.put(address).status_code == 405
        missing = owner_client.post(reverse(f"sites:{name}", args=[9999]), {}, "application/json")
        assert missing.status_code == 404
    assert ask("trace-work", client=owner_client).status_code == 200
    assert owner_client.get(reverse("sites:trace", args=[visit.pk])).status_code == 200


def test_a_picture_of_another_site_is_not_there(ask, visit, clerk, clerk_client):
    other = keep_picture(site=make_site(name="Elsewhere"), upload=upload(), by=clerk)
    assert ask("trace-work", picture=other.pk).status_code == 404
    assert ask("trace-save", picture=other.pk).status_code == 404
    board = clerk_client.post(reverse("sites:trace-board", args=[visit.pk]), {"picture": other.pk})
    assert board.status_code == 404
    for wrong in (other.pk, "x", "9" * 30, "-1", "\x00", "٣"):
        address = reverse("sites:trace", args=[visit.pk])
        assert clerk_client.get(address, {"picture": wrong}).status_code == 404


def test_four_points_of_the_survey_undo_a_slant(ask, visit):
    # by hand: a 10 m square seen as a trapezium; its middle shows two thirds of the way up
    shown = {
        "A": (0, 0, [200, 500]),
        "B": (10, 0, [600, 500]),
        "C": (10, 10, [500, 400]),
        "D": (0, 10, [300, 400]),
    }
    marks = [
        {"name": n, "east": {"text": "0", "m": x}, "north": {"text": "0", "m": y}}
        for n, (x, y, _) in shown.items()
    ]
    save_survey(visit=visit, part="plane", document={"marks": marks}, began_from=0, by=None)
    known = [{"point": name, "at_px": pixel} for name, (_, _, pixel) in shown.items()]
    half = with_outline(pixels=[[200, 500], [600, 500], [400, 433.333]])
    flat = ask("trace-work", trace={**half, "scale": None, "check": None, "known": known}).json()
    assert flat["can_slant"]
    assert flat["scale_missing"]
    undone = {**half, "scale": None, "check": None, "known": known, "slanted": True}
    said = ask("trace-work", trace=undone).json()
    assert said["outlines"]["o1"]["size"].startswith("25.0 m²")
    assert "mark a fifth" in " ".join(said["sentences"])
