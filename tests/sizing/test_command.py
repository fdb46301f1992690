"""``manage.py size_pipes``."""

import json
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from design.loading import load_plan
from tests.sizing.plans import ROOT

PLAN = str(ROOT / "demo/plans/ferry-lane.json")
BOOK = str(ROOT / "demo/price_book.json")
S1 = str(ROOT / "tests/plans/s1.json")


def run(*words):
    out, err = StringIO(), StringIO()
    call_command("size_pipes", *words, stdout=out, stderr=err)
    return out.getvalue()


def test_a_plan_file_with_a_price_book_needs_no_database(tmp_path):
    out = run(PLAN, "--prices", BOOK, "-o", str(tmp_path / "out.json"))
    assert "M1: pvc-sdr21-1in -> pvc-sdr21-0.75in" in out
    assert "gap 0.0 %" in out
    assert "Proven" in out
    sized = load_plan((tmp_path / "out.json").read_bytes())
    assert {pipe.part for pipe in sized.layout.pipes} == {"pvc-sdr21-0.75in"}


def test_json_is_the_result():
    found = json.loads(run(PLAN, "--prices", BOOK, "--json"))
    assert found["outcome"] == "least"
    assert found["changes"][0]["pipe"] == "M1"


def test_prices_may_be_a_plain_object(tmp_path):
    """Dear narrow pipe: the wider one is then cheaper."""
    prices = tmp_path / "prices.json"
    prices.write_text(json.dumps({"pvc-25": "3.00", "pvc-32": "1.10"}))
    out = run(S1, "--prices", str(prices), "--parts", BOOK)
    assert "pvc-25 -> pvc-32" in out


def test_pipes_may_be_kept():
    assert "Left: M1" in run(PLAN, "--prices", BOOK, "--keep", "M1")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[1]", "one JSON object"),
        ("{", "not JSON"),
        ('{"pe-25": 0.89}', "in quotes"),
        ('{"pe-25": "-1"}', "in quotes"),
        ('{"pe-25": "NaN"}', "in quotes"),
        ('{"parts": [{"data": 1}]}', "category"),
    ],
)
def test_prices_that_cannot_be_read_say_why(tmp_path, text, said):
    prices = tmp_path / "prices.json"
    prices.write_text(text)
    with pytest.raises(CommandError, match=said):
        run(S1, "--prices", str(prices), "--parts", BOOK)


def test_other_bad_input_says_why(tmp_path):
    with pytest.raises(CommandError, match="no pipe XX"):
        run(PLAN, "--prices", BOOK, "--keep", "XX")
    with pytest.raises(CommandError, match="cannot be read"):
        run(PLAN, "--prices", str(tmp_path / "none.json"))
    with pytest.raises(CommandError, match="cannot be read"):
        run(str(tmp_path / "none.json"), "--prices", BOOK)
    with pytest.raises(CommandError, match="--seconds"):
        run(PLAN, "--prices", BOOK, "--seconds", "-1")
    with pytest.raises(CommandError, match="cannot be written"):
        run(PLAN, "--prices", BOOK, "-o", str(tmp_path / "no/such/place.json"))


def test_where_no_sizes_will_do_it_ends_with_1(tmp_path):
    document = json.loads((ROOT / "tests/plans/s1.json").read_text())
    document["supply"] |= {"static_kpa": 300, "tests": []}
    weak = tmp_path / "weak.json"
    weak.write_text(json.dumps(document))
    with pytest.raises(SystemExit) as ended:
        run(str(weak), "--prices", BOOK)
    assert ended.value.code == 1


@pytest.mark.django_db
def test_without_files_parts_and_prices_are_those_of_the_book(parts_book):
    assert "M1: pvc-sdr21-1in -> pvc-sdr21-0.75in" in run(PLAN)
