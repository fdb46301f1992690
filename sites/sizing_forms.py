"""Which pipes are to stay as they are."""

import re
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from sites.models import PlanRevision
from sites.sizing_services import unknown_pipes


class KeepForm(forms.Form):
    keep = forms.CharField(
        label="Pipes that stay as they are",
        required=False,
        max_length=4000,
        help_text="Their names with spaces between, such as M1 M2: what is laid already, or bought.",
    )

    def __init__(self, revision: PlanRevision, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.revision = revision

    def clean_keep(self) -> frozenset[str]:
        named = frozenset(filter(None, re.split(r"[\s,;]+", self.cleaned_data["keep"])))
        unknown = unknown_pipes(self.revision, named)
        if unknown:
            names = ", ".join(unknown[:5]) + ("…" if len(unknown) > 5 else "")
            raise ValidationError(f"This plan has no pipe {names}. The names stand on the drawing.")
        return named
