"""What must never reach a customer: costs, rates, hours, margins, suppliers, notes, paths, logins."""

import getpass
import re
from dataclasses import fields

import pytest

from design.document import Note
from quoting.proposal import (
    AreaLine,
    Company,
    Figure,
    OptionLine,
    PriceLine,
    ProposalData,
    Stage,
    render_proposal,
)
from tests.proposal.pdf_reading import raw_of, reader_of, words_of
from tests.proposal.sample_proposal import SAMPLE, sample

# What the office knows of an invented job, in no part of the data: labour 38 h at 30.00 and
# 1.30 burden, overhead 31.00/h, materials 1450, contingency 146.60, cost 4256.60, margin 15 %.
INTERNAL = [
    "38",
    "30.00",
    "1,482.00",
    "1482.00",
    "1,178.00",
    "1,450.00",
    "146.60",
    "4,256.60",
    "4256.60",
    "5,007.76",
    "650.00",
    "1.15",
    "1.30",
    "34.5",
]
INTERNAL_WORDS = [
    "cost",
    "margin",
    "markup",
    "mark-up",
    "overhead",
    "contingency",
    "supplier",
    "wage",
    "labour rate",
    "hours",
    "unit price",
    "profit",
]
SECRET = "Gate code 4711, dog bites"


@pytest.fixture(scope="module")
def pdf() -> bytes:
    layout = SAMPLE.plan.layout.model_copy(update={"notes": [Note(at=(5, 5), text=SECRET)]})
    plan = SAMPLE.plan.model_copy(update={"layout": layout})
    return render_proposal(sample(plan=plan))


def test_no_class_of_the_data_has_a_place_for_an_internal_number():
    names = {
        f.name
        for c in (ProposalData, PriceLine, OptionLine, Stage, AreaLine, Figure, Company)
        for f in fields(c)
    }
    forbidden = re.compile(r"cost|margin|markup|overhead|supplier|hour|wage|rate|unit_price|quantity|profit")
    assert not [name for name in names if forbidden.search(name)]


@pytest.mark.parametrize("number", INTERNAL)
def test_no_internal_number_is_in_the_text(pdf, number):
    assert not re.search(rf"(?<![\d.,]){re.escape(number)}(?![\d,])", words_of(pdf))


@pytest.mark.parametrize("word", INTERNAL_WORDS)
def test_no_internal_word_is_in_the_text(pdf, word):
    allowed = {"cost": "the whole job would cost more, or less"}
    text = words_of(pdf).lower()
    if word in allowed:
        text = text.replace(allowed[word], "")
    assert not re.search(rf"\b{word}\b", text)


def test_notes_and_findings_stay_in_the_office(pdf):
    text, raw = words_of(pdf), raw_of(pdf)
    for secret in (SECRET, "4711", "Have the gas pipe located", "Water runs fast"):
        assert secret not in text
        assert secret.encode() not in raw
        assert secret.encode("utf-16-be") not in raw


def test_raw_streams_and_metadata_hold_no_path_login_or_attachment(pdf):
    reader, raw = reader_of(pdf), raw_of(pdf)
    for word in (
        b"/work",
        b"/tmp",
        b"/home",
        b"node_modules",
        b".py",
        b"/EmbeddedFile",
        b"/JavaScript",
        b"/OCG",
    ):
        assert word not in raw, word
    facts = " ".join(str(v) for v in reader.metadata.values())
    assert getpass.getuser() not in facts.lower().split()
    assert reader.attachments == {}
    for number in ("4256.60", "1482.00", "146.60"):
        assert number.encode() not in raw


def test_the_logo_carries_no_metadata():
    from io import BytesIO

    from PIL import Image

    photo, out = Image.new("RGB", (1200, 600), "teal"), BytesIO()
    exif = Image.Exif()
    exif[0x010E] = "taken by Someone at Home"  # ImageDescription
    photo.save(out, "JPEG", exif=exif)
    pdf = render_proposal(sample(company=Company("Acre", logo=out.getvalue())))
    assert b"taken by Someone" in out.getvalue()
    assert b"taken by Someone" not in raw_of(pdf)
    assert len(reader_of(pdf).pages[0].images) == 1
    assert len(pdf) < 200_000
