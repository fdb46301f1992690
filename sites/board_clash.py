"""Two versions of a plan: what somebody kept meanwhile, and what a person has drawn from an older one."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from django.db import transaction

from design.comparing import Comparison, compare
from design.merging import Merged, Side, merge
from design.unfinished import empty_document
from office.models import Person
from sites.drafts import draft_of, drop_draft, save_draft
from sites.errors import DraftClash, PlanClash
from sites.models import PlanDraft, PlanRevision, Site
from sites.plan_services import add_plan_revision, latest_revision


@dataclass(frozen=True)
class Sides:
    """``base`` is what both began from; without one they have nothing in common."""

    base: PlanRevision | None
    mine: PlanDraft
    theirs: PlanRevision

    @property
    def base_document(self) -> dict[str, Any]:
        return self.base.document if self.base else empty_document()

    @cached_property
    def merged(self) -> Merged:
        return self.merged_by({})

    def merged_by(self, choices: Mapping[str, Side]) -> Merged:
        return merge(self.base_document, self.mine.document, self.theirs.document, choices)

    @cached_property
    def my_changes(self) -> Comparison:
        return compare(self.base_document, self.mine.document)

    @cached_property
    def their_changes(self) -> Comparison:
        return compare(self.base_document, self.theirs.document)


def sides_of(site: Site, person: Person) -> Sides | None:
    """Both versions; none where the person has no draft, or has drawn from the newest revision."""
    mine, theirs = draft_of(site, person), latest_revision(site)
    if mine is None or theirs is None or mine.began_from == theirs.number:
        return None
    return Sides(site.plans.filter(number=mine.began_from).first(), mine, theirs)


@transaction.atomic
def keep_mine(*, site: Site, person: Person, draft_version: int, newest: int) -> PlanRevision:
    """My draft as the next revision; theirs stays as the one before. Raises PlanRefused, PlanClash."""
    draft = _seen(site, person, draft_version, newest)
    revision = add_plan_revision(
        site=site, document=draft.document, began_from=newest, by=person, name=draft.name
    )
    drop_draft(site=site, person=person)
    return revision


@transaction.atomic
def take_theirs(*, site: Site, person: Person, draft_version: int, newest: int) -> None:
    """Forget my draft, so that the board goes on from theirs."""
    _seen(site, person, draft_version, newest)
    drop_draft(site=site, person=person)


@transaction.atomic
def put_together(
    *, site: Site, person: Person, draft_version: int, newest: int, choices: Mapping[str, Side]
) -> PlanDraft:
    """Both versions as my draft, begun from theirs; ``choices`` by the key of each conflict."""
    draft = _seen(site, person, draft_version, newest)
    sides = sides_of(site, person)
    if sides is None:
        return draft
    return save_draft(
        site=site, person=person, document=sides.merged_by(choices).document, began_from=newest,
        draft_version=draft_version, name=draft.name,
    )  # fmt: skip


def _seen(site: Site, person: Person, draft_version: int, newest: int) -> PlanDraft:
    """The draft, if both versions are still those that the person looked at."""
    Site.objects.select_for_update().get(pk=site.pk)
    latest, draft = latest_revision(site), draft_of(site, person)
    if draft is None or latest is None or latest.number != newest:
        raise PlanClash(latest, newest)
    if draft.version != draft_version:
        raise DraftClash(draft)
    return draft
