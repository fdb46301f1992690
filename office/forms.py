"""Forms of the company profile and its people."""

from typing import Any

from django import forms
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.core.validators import RegexValidator

from office.models import Company, Person

COLOUR = RegexValidator(
    r"^#[0-9a-fA-F]{6}$", "Type a colour as # and six hexadecimal digits, such as #1f5f5b."
)


class CompanyForm(forms.ModelForm):
    """Everything that a proposal or a rule of the place needs to know of the company."""

    began_from = forms.IntegerField(widget=forms.HiddenInput)

    class Meta:
        model = Company
        fields = [
            "name", "street", "postcode", "town", "country", "phone", "email", "licence",
            "locale", "currency", "units", "paper", "accent",
            "locate_working_days", "locate_valid_days", "terms",
        ]  # fmt: skip
        labels = {
            "locale": "How money and dates are written",
            "email": "E-mail",
            "licence": "Licence and insurance",
            "accent": "Colour of your proposals",
        }
        help_texts = {
            "locale": "Language and country: en_IE, en_US, de_DE",
            "country": "Two letters, such as IE or US",
            "currency": "Three letters, such as EUR or USD",
        }
        widgets = {"accent": forms.TextInput(attrs={"type": "color"})}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["began_from"].initial = self.instance.version
        self.fields["accent"].validators.append(COLOUR)

    def clean_locale(self) -> str:
        from babel import Locale, UnknownLocaleError

        typed: str = self.cleaned_data["locale"]
        try:
            Locale.parse(typed)
        except (UnknownLocaleError, ValueError):
            raise ValidationError(
                "Type a language and country such as en_GB, en_US or de_DE;"
                " it sets how money and dates are written."
            ) from None
        return typed

    def clean_currency(self) -> str:
        from babel.numbers import is_currency

        typed: str = self.cleaned_data["currency"].upper()
        if not is_currency(typed):
            raise ValidationError("Type a currency's code of three letters, such as EUR or USD.")
        return typed

    def clean_country(self) -> str:
        typed: str = self.cleaned_data["country"].upper()
        if len(typed) != 2 or not typed.isalpha():
            raise ValidationError("Type a country's code of two letters, such as DE or US.")
        return typed


class PersonForm(forms.ModelForm):
    """A person's name, login and role; the password only where one is to be set."""

    password = forms.CharField(
        label="Password",
        required=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text="At least 12 characters. Leave empty to keep the present one.",
    )

    began_from = forms.CharField(widget=forms.HiddenInput, required=False, max_length=32)

    class Meta:
        model = Person
        fields = ["name", "email", "role", "is_active"]
        labels = {"is_active": "May log in"}
        help_texts = {"is_active": "Take the tick away when somebody leaves; what they did stays on record."}

    def clean_email(self) -> str:
        typed: str = self.cleaned_data["email"].lower()
        if Person.objects.filter(email__iexact=typed).exclude(pk=self.instance.pk).exists():
            raise ValidationError("Somebody here has this e-mail already.")
        return typed

    def clean_password(self) -> str:
        typed: str = self.cleaned_data["password"]
        if typed:
            validate_password(typed, self.instance)
        elif self.instance.pk is None:
            raise ValidationError("A new person needs a password.")
        return typed
