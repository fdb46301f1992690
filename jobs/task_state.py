"""Where each task stands: the newest check-off counts."""

from dataclasses import dataclass

from jobs.models import CheckOff, Job, Result, Task


@dataclass(frozen=True)
class TaskState:
    task: Task
    history: tuple[CheckOff, ...]

    @property
    def last(self) -> CheckOff | None:
        """The newest check-off, unless that one took the others back."""
        newest = self.history[-1] if self.history else None
        return None if newest is None or newest.result == Result.UNDONE else newest

    @property
    def result(self) -> str:
        """``done``, ``short``, ``problem``, or ``open``."""
        return self.last.result if self.last else "open"


def latest_results(job: Job) -> dict[int, str]:
    """Newest result by task id; tasks that nobody has touched are missing."""
    rows = CheckOff.objects.filter(task__job=job).order_by("at", "id").values_list("task_id", "result")
    return dict(rows)


def task_states(job: Job) -> list[TaskState]:
    """Every task of the job with its history, in two queries."""
    tasks = job.tasks.prefetch_related("checkoffs__by")
    return [TaskState(task, tuple(task.checkoffs.all())) for task in tasks]
