"""A climate from a CSV file: what is read, and what is said of each row that cannot be."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sites.climate_csv import MAX_BYTES, ClimateFileRefused, read_climate_csv
from tests.watering.pages import csv_text
from tests.watering.zones import ETO_MM, RAIN_MM


def read(text, system="metric"):
    content = text if isinstance(text, bytes) else text.encode()
    return read_climate_csv(content, system)


def refusal(text):
    with pytest.raises(ClimateFileRefused) as caught:
        read(text)
    return caught.value.problems


def twelve(**changed):
    """Rows of the plain file, some replaced: r5=('May', 'x', 3) replaces the fifth."""
    rows = [(month, e, r) for month, (e, r) in enumerate(zip(ETO_MM, RAIN_MM, strict=True), 1)]
    for name, row in changed.items():
        rows[int(name[1:]) - 1] = row
    return rows


def test_a_plain_file():
    rows = read(csv_text())
    assert [row.month for row in rows] == list(range(1, 13))
    assert [row.eto.value_si for row in rows] == ETO_MM
    assert [row.rain.value_si for row in rows] == RAIN_MM
    assert rows[0].eto.text == "12 mm"


def test_names_semicolons_decimal_commas_and_a_mark_at_the_front():
    rows = [(name, "10,5", "20,25") for name in (
        "Jan", "february", "Mar.", "APR", "May", "June", "Jul", "August", "Sept", "Oct", "Nov", "December",
    )]  # fmt: skip
    found = read("\ufeff" + csv_text("Month;ETo (mm);Rainfall (mm)", rows, ";"))
    assert found[8].month == 9
    assert found[8].eto.value_si == 10.5
    assert found[8].rain.value_si == 20.25


def test_months_may_stand_in_any_order():
    assert [row.month for row in read(csv_text(rows=twelve()[::-1]))] == list(range(1, 13))


def test_inches_by_heading_by_site_and_by_cell():
    inches = [(month, "1.5", "2") for month in range(1, 13)]
    assert read(csv_text("month,eto_in,rain_in", inches))[0].eto.value_si == pytest.approx(38.1)
    assert read(csv_text("month,eto,rain", inches), "us")[0].rain.value_si == pytest.approx(50.8)
    cells = [(month, "1.5 in", "2 in") for month in range(1, 13)]
    assert read(csv_text("month,eto,rain", cells))[0].eto.value_si == pytest.approx(38.1)


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (("5", "nan", "3"), "Row 6: May, reference evapotranspiration"),
        (("5", "-4", "3"), "cannot be negative"),
        (("5", "4", "-3"), "May, rain: A depth cannot be negative"),
        (("5", "inf", "3"), "not a number"),
        (("5", "1e9", "3"), "Row 6"),
        (("5", "", "3"), "is empty; a month without any has 0"),
        (("5", "4"), "May, rain is empty"),
        (("5", "900", "3"), "more than any month has (500 mm)"),
        (("5", "4 bar", "3"), "no unit of depth"),
        (("13", "4", "3"), "“13” is no month"),
        (("0", "4", "3"), "“0” is no month"),
        (("Ma", "4", "3"), "“Ma” is no month"),
        (("Smarch", "4", "3"), "“Smarch” is no month"),
        (("4", "4", "3"), "April stands in the file twice"),
    ],
)
def test_a_row_that_cannot_be_is_named(row, words):
    problems = refusal(csv_text(rows=twelve(r5=row)))
    assert len(problems) == 1
    assert problems[0].startswith("Row 6: ")
    assert words in problems[0]


def test_every_bad_row_is_told_at_once_but_not_without_end():
    problems = refusal(csv_text(rows=[(month, "x", "y") for month in range(1, 13)] * 2))
    assert len(problems) == 13
    assert problems[-1] == "And 12 more like these."


def test_a_missing_month_is_named():
    assert refusal(csv_text(rows=twelve()[:-1])) == ["December missing; the file needs all twelve months."]


def test_a_thirteenth_month():
    assert "Row 14: “13” is no month" in refusal(csv_text(rows=[*twelve(), (13, 5, 5)]))[0]


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "empty"),
        (b"\n\n \n", "empty"),
        (b"month,rain_mm\n1,2\n", "no column for eto"),
        (b"a,b,c\n1,2,3\n", "no column for month, eto, rain"),
        (b"month,eto,rain\n", "January, February"),
        (b"\xff\xfe\x00m", "not UTF-8"),
        (b"month,eto,rain\n1,\x00,3\n", "NUL"),
        (b"x" * (MAX_BYTES + 1), "bytes"),
        (b"month,eto,rain\n" + b"1,2,3\n" * 60, "more than 40 rows"),
        (b'month,eto,rain\n"1,2,3', "Row 2"),
        (b"PK\x03\x04 a workbook, not text", "no column"),
    ],
)
def test_a_file_that_is_no_climate(content, words):
    assert words in " ".join(refusal(content))


def outcome(text):
    """Twelve rows, or the sentences that refuse them."""
    try:
        return read(text)
    except ClimateFileRefused as refused:
        return refused.problems


@given(st.binary(max_size=400))
def test_any_bytes_are_read_or_refused_in_words(content):
    assert outcome(content)


@given(st.lists(st.lists(st.text(max_size=8), max_size=4), max_size=14))
def test_any_cells_under_a_good_heading_are_read_or_refused_in_words(rows):
    found = outcome(csv_text(rows=[tuple(row) for row in rows] or [("",)]))
    assert found
    assert len(found) == 12 or all(isinstance(one, str) for one in found)
