"""``gunicorn --logger-class config.gunicorn_log.MaskedLogger``: an access log without tokens."""

from typing import Any

from gunicorn.glogging import Logger

from config.masking import masked


class MaskedLogger(Logger):
    """Gunicorn's own log takes no filters, so each part of a line is masked."""

    def atoms(self, *args: Any, **kwargs: Any) -> dict[str, Any]:
        found = super().atoms(*args, **kwargs)
        return {name: masked(part) if isinstance(part, str) else part for name, part in found.items()}
