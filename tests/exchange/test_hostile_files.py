"""Broken and hostile files, read as the site reads them: a sentence, bounded time, bounded memory.

Time and memory are those of the child process that read the file, as the kernel counted them.
"""

import gzip
import io
import json
import math
import os
import random
import subprocess
import sys
import time
import zipfile
from dataclasses import dataclass
from pathlib import Path

import pytest

from design.exchange import limits
from design.exchange.refused import FileRefused
from sites import ground_file_reading
from sites.ground_file_reading import read_shapes
from tests.exchange.makers import dxf_bytes, feature, geojson_bytes, gpx_bytes


@dataclass
class Cost:
    seconds: float = 0.0
    memory_mb: float = 0.0
    status: int = 0


# A small process between, since what a child is charged for begins with what its parent held.
MEASURING = """
import json, resource, subprocess, sys, time
began = time.monotonic()
ended = subprocess.run(sys.argv[1:], stdout=subprocess.PIPE, check=False)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(json.dumps([time.monotonic() - began, used.ru_maxrss / 1024, ended.returncode]), file=sys.stderr)
sys.stdout.buffer.write(ended.stdout)
"""
really_run = subprocess.run


@pytest.fixture
def cost(monkeypatch):
    """What the last child cost, by getrusage."""
    found = Cost()

    def run(command, **kwargs):
        measured = [sys.executable, "-c", MEASURING, *command]
        ended = really_run(measured, **{**kwargs, "stderr": subprocess.PIPE})
        *_, last = ended.stderr.decode().splitlines()
        found.seconds, found.memory_mb, found.status = json.loads(last)
        return subprocess.CompletedProcess(command, found.status, ended.stdout)

    monkeypatch.setattr(ground_file_reading.subprocess, "run", run)
    return found


def zip_bomb():
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("a.dxf", b"0" * 50_000_000)
    return out.getvalue()


def many_corners(count):
    return [[round(11.5 + i * 1e-9, 9), round(48 + math.sin(i) / 1e5, 7)] for i in range(count)]


def noise(count):
    dice = random.Random(7)
    return [[round(dice.random(), 5), round(dice.random(), 5)] for _ in range(count)]


def block_bomb():
    """Each of eight blocks holds the next ten times: a hundred million lines from a hundred entities."""

    def draw(space, document):
        for level in range(8):
            document.blocks.new(f"b{level}")
        for level in range(7):
            for _ in range(10):
                document.blocks.get(f"b{level}").add_blockref(f"b{level + 1}", (1, 1))
        for _ in range(10):
            document.blocks.get("b7").add_line((0, 0), (1, 1))
        for _ in range(10):
            space.add_blockref("b0", (0, 0))

    return dxf_bytes(draw)


def array_bomb():
    def draw(space, document):
        document.blocks.new("b").add_line((0, 0), (1, 1))
        space.add_blockref("b", (0, 0), dxfattribs={
            "row_count": 30_000, "column_count": 30_000, "row_spacing": 1, "column_spacing": 1
        })  # fmt: skip

    return dxf_bytes(draw)


def block_in_itself():
    def draw(space, document):
        document.blocks.new("a").add_blockref("b", (0, 0))
        document.blocks.new("b").add_blockref("a", (0, 0))
        space.add_blockref("a", (0, 0))

    return dxf_bytes(draw)


def plain_lines(count):
    """As the oldest programs write: nothing but lines."""
    lines = "".join(
        f"0\nLINE\n8\n0\n10\n{i % 100}\n20\n{i // 100}\n11\n{i % 100 + 0.5}\n21\n{i // 100 + 0.3}\n"
        for i in range(count)
    )
    return f"0\nSECTION\n2\nENTITIES\n{lines}0\nENDSEC\n0\nEOF\n".encode()


def spline_of_many():
    return dxf_bytes(lambda space, _: space.add_open_spline([(i, i % 7) for i in range(6_000)]))


def with_number(text):
    line = dxf_bytes(lambda space, _: space.add_line((12345.5, 0), (1, 1)))
    assert b"12345.5" in line
    return line.replace(b"12345.5", text)


LAUGHS = (
    "<!DOCTYPE gpx [<!ENTITY a0 'ha'>"
    + "".join(f"<!ENTITY a{n + 1} '{f'&a{n};' * 10}'>" for n in range(12))
    + "]>"
)
HUGE_TEXT = '{"type": "Feature", "properties": {"name": "' + "x" * 4_900_000 + '"}, "geometry": null}'

HOSTILE = {
    "zip bomb": ("dxf", zip_bomb, "ZIP archive"),
    "gzip": ("geojson", lambda: gzip.compress(b"0" * 50_000_000), "gzip"),
    "a picture": ("gpx", lambda: b"\x89PNG\r\n\x1a\n" + os.urandom(1000), "picture"),
    "too large": ("dxf", lambda: b"0\n" * 2_600_000, "larger than 5 MB"),
    "empty": ("dxf", lambda: b" \n", "empty"),
    "binary junk": ("dxf", lambda: bytes(range(256)) * 4000, "binary"),
    "text junk": ("dxf", lambda: b"0\n" + b"junk\n" * 900_000 + b"0\nEOF\n", "sound DXF"),
    "binary in gpx": ("gpx", lambda: bytes(range(256)) * 4000, "UTF-8"),
    "200,000 corners": (
        "geojson", lambda: geojson_bytes(feature("LineString", many_corners(200_000))), "larger"
    ),
    "120,000 corners": (
        "geojson", lambda: geojson_bytes(feature("LineString", many_corners(120_000))), "100,000 corners"
    ),
    "noise that cannot be thinned": (
        "geojson", lambda: geojson_bytes(feature("LineString", noise(99_000))), "thinning leaves"
    ),
    "entity expansion": ("gpx", lambda: gpx_bytes("<name>&a12;</name>", LAUGHS), "entities"),
    "deep JSON": ("geojson", lambda: b'{"a":' * 900_000, "nested"),
    "deep XML": ("gpx", lambda: gpx_bytes("<a>" * 400_000 + "</a>" * 400_000), "no point|sound GPX"),
    "wide XML": ("gpx", lambda: gpx_bytes('<wpt lat="1" lon="1"/>' * 60_000), "20,000 lines and points"),
    "one huge word": ("geojson", HUGE_TEXT.encode, "no point"),
    "many empty lists": ("geojson", lambda: b"[" + b"[]," * 1_600_000 + b"[]]", "no GeoJSON"),
    "NaN in DXF": ("dxf", lambda: with_number(b"nan"), "not a number|sound DXF"),
    "infinite in DXF": ("dxf", lambda: with_number(b"1e999"), "not a number|sound DXF"),
    "far away in DXF": ("dxf", lambda: with_number(b"1e300"), "that far out"),
    "no number in DXF": ("dxf", lambda: with_number(b"abc"), "sound DXF|no point"),
    "blocks in blocks": ("dxf", block_bomb, "20,000 lines"),
    "an array of blocks": ("dxf", array_bomb, "20,000 lines"),
    "a block in itself": ("dxf", block_in_itself, "deep|without an end"),
    "100,000 lines": ("dxf", lambda: plain_lines(100_000), "60,000 entities"),
    "50,000 lines": ("dxf", lambda: plain_lines(50_000), "20,000 lines and points"),
    "truncated": ("dxf", lambda: plain_lines(1000)[:-4000], "ends too early"),
    "hundred layers": (
        "geojson",
        lambda: geojson_bytes(*(feature("Point", [1, 2], layer=str(i)) for i in range(100))),
        "80 layers",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_gets_a_sentence_within_its_bounds(name, cost, capsys):
    kind, make, words = HOSTILE[name]
    data = make()
    with pytest.raises(FileRefused, match=words) as refused:
        read_shapes(kind, data)
    sentence = str(refused.value)
    assert len(sentence) < 400
    assert sentence.endswith((".", "?"))
    assert "Traceback" not in sentence
    assert cost.seconds < limits.CPU_SECONDS
    assert cost.memory_mb < limits.MEMORY_BYTES / 2**20
    if os.environ.get("SHOW_COST"):
        with capsys.disabled():
            size = f"{cost.seconds:.1f} s, {cost.memory_mb:.0f} MB"
            print(f"\n{name}: {len(data) / 1e6:.1f} MB, {size}: {sentence[:60]}")


def test_a_spline_of_many_points_is_read_or_refused_in_time(cost):
    try:
        assert read_shapes("dxf", spline_of_many()).shapes
    except FileRefused as refused:
        assert "corners" in str(refused)  # noqa: PT017 - either answer is sound
    assert cost.seconds < limits.CPU_SECONDS


SPIN = "import design.exchange.read_file as r; r.bound(); {}"
ROOT = Path(__file__).resolve().parents[2]


def bounded(code):
    return subprocess.run(
        [sys.executable, "-c", SPIN.format(code)], cwd=ROOT, capture_output=True, check=False
    )


def test_the_bounds_hold_whatever_is_read():
    """The limits of the kernel themselves, with the processor's time cut to a second for the test."""
    grab = "\ntry: b = bytearray(2**30)\nexcept MemoryError: print('refused')"
    assert b"refused" in bounded(grab).stdout
    began = time.monotonic()
    ended = bounded("import resource as s; s.setrlimit(s.RLIMIT_CPU, (1, 2))\nwhile True: pass")
    assert ended.returncode < 0
    assert time.monotonic() - began < 5
    write = "import os; os.write(os.open('/tmp/never-written', os.O_CREAT | os.O_WRONLY), b'x')"
    assert b"File too large" in bounded(write).stderr


@pytest.mark.parametrize(
    ("status", "words"), [(-24, "longer than"), (-9, "longer than"), (4, "memory"), (1, "could not be read")]
)
def test_every_way_of_ending_has_its_sentence(monkeypatch, status, words):
    monkeypatch.setattr(ground_file_reading, "_run", lambda kind, data: (status, b""))
    with pytest.raises(FileRefused, match=words):
        read_shapes("dxf", b"x")


def test_the_wall_clock_ends_it_too(monkeypatch):
    def late(*args, **kwargs):
        raise subprocess.TimeoutExpired("x", 15)

    monkeypatch.setattr(ground_file_reading.subprocess, "run", late)
    with pytest.raises(FileRefused, match="15 seconds"):
        read_shapes("dxf", b"x")


def test_the_child_knows_no_django_and_nothing_of_the_servers_environment(monkeypatch):
    seen = {}

    def look(command, **kwargs):
        seen.update(kwargs["env"])
        return subprocess.CompletedProcess(command, 0, b'{"shapes":[],"unit":"","notes":[],"origin":null}')

    monkeypatch.setenv("TRENCHBOOK_SECRET_KEY", "secret")
    monkeypatch.setattr(ground_file_reading.subprocess, "run", look)
    read_shapes("dxf", b"x")
    assert not [name for name in seen if "TRENCHBOOK" in name]
    code = (
        "import sys, design.exchange.dxf_in, design.exchange.gpx_in, design.exchange.geojson_in, "
        "design.exchange.read_file; sys.exit('django' in sys.modules)"
    )
    assert really_run([sys.executable, "-c", code], cwd=ROOT, check=False).returncode == 0


def test_a_sound_file_comes_through_the_child(cost):
    shapes = read_shapes("geojson", json.dumps(feature("Point", [1, 2], layer="Ä")).encode())
    assert shapes.shapes[0].layer == "Ä"
    assert cost.seconds < 5
