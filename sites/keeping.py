"""From a drawing to the next revision of the plan, without losing either side of a clash."""

from django.db import transaction

from office.models import Person
from sites.drafts import Drawing, draft_of, drop_draft, save_draft
from sites.errors import DraftClash, PlanClash
from sites.models import PlanRevision, Site
from sites.plan_services import add_plan_revision


def keep_drawing(*, site: Site, person: Person, drawn: Drawing) -> PlanRevision:
    """Keep what is drawn as the next revision and forget the draft.

    Raises PlanRefused; PlanClash where somebody kept a newer revision, after keeping what is
    drawn as the draft; DraftClash where the stored draft is another than it was begun from.
    """
    try:
        return _kept(site, person, drawn)
    except PlanClash:
        save_draft(
            site=site, person=person, document=drawn.document, began_from=drawn.began_from,
            draft_version=drawn.draft_version, name=drawn.name,
        )  # fmt: skip
        raise


@transaction.atomic
def _kept(site: Site, person: Person, drawn: Drawing) -> PlanRevision:
    Site.objects.select_for_update().get(pk=site.pk)
    draft = draft_of(site, person)
    if draft is not None and draft.version != drawn.draft_version:
        raise DraftClash(draft)
    revision = add_plan_revision(
        site=site, document=drawn.document, began_from=drawn.began_from, by=person, name=drawn.name
    )
    drop_draft(site=site, person=person)
    return revision


@transaction.atomic
def discard_drawing(*, site: Site, person: Person, draft_version: int) -> None:
    """Forget the person's draft; revisions stay. Raises DraftClash where it is another than was looked at."""
    Site.objects.select_for_update().get(pk=site.pk)
    draft = draft_of(site, person)
    if draft is None:
        return
    if draft.version != draft_version:
        raise DraftClash(draft)
    drop_draft(site=site, person=person)
