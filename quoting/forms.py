"""Forms of the quote pages."""

from decimal import Decimal
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict
from django.utils import timezone

from quoting.models import Choice, Kind, Quote, QuoteLine


def whole_number(text: str) -> int | None:
    """An id from an address, or none if it is no such thing."""
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 16 else None


def begin_from(form: forms.BaseForm, version: int) -> None:
    """Let a refused form begin from the version that stands now; what was typed stays."""
    data = cast(QueryDict, form.data).copy()
    data["began_from"] = str(version)
    form.data = data


class BeganFrom(forms.Form):
    """The version that an edit began from."""

    began_from = forms.IntegerField(widget=forms.HiddenInput, min_value=0, max_value=2**31 - 1)


class SearchForm(forms.Form):
    """Filter of the list; what it cannot read it leaves out."""

    q = forms.CharField(
        label="Number, customer or town",
        required=False,
        max_length=100,
        widget=forms.TextInput(attrs={"type": "search", "autocomplete": "off"}),
    )
    status = forms.CharField(required=False)


class HeadForm(forms.ModelForm):
    """Title and words of a draft."""

    began_from = forms.IntegerField(widget=forms.HiddenInput, min_value=0, max_value=2**31 - 1)

    class Meta:
        model = Quote
        fields = ["title", "message", "machine_access"]
        widgets = {"message": forms.Textarea(attrs={"rows": 4})}
        help_texts = {
            "title": "What you call it, such as Front and side lawn",
            "message": "One paragraph above the description. Leave it empty if there is nothing to add.",
            "machine_access": "Without it every trench is dug by hand. Work the quote out anew afterwards.",
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["began_from"].initial = self.instance.version


class LineChoice(forms.ModelChoiceField):
    """Lines by what the office calls them: two tees of different sizes are two names."""

    def label_from_instance(self, obj: Any) -> str:
        return str(obj.office_text)


class LineForm(forms.ModelForm):
    """A line: words, quantity, cost, and a price of one's own with the reason for it."""

    began_from = forms.IntegerField(
        widget=forms.HiddenInput, min_value=0, max_value=2**31 - 1, required=False
    )
    own_price = forms.DecimalField(
        label="Price set by hand, before tax",
        required=False,
        max_digits=12,
        decimal_places=2,
        help_text="Leave it empty for the price that follows from the cost.",
    )

    class Meta:
        model = QuoteLine
        field_classes = {"alternative_to": LineChoice}
        fields = [
            "section", "kind", "text", "listed", "quantity", "unit", "unit_cost",
            "price_reason", "choice", "alternative_to", "internal_text",
        ]  # fmt: skip
        labels = {"unit_cost": "Cost of one, to us", "choice": "In the offer it is"}
        help_texts = {
            "unit_cost": "Empty: nobody has a price yet. An hour of own work costs what your rates say.",
            "price_reason": "Needed beside a price set by hand. For the office, never for the customer.",
            "internal_text": "Never shown to the customer.",
            "alternative_to": "Only for an alternative: the line that it stands in for.",
        }

    field_order = [
        "text", "section", "kind", "quantity", "unit", "unit_cost", "own_price", "price_reason",
        "choice", "alternative_to", "listed", "internal_text",
    ]  # fmt: skip

    def __init__(self, *args: Any, quote: Quote, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        line = self.instance
        self.fields["began_from"].initial = line.version
        self.fields["own_price"].initial = line.price if line.price_fixed else None
        others = quote.lines.filter(choice=Choice.INCLUDED).exclude(pk=line.pk).exclude(kind=Kind.ADJUSTMENT)
        self.fields["alternative_to"].queryset = others  # type: ignore[attr-defined]
        for name in ("quantity", "unit_cost"):
            if isinstance(self.initial.get(name), Decimal):
                self.initial[name] = f"{self.initial[name].normalize():f}"  # 16 and not 16.000
        if line.pk and line.key:
            del self.fields["kind"]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        kind = data.get("kind") or self.instance.kind
        own = data.get("own_price")
        data["price_fixed"] = own is not None
        if own is not None and not data.get("price_reason", "").strip():
            self.add_error("price_reason", "Say why this price, so that the next person understands it.")
        if own is None and kind == Kind.ADJUSTMENT and not self.errors.get("own_price"):
            self.add_error("own_price", "An adjustment is a price set by hand; a discount is below zero.")
        if own is not None and own < 0 and kind != Kind.ADJUSTMENT:
            self.add_error("own_price", "Below zero is for an adjustment only. Add a discount as one.")
        if data.get("choice") == Choice.ALTERNATE and not data.get("alternative_to"):
            self.add_error("alternative_to", "Choose the line that this one stands in for.")
        if data.get("choice") != Choice.ALTERNATE:
            data["alternative_to"] = None
        return data

    def fields_for_service(self) -> dict[str, object]:
        """What the services take: the columns of the line."""
        data = dict(self.cleaned_data)
        data.pop("began_from", None)
        own = data.pop("own_price")
        if own is not None:
            data["price"] = own
        return data


class IssueForm(BeganFrom):
    overrule_reason = forms.CharField(
        label="Why it may go out all the same",
        required=False,
        max_length=500,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="For the owner, where the check says stop. It is sealed with the quote.",
    )


class DeclineForm(forms.Form):
    reason = forms.CharField(
        label="Reason",
        max_length=500,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"required": "Say in a few words why. It helps with the next offer."},
    )


class OptionsField(forms.TypedMultipleChoiceField):
    """Extras and alternatives of one offer, by id."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(
            coerce=int, required=False, widget=forms.CheckboxSelectMultiple, label="Extras", **kwargs
        )
        self.error_messages["invalid_choice"] = "One of the extras is not part of this offer. Choose again."


class AcceptForm(forms.Form):
    """The customer's yes."""

    name = forms.CharField(
        label="Your full name",
        max_length=200,
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
        error_messages={"required": "Type your name: it stands for your signature."},
    )
    agree = forms.BooleanField(
        label="I accept this offer with its drawing, price, payments and conditions",
        error_messages={"required": "Tick the box if you accept the offer."},
    )
    options = OptionsField()
    shown_total = forms.DecimalField(required=False, max_digits=14, decimal_places=2)

    def __init__(self, *args: Any, options: list[dict[str, Any]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["options"].choices = [(row["id"], row["text"]) for row in options]  # type: ignore[attr-defined]

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"].strip()
        if sum(letter.isalpha() for letter in name) < 2:
            raise ValidationError("Type your name: it stands for your signature.")
        return name


class PaperForm(forms.Form):
    """A signature on paper, typed in by the office."""

    name = forms.CharField(label="Name of who signed", max_length=200)
    signed_on = forms.DateField(
        label="Signed on", widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
    )
    options = OptionsField()

    def __init__(self, *args: Any, options: list[dict[str, Any]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["signed_on"].initial = timezone.localdate()
        self.fields["options"].choices = [(row["id"], row["text"]) for row in options]  # type: ignore[attr-defined]
