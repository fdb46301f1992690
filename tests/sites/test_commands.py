"""The commands: the same report as the page, and a case for EPANET."""

import io
import json

import pytest
from django.core.management import CommandError, call_command

from design.report import report_to_dict
from design.report_text import report_text
from sites.check import check_revision
from tests.sites.makers import ROOT, plan_document

S1 = str(ROOT / "tests" / "plans" / "s1.json")
BOOK = str(ROOT / "demo" / "price_book.json")


def run(*arguments, **options):
    out, error = io.StringIO(), io.StringIO()
    try:
        call_command(*arguments, stdout=out, stderr=error, **options)
        code = 0
    except SystemExit as end:
        code = end.code
    return code, out.getvalue(), error.getvalue()


def test_text_and_json_are_the_report_of_the_page(plan):
    report = check_revision(plan)
    assert run("check_plan", S1) == (0, report_text(report), "")
    code, out, _ = run("check_plan", S1, "--json")
    assert (code, json.loads(out)) == (0, json.loads(json.dumps(report_to_dict(report))))


@pytest.mark.django_db
def test_parts_may_come_from_a_price_book_file():
    code, out, _ = run("check_plan", S1, "--parts", BOOK)
    assert code == 0
    assert "SUPPLY" in out
    code, _, error = run("check_plan", S1)  # the parts book is empty
    assert code == 1
    assert "There is no part “pvc-25” in the parts book" in error


@pytest.mark.django_db
def test_a_stop_ends_with_1(tmp_path):
    document = plan_document()
    document["supply"]["static_kpa"], document["supply"]["tests"] = 200, []
    file = tmp_path / "weak.json"
    file.write_text(json.dumps(document), encoding="utf-8")
    code, out, _ = run("check_plan", str(file), "--parts", BOOK)
    assert code == 1
    assert "STOP" in out


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "The plan is empty"), (b"{", "not JSON"), (b"\xff", "not UTF-8"),
        (b" " * 1_000_001, "larger than 1 MB"),
        (b'{"format": "plan/1", "supply": {"at": [0, 0], "static_kpa": 1e999}}', "static_kpa"),
    ],
    ids=["empty", "broken", "binary", "huge", "infinite"],
)  # fmt: skip
def test_a_bad_file_ends_with_1_and_a_sentence(tmp_path, content, words):
    file = tmp_path / "plan.json"
    file.write_bytes(content)
    code, _, error = run("check_plan", str(file), "--parts", BOOK)
    assert code == 1
    assert words in error
    code, out, _ = run("check_plan", str(file), "--parts", BOOK, "--json")
    assert code == 1
    assert words in json.loads(out)["problems"][0]


@pytest.mark.django_db
@pytest.mark.parametrize("parts", ["{", "{}[", '{"parts": [{}]}'])
def test_a_bad_price_book_is_named(tmp_path, parts):
    book = tmp_path / "book.json"
    book.write_text(parts, encoding="utf-8")
    code, _, error = run("check_plan", S1, "--parts", str(book))
    assert code == 1
    assert str(book) in error


@pytest.mark.django_db
def test_a_missing_file_is_named():
    code, _, error = run("check_plan", "/no/such/plan.json")
    assert code == 1
    assert "/no/such/plan.json cannot be read" in error


@pytest.mark.django_db
def test_a_case_is_written_for_epanet(tmp_path):
    target = tmp_path / "case.inp"
    run("export_inp", S1, "--case", "Edge rows", "-o", str(target), "--parts", BOOK)
    assert "[PIPES]" in target.read_text(encoding="utf-8")
    with pytest.raises(CommandError, match="There is no case “Front”"):
        call_command("export_inp", S1, "--case", "Front", "--parts", BOOK)
    with pytest.raises(CommandError, match="cannot be written"):
        call_command(
            "export_inp", S1, "--case", "Edge rows", "--parts", BOOK, "-o", str(tmp_path / "no" / "x.inp")
        )
