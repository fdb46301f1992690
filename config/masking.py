"""Addresses that open something by themselves, such as a customer's link, stay out of the logs."""

import logging
import re

# the customer's page, and the page that takes a new password
_SECRET_PART = re.compile(r"(/o/|/account/password/reset/key/)[^/\s?\"']+")


def masked(text: str) -> str:
    return _SECRET_PART.sub(r"\1***", text)


class NoTokens(logging.Filter):
    """Masks each record that passes; lets all of them through."""

    def filter(self, record: logging.LogRecord) -> bool:
        message = record.getMessage()
        if (clean := masked(message)) != message:
            record.msg, record.args = clean, ()
        return True
