"""Two on one walk at the same moment: one answer is kept and the other told; a tap too many does nothing."""

from datetime import date

import pytest

from office.models import Person
from office.versions import Clash
from sites.models import Picture, SheetEntry, SitePhoto, Visit
from sites.photo_services import add_photo
from sites.readings import VisitData
from sites.services import save_visit
from sites.walk_round.lines import BY_KEY
from sites.walk_round.services import LineAnswer, save_line, start_walk
from tests.sites.makers import make_site
from tests.sites.pictures import upload
from tests.support.at_once import together

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def ola():
    return Person.objects.create_user("ola@example.test", "correct horse battery", name="Ola", role="office")


@pytest.fixture
def visit(ola):
    return save_visit(VisitData(date(2026, 5, 4), "Ola"), site=make_site(), by=ola)


def test_a_line_that_nobody_had_answered(visit, ola):
    def keep(text):
        return save_line(
            visit=visit, line=BY_KEY["decides"], answer=LineAnswer(text), began_from=0, by=ola
        )  # fmt: skip

    results, errors = together([lambda t=t: keep(t) for t in ("Ada", "Bea", "Cid")])
    assert len(results) == 1
    assert [type(error) for error in errors] == [Clash, Clash]
    assert SheetEntry.objects.get().text == results[0].text


def test_the_same_photo_sent_twice(visit, ola):
    results, errors = together([lambda: add_photo(visit=visit, upload=upload(), by=ola)] * 3)
    assert errors == []
    assert len({photo.pk for photo in results}) == 1
    assert (Picture.objects.count(), SitePhoto.objects.count()) == (1, 1)


def test_a_walk_started_by_two_taps(ola):
    site = make_site()
    results, errors = together([lambda: start_walk(site=site, by=ola)] * 3)
    assert errors == []
    assert {visit.pk for visit in results} == {Visit.objects.get().pk}
