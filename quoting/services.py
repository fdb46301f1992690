"""Writing quotes: gathered here for callers."""

from quoting.answers import Signature, accept_by_link, accept_on_paper, decline, total_with
from quoting.drafting import discard_draft, draft_quote, edit_draft, rework_quote
from quoting.issuing import hindrances, issue_quote
from quoting.lifecycle import lapse_all_past
from quoting.line_edits import add_line, edit_line, remove_line
from quoting.links import make_link, revoke_links
from quoting.policies import get_policy, save_policy, save_rate
from quoting.revising import differences, new_revision

__all__ = [
    "Signature",
    "accept_by_link",
    "accept_on_paper",
    "add_line",
    "decline",
    "differences",
    "discard_draft",
    "draft_quote",
    "edit_draft",
    "edit_line",
    "get_policy",
    "hindrances",
    "issue_quote",
    "lapse_all_past",
    "make_link",
    "new_revision",
    "remove_line",
    "revoke_links",
    "rework_quote",
    "save_policy",
    "save_rate",
    "total_with",
]
