"""Names and addresses in many scripts: a glyph for each letter, or a visible box."""

import unicodedata
from pathlib import Path

import pytest

from quoting.proposal import fonts, render_proposal
from quoting.proposal.arabic import joined
from quoting.proposal.words import clean, in_reading_order, runs
from tests.proposal.pdf_reading import words_of
from tests.proposal.sample_proposal import sample

NAMES = {
    "accented Latin": "Łucja Ångström-Çelik",
    "Vietnamese": "Nguyễn Thị Ánh",
    "Greek": "Ελένη Παπαδάκη",
    "Cyrillic": "Юлия Щёголева",
    "Georgian": "ნინო ბერიძე",
    "Chinese": "王小明",
    "Japanese": "田中さくら",
    "Korean": "김민수",
    "Thai": "สมชาย",
}
ARABIC, HEBREW = "محمد الأحمد", "שלום כהן"


@pytest.fixture
def fresh_fonts(monkeypatch):
    """Fonts are looked up anew inside the test, and again after it."""
    fonts._faces.cache_clear()
    yield monkeypatch
    fonts._faces.cache_clear()


@pytest.mark.parametrize("script", NAMES)
def test_a_name_is_shown_in_its_script(script):
    name = NAMES[script]
    assert all(box != fonts.faces().box for box in "".join(w for _, w in runs(name)))
    text = words_of(render_proposal(sample(customer_name=name)))
    assert name in text.replace("\u200b", "")


@pytest.mark.parametrize("name", [ARABIC, HEBREW])
def test_a_right_to_left_name_can_be_read_back(name):
    # A PDF holds such a line in the order of its glyphs; the reader turns it back.
    text = unicodedata.normalize("NFKC", words_of(render_proposal(sample(customer_name=name))))
    assert name in text or name[::-1] in text


def test_arabic_letters_join_as_the_unicode_standard_says():
    # The Unicode Standard, section 9.2: meem-hah-meem-dal joins as initial, medial, medial, final.
    assert joined("محمد") == "\ufee3\ufea4\ufee4\ufeaa"
    # Lam with alef is one glyph; a letter after alef does not join to it.
    assert joined("الأ") == "\ufe8d\ufef7"
    assert joined("دار") == "\ufea9\ufe8d\ufead"
    assert joined("plain ABC") == "plain ABC"


def test_right_to_left_words_stand_from_right_to_left_and_the_rest_stays():
    shown = in_reading_order(f"Office {HEBREW}, 12 Hill Road")
    assert shown == f"Office {HEBREW[::-1]}, 12 Hill Road".replace("ןהכ םולש", "ןהכ\u00a0םולש")
    assert in_reading_order("12 Hill Road") == "12 Hill Road"


def test_a_number_inside_a_right_to_left_address_keeps_its_digits():
    assert "12" in in_reading_order("شارع الزيتون 12، دبي")


@pytest.mark.parametrize("letter", ["\U0001f331", "\U00020000", "\ue123"])
def test_a_letter_without_a_glyph_becomes_a_visible_box(letter):
    box = fonts.faces().box
    if fonts.faces().font_for(letter, bold=False) is None:
        assert f"A{box}B" in "".join(w for _, w in runs(f"A{letter}B"))
        assert f"A{box}B" in words_of(render_proposal(sample(customer_name=f"A{letter}B")))
    else:
        assert letter in "".join(w for _, w in runs(letter))


def test_the_box_is_used_for_the_first_of_these():
    assert fonts.faces().font_for("\U0001f331", bold=False) is None
    assert fonts.faces().box == "□"


def test_without_the_npm_fonts_every_letter_is_still_visible(fresh_fonts, tmp_path):
    fresh_fonts.setattr(fonts, "ROOT", tmp_path)
    known = fonts.faces()
    assert known.main.regular == "TrenchbookVera"
    assert ord(known.box) in known.main.covers
    text = "".join(w for _, w in runs("Łé Юя 王"))
    assert text.count(known.box) == 3
    assert "Łé" in text
    assert "$6,350.40" in words_of(render_proposal(sample(customer_name="王小明")))


def test_a_folder_of_fonts_named_by_the_environment_is_tried_first(fresh_fonts, tmp_path):
    serif = next(Path(fonts.ROOT).glob("node_modules/dejavu-fonts-ttf/ttf/DejaVuMathTeXGyre.ttf"))
    (tmp_path / "a.ttf").write_bytes(serif.read_bytes())
    (tmp_path / "broken.ttf").write_bytes(b"no font")
    fresh_fonts.setenv(fonts.FONT_DIR_VARIABLE, str(tmp_path))
    known = fonts.faces()
    assert [face.regular for face in known.others] == ["TrenchbookExtra1"]


def test_control_and_direction_characters_are_dropped():
    assert clean("a\u202eb\x00c\u200b\nd") == "abc d"
