"""Forms that bring a plan in: as a file, or as text."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile

from design.loading import MAX_BYTES


class PlanTextForm(forms.Form):
    """The document as text, and the number of the revision that it was begun from (0: none)."""

    began_from = forms.IntegerField(widget=forms.HiddenInput, min_value=0)
    name = forms.CharField(
        label="Name of this plan", max_length=120, required=False, help_text="Such as: loop round the lawn"
    )
    document = forms.CharField(
        label="Plan document", strip=False, max_length=MAX_BYTES,
        widget=forms.Textarea(attrs={"class": "code", "spellcheck": "false", "rows": 30}),
        error_messages={"required": "The plan is empty."},
    )  # fmt: skip


class PlanFileForm(forms.Form):
    began_from = forms.IntegerField(widget=forms.HiddenInput, min_value=0)
    name = forms.CharField(label="Name of this plan", max_length=120, required=False)
    file = forms.FileField(
        label="Plan file", help_text="A .json file of at most 1 MB.",
        error_messages={"required": "Choose a file first.", "empty": "That file is empty."},
        widget=forms.ClearableFileInput(attrs={"accept": ".json,application/json"}),
    )  # fmt: skip

    def clean_file(self) -> UploadedFile:
        file: Any = self.cleaned_data["file"]
        if file.size > MAX_BYTES:
            raise ValidationError(f"That file has {file.size / 1_000_000:.1f} MB; a plan has at most 1 MB.")
        if not str(file.name).lower().endswith(".json"):
            raise ValidationError("Choose a file whose name ends with .json.")
        return file
