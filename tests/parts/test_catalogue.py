"""The parts book as the engineering packages see it."""

import pytest

from hydraulics.catalogue import PipePart
from office.versions import Clash
from parts.models import Part
from parts.services import PartInvalid, catalogue, create_part, update_part
from tests.parts.books import PIPE

pytestmark = pytest.mark.django_db


def change(part, **fields):
    return update_part(
        part, began_from=part.version, data={**PIPE, **fields}, category="pipe", active=True, by=None
    )


def test_parts_come_out_typed(small_book):
    assert catalogue().need("pvc-25", PipePart).bore_mm == 20.4


def test_the_catalogue_is_built_once_and_then_costs_one_query(small_book, django_assert_num_queries):
    first = catalogue()
    with django_assert_num_queries(1):
        assert catalogue() is first


def test_a_change_is_seen_at_once(small_book):
    catalogue()
    change(Part.objects.get(code="pvc-25"), bore_mm=21.5)
    assert catalogue()["pvc-25"].bore_mm == 21.5


def test_a_part_put_away_leaves_the_catalogue(small_book):
    part = Part.objects.get(code="pvc-25")
    update_part(part, began_from=1, data=PIPE, category="pipe", active=False, by=None)
    assert "pvc-25" not in catalogue()


def test_the_code_of_a_part_cannot_change(small_book):
    with pytest.raises(PartInvalid, match="The code must stay “pvc-25”"):
        change(Part.objects.get(code="pvc-25"), code="pvc-26")


def test_a_second_part_of_the_same_code_is_refused(small_book):
    with pytest.raises(PartInvalid, match="There is a part “pvc-25” already"):
        create_part(data=PIPE, category="pipe", by=None)


def test_two_who_edit_a_part_at_once_never_overwrite_each_other(small_book):
    part = Part.objects.get(code="pvc-25")
    change(part, bore_mm=21.0)
    with pytest.raises(Clash):
        change(part, bore_mm=22.0)
    assert Part.objects.get(code="pvc-25").data["bore_mm"] == 21.0
