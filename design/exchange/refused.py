"""Why a file is not taken."""

from design.problems import DesignError


class FileRefused(DesignError):
    """The file cannot be read as what it should be; the message is a sentence for a person."""
