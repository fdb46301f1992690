"""Refusals of the services, each with what a page or an API answer needs to say."""

from design.problems import Problem
from sites.models import PlanDraft, PlanRevision
from sites.readings import Remark


class SitesError(ValueError):
    """Base of what the services of this app refuse with."""


class VisitRefused(SitesError):
    """Figures that cannot be, or unusual ones that nobody has said to be right."""

    def __init__(self, refusals: tuple[Remark, ...], questions: tuple[Remark, ...]) -> None:
        self.refusals, self.questions = refusals, questions
        super().__init__(" ".join(remark.sentence for remark in (*refusals, *questions)))


class PlanRefused(SitesError):
    """The document is no plan that can be kept; ``problems`` name the entity and the field."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        self.problems = problems
        super().__init__("\n".join(str(problem) for problem in problems))


class SurveyRefused(SitesError):
    """The readings are no document that can be kept; ``problems`` name the row and the field."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        self.problems = problems
        super().__init__("\n".join(str(problem) for problem in problems))


class PlanClash(SitesError):
    """Somebody saved a newer revision since this one was begun; ``latest`` is what stands now."""

    def __init__(self, latest: PlanRevision | None, began_from: int) -> None:
        self.latest, self.began_from = latest, began_from
        newest = f"revision {latest.number} exists" if latest else "there is no revision yet"
        super().__init__(f"You began from revision {began_from}, and {newest} by now.")


class PictureRefused(SitesError):
    """The upload is no picture that can be kept; the message is a sentence that says why."""


class LineRefused(SitesError):
    """A figure of the sheet that cannot be, or an unusual one that nobody has said to be right."""

    def __init__(self, remark: Remark) -> None:
        self.remark = remark
        super().__init__(remark.sentence)


class CheckFailed(SitesError):
    """The plan cannot be checked; the message is a sentence that says why."""


class DraftClash(SitesError):
    """This person's draft was saved elsewhere meanwhile; ``current`` is what stands now."""

    def __init__(self, current: PlanDraft) -> None:
        self.current = current
        super().__init__("You saved this drawing in another window meanwhile. Both versions are kept.")
