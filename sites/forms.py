"""Forms for customers and sites."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from sites.models import Customer, Site


class _VersionedForm(forms.ModelForm):
    """Carries the version that an edit began from."""

    began_from = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["began_from"].initial = self.instance.version
        if self.instance.pk is None:  # somebody new is typed in at once
            self.fields["name"].widget.attrs["autofocus"] = True

    def typed(self) -> dict[str, Any]:
        """The values for the services."""
        return {name: self.cleaned_data[name] for name in self.Meta.fields}  # type: ignore[attr-defined]

    def begin_from(self, version: int) -> None:
        """Have the next save begin from that version, once its values have been shown."""
        self.data = {**dict(self.data.items()), "began_from": str(version)}

    def clean_country(self) -> str:
        country: str = self.cleaned_data["country"].upper()
        if country and not (len(country) == 2 and country.isascii() and country.isalpha()):
            raise ValidationError("Type a country's code of two letters, such as DE or US, or nothing.")
        return country

    def _post_clean(self) -> None:
        """The instance stays as it is: the services write, and judge the whole row there."""


class CustomerForm(_VersionedForm):
    class Meta:
        model = Customer
        fields = ["name", "phone", "email", "street", "postcode", "town", "country", "notes"]
        widgets = {
            "phone": forms.TextInput(attrs={"type": "tel"}),
            "notes": forms.Textarea(attrs={"rows": 3}),
        }


class SiteForm(_VersionedForm):
    class Meta:
        model = Site
        fields = [
            "name", "units", "street", "postcode", "town", "country", "authority_notes", "access_notes",
        ]  # fmt: skip
        widgets = {
            "authority_notes": forms.Textarea(attrs={"rows": 3}),
            "access_notes": forms.Textarea(attrs={"rows": 3}),
        }
