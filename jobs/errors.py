"""What the jobs app refuses, as sentences that a person reads."""


class JobError(Exception):
    """Base of all refusals here."""


class Refused(JobError):
    """The rules forbid it now. ``field`` names the form field at fault, where one is."""

    def __init__(self, sentence: str, field: str | None = None) -> None:
        self.sentence = sentence
        self.field = field
        super().__init__(sentence)


class NoSeal(JobError):
    """The quote was never sealed, so there is nothing to build from."""
