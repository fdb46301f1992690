"""What the plan drawing shows, and that its SVG is safe, readable and accessible."""

import re
from xml.etree import ElementTree

import pytest

from design.document import Plan
from design.drawing import CUSTOMER_LAYERS, LAYERS, DrawingOptions, plan_drawing, to_svg
from design.drawing.palette import EARTH, EARTH_DARK, PAPER
from tests.design_drawing.garden_plan import PARTS, garden_dict, garden_plan, garden_report

SVG = "{http://www.w3.org/2000/svg}"
OPTIONS = DrawingOptions(parts=PARTS)


def drawn(plan=None, report=None, **changes):
    options = DrawingOptions(**{"parts": PARTS, **changes})
    return to_svg(plan_drawing(plan or garden_plan(), report or garden_report(), options))


def root_of(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def words_of(svg: str) -> str:
    return " | ".join(e.text or "" for e in root_of(svg).iter(f"{SVG}text"))


def titles_of(svg: str) -> dict[str, str]:
    """Title of each entity group by its element id."""
    groups = (g for g in root_of(svg).iter(f"{SVG}g") if g.get("id"))
    return {g.get("id"): g.findtext(f"{SVG}title") for g in groups}


def test_every_entity_is_a_group_with_its_id_and_a_title():
    plan, titles = garden_plan(), titles_of(drawn())
    ground, layout = plan.ground, plan.layout
    things = [*ground.areas, *ground.surfaces, *ground.services, *ground.marks, *layout.nodes, *layout.pipes]
    for thing in [*things, *layout.cables]:
        assert titles.get(f"e-{thing.id}"), thing.id
    for stretch in garden_report().trench:
        assert titles[f"e-{stretch.id}"].startswith("Trench")


def test_ids_are_unique_even_when_entities_share_one():
    data = garden_dict()
    data["ground"]["marks"].append({"id": "gas", "at": [3, 3]})
    ids = re.findall(r' id="([^"]+)"', drawn(Plan.model_validate(data)))
    assert len(ids) == len(set(ids))


def test_it_scales_to_its_container_and_names_itself():
    root = root_of(drawn(title="Fern Rise"))
    assert root.get("viewBox", "").startswith("0 0 800 ")
    assert root.get("width") is None
    assert root.get("height") is None
    assert root.find(f"{SVG}title").text == "Fern Rise"
    assert "10 heads" not in root.find(f"{SVG}desc").text
    assert "6 heads, 2 valves, 9 pipes" in root.find(f"{SVG}desc").text
    assert root.get("aria-labelledby") == "e-title e-desc"


def test_nothing_in_it_needs_inline_style_or_script():
    svg = drawn(interactive=True)
    assert "style=" not in svg
    assert "<script" not in svg
    assert not re.search(r"\son[a-z]+=", svg)
    assert "javascript:" not in svg


@pytest.mark.parametrize(
    "hostile",
    ["<script>alert(1)</script>", '"><img src=x>', "a & b ]]> <!--", "\x00\x07\ud800 x", "‮" + "ß" * 100],
)
def test_hostile_labels_are_text_and_nothing_else(hostile):
    plan = garden_plan()
    area = plan.ground.areas[0].model_copy(update={"label": hostile})
    ground = plan.ground.model_copy(update={"areas": [area, *plan.ground.areas[1:]]})
    svg = drawn(plan.model_copy(update={"ground": ground}), title=hostile)
    tags = {e.tag.removeprefix(SVG) for e in root_of(svg).iter()}
    assert tags <= {"svg", "g", "title", "desc", "rect", "path", "circle", "text"}
    svg.encode("utf-8")


def test_an_area_is_drawn_with_its_hole():
    group = next(g for g in root_of(drawn()).iter(f"{SVG}g") if g.get("id") == "e-west")
    path = group.find(f"{SVG}path")
    assert path.get("d").count("M") == 2
    assert path.get("fill-rule") == "evenodd"


def test_a_buried_service_says_its_depth_and_whether_it_was_located():
    titles = titles_of(drawn())
    assert titles["e-gas"] == "gas: buried gas, 0.45 m deep, not yet located"
    assert titles["e-power"] == "power: buried electricity, 0.50 m deep, located"
    assert titles["e-storm"] == "storm: buried drain, depth unknown, not yet located"
    words = words_of(drawn())
    assert {" G ", " E ", " D "} <= {f" {w} " for w in words.split(" | ")}
    assert "depth unknown" in words


def test_trench_methods_differ_in_shape_and_not_only_in_colour():
    titles = titles_of(drawn())
    assert "dug by hand" in titles["e-T6"]
    assert "the gas pipe lies within 0.6 m" in titles["e-T6"]
    assert "bored under" in titles["e-T5"]
    root = root_of(drawn())
    paths = {g.get("id"): g.findall(f"{SVG}path") for g in root.iter(f"{SVG}g")}
    band, tube, ladder = (paths[entity] for entity in ("e-T1", "e-T5", "e-T6"))
    assert [path.get("stroke") for path in band] == [EARTH_DARK, EARTH]
    assert [path.get("stroke") for path in tube] == [EARTH_DARK, PAPER]
    assert wall(tube) > 2 * wall(band)
    assert len(ladder) > 4


def wall(paths):
    """How much of the line below stands out on each side."""
    below, inside = (float(path.get("stroke-width")) for path in paths)
    return (below - inside) / 2


def test_pipes_carry_size_and_length_and_the_wider_is_heavier():
    svg = drawn()
    assert "25 · 37.2 m" in words_of(svg)  # 1.5 m to V2's east and on: 11.5 + 15.2 + 10.5 m
    root = root_of(svg)
    paths = {g.get("id"): g.find(f"{SVG}path") for g in root.iter(f"{SVG}g") if g.get("id")}
    assert float(paths["e-P1"].get("stroke-width")) > float(paths["e-P3"].get("stroke-width"))


def test_us_units_are_used_when_asked_for():
    words = words_of(drawn(units="us"))
    assert "25 · 122 ft" in words  # 37.2 m / 0.3048
    assert re.search(r"\b\d+ ft\b", words)
    assert " m |" not in words
    assert "18 in deep" in titles_of(drawn(units="us"))["e-gas"]  # 0.45 m / 0.0254


def test_the_scale_bar_is_true_to_the_map():
    drawing = plan_drawing(garden_plan(), garden_report(), OPTIONS)
    bar = next(g for g in drawing.groups if g.kind == "scale-bar")
    labels = [s.text for s in bar.shapes if hasattr(s, "text")]
    metres = int(labels[1].removesuffix(" m"))
    xs = [x for s in bar.shapes if hasattr(s, "rings") for x, _ in s.rings[0]]
    house = next(g for g in drawing.groups if g.entity == "house").shapes[0].rings[0]
    house_m = 12.0  # from (11, 8) to (23, 8)
    house_units = max(x for x, _ in house) - min(x for x, _ in house)
    assert max(xs) - min(xs) == pytest.approx(metres * house_units / house_m)


def test_north_is_up():
    drawing = plan_drawing(garden_plan(), garden_report(), OPTIONS)
    ring = next(g for g in drawing.groups if g.entity == "house").shapes[0].rings[0]
    south, north = ring[0], ring[3]  # (11, 8) and (11, 15)
    assert north[1] < south[1]
    assert any(g.kind == "north" for g in drawing.groups)


def test_the_legend_lists_what_is_present_and_nothing_else():
    data = garden_dict()
    data["ground"]["services"] = []
    data["ground"]["surfaces"] = data["ground"]["surfaces"][:1]
    full = words_of(drawn())
    less = words_of(drawn(Plan.model_validate(data)))
    for words in ("G: buried gas", "Open water", "Future work", "Keep out"):
        assert words in full
        assert words not in less
    assert "Building" in less
    assert "Telephone" not in full
    assert "buried sewer" not in full


@pytest.mark.parametrize("layer", LAYERS)
def test_each_layer_can_be_left_out(layer):
    svg = drawn(layers=frozenset(LAYERS) - {layer})
    assert f"layer-{layer} " not in svg or layer == "labels"  # that group also holds the sizes
    assert ("25 · 37.2 m" in svg) == (layer not in {"sizes", "pipes"})
    assert (">House<" in svg) == (layer not in {"labels", "ground"})


def test_customers_see_no_findings_and_no_notes():
    svg = drawn(layers=CUSTOMER_LAYERS)
    assert "Have the gas pipe located" not in svg
    assert "Gate 0.9 m wide" not in svg
    everything = drawn()
    assert "Have the gas pipe located" in everything
    assert "Gate 0.9 m wide" in everything


def test_highlighted_entities_are_marked():
    svg = drawn(highlight=frozenset({"H1", "P3"}))
    marked = {e.get("data-entity") for e in root_of(svg).iter(f"{SVG}g") if "is-marked" in e.get("class", "")}
    assert marked == {"H1", "P3"}
    assert "is-marked" not in drawn()


def test_interactive_groups_take_focus_from_a_link():
    assert 'tabindex="-1"' in drawn(interactive=True)
    assert root_of(drawn(interactive=True)).get("role") == "group"
    assert "tabindex" not in drawn()
    assert root_of(drawn()).get("role") == "img"


def test_labels_do_not_cover_each_other():
    from design.drawing.labels import _boxes

    drawing = plan_drawing(garden_plan(), garden_report(), OPTIONS)
    labels = next(g for g in drawing.groups if g.kind == "labels").shapes
    assert len(labels) > 25
    taken: list[tuple] = []
    for label in labels:
        boxes = _boxes(label)
        for left, top, right, bottom in boxes:
            assert not any(left < r and right > x and top < b and bottom > y for x, y, r, b in taken), (
                label.text
            )
        taken += boxes


def test_two_drawings_on_one_page_keep_their_ids_apart():
    one, other = drawn(), drawn(id_prefix="b-")
    ids = re.findall(r' id="([^"]+)"', one + other)
    assert len(ids) == len(set(ids))


def test_a_plan_that_has_only_a_supply_is_drawn():
    plan = Plan.model_validate({"format": "plan/1", "supply": {"at": [3, 4], "static_kpa": 400}})
    svg = to_svg(plan_drawing(plan))
    assert titles_of(svg)["e-supply"] == "Water supply"
    assert "nan" not in svg


def test_bad_geometry_is_drawn_and_does_not_break():
    data = garden_dict()
    data["ground"]["areas"][0]["outline"] = [[0, 0], [9, 9], [9, 0], [0, 9]]  # crosses itself
    data["ground"]["areas"][1]["outline"] = [[1, 1], [1, 1], [1, 1]]
    data["ground"]["surfaces"][0]["outline"] = [[0, 0], [1, 1], [2, 2]]  # no width
    data["ground"]["services"][0]["path"] = [[5, 5], [5, 5]]
    data["layout"]["pipes"][0]["to"] = "nobody"
    svg = drawn(Plan.model_validate(data))
    assert "e-west" in svg
    assert "nan" not in svg.lower()


def test_the_same_plan_gives_the_same_drawing():
    assert drawn() == drawn()
