"""What a person is drawing on a site: kept while they draw, for themselves only, until it is a revision."""

import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db import transaction

from design.problems import PlanInvalid, Problem
from design.putting import put_rows
from design.unfinished import GROUND_LISTS, empty_document, load_unfinished
from office.models import Person
from sites.errors import DraftClash, PlanRefused
from sites.models import PlanDraft, Site
from sites.plan_services import latest_revision
from sites.plan_start import plan_from_visit

# 2026-01-01: a draft's first version counts the seconds since, so that no later draft has it again
FIRST_VERSION_S = 1_767_225_600
LARGEST_VERSION = 2_147_483_647  # what the database counts to
Outdated = Callable[[str], bool]


@dataclass(frozen=True)
class Drawing:
    """What the board opens with. ``began_from`` is a revision's number, ``draft_version`` 0 for no draft."""

    document: dict[str, Any]
    began_from: int
    draft_version: int
    name: str
    saved_at: datetime | None = None


def drawing_for(*, site: Site, person: Person) -> Drawing:
    """The person's draft, else the newest revision, else what the newest visit gives, else nothing yet."""
    draft = draft_of(site, person)
    if draft is not None:
        return Drawing(draft.document, draft.began_from, draft.version, draft.name, draft.changed_at)
    newest = latest_revision(site)
    if newest is not None:
        return Drawing(newest.document, newest.number, 0, newest.name)
    visit = site.visits.prefetch_related("tests", "heights").order_by("-visited_on", "-pk").first()
    return Drawing(plan_from_visit(visit) if visit else empty_document(), 0, 0, "")


def draft_of(site: Site, person: Person) -> PlanDraft | None:
    return PlanDraft.objects.filter(site=site, person=person).first()


@transaction.atomic
def save_draft(
    *,
    site: Site,
    person: Person,
    document: str | bytes | dict[str, Any],
    began_from: int,
    draft_version: int,
    name: str = "",
) -> PlanDraft:
    """Keep what is drawn. ``draft_version`` is the version that it was begun from, 0 for no draft yet.

    A draft that was kept as a revision elsewhere is simply begun again. Raises PlanRefused
    for what is no document, ValidationError for the name, DraftClash where the stored one is
    another than ``draft_version``.
    """
    read = _read(document)
    Site.objects.select_for_update().get(pk=site.pk)  # two windows at once come one after the other
    draft = draft_of(site, person)
    if draft is None:
        draft = PlanDraft(site=site, person=person, version=_first_version(draft_version))
    elif draft.version != draft_version:
        raise DraftClash(draft)
    else:
        draft.version += 1
    draft.document, draft.began_from, draft.name = read, began_from, name
    draft.full_clean()
    draft.save()
    return draft


@transaction.atomic
def put_ground(
    *, site: Site, person: Person, ground: dict[str, Any], outdated: Outdated = lambda _: False
) -> PlanDraft:
    """Put a plan/1 ground into the person's drawing: what has an id that is there takes its place, the
    rest is appended, what is ``outdated`` by its id goes, all else stays. Raises PlanRefused.
    """
    Site.objects.select_for_update().get(pk=site.pk)
    drawing = drawing_for(site=site, person=person)
    return save_draft(
        site=site,
        person=person,
        document=with_ground(drawing.document, ground, outdated),
        began_from=drawing.began_from,
        draft_version=drawing.draft_version,
        name=drawing.name,
    )


def with_ground(
    document: dict[str, Any], ground: dict[str, Any], outdated: Outdated = lambda _: False
) -> dict[str, Any]:
    """The document with that ground in it. Raises PlanRefused for a list that a ground has not."""
    foreign = [name for name in ground if name not in GROUND_LISTS]
    if foreign:
        raise PlanRefused((Problem("ground", foreign[0], "There is no such list in the ground of a plan."),))
    fragment = _read({"format": "plan/1", "ground": ground})["ground"]
    kept = document.get("ground") or {}
    merged = {name: put_rows(kept.get(name) or [], rows or [], outdated) for name, rows in fragment.items()}
    return {**document, "ground": {**kept, **merged}}


def drop_draft(*, site: Site, person: Person) -> None:
    """Forget the draft; revisions stay as they are."""
    PlanDraft.objects.filter(site=site, person=person).delete()


def _read(document: str | bytes | dict[str, Any]) -> dict[str, Any]:
    try:
        return load_unfinished(document)
    except PlanInvalid as error:
        raise PlanRefused(error.problems) from None


def _first_version(draft_version: int) -> int:
    return max(min(draft_version + 1, LARGEST_VERSION // 2), int(time.time()) - FIRST_VERSION_S)
