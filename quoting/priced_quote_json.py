"""A priced quote as plain JSON for sealing, and back: every decimal a string, never a float."""

from typing import Any

from pydantic import TypeAdapter

from quoting.priced_quote import PricedQuote

_ADAPTER: TypeAdapter[PricedQuote] = TypeAdapter(PricedQuote)


def priced_quote_to_dict(quote: PricedQuote) -> dict[str, Any]:
    dumped: dict[str, Any] = _ADAPTER.dump_python(quote, mode="json")
    return dumped


def priced_quote_from_dict(data: dict[str, Any]) -> PricedQuote:
    """The same quote again, its sums checked anew. A float in ``data`` raises TypeError."""
    _refuse_floats(data)
    return _ADAPTER.validate_python(data)


def _refuse_floats(value: Any) -> None:
    if isinstance(value, float):
        raise TypeError("a sealed price holds its decimals as strings")
    for item in (
        value.values() if isinstance(value, dict) else value if isinstance(value, list | tuple) else ()
    ):
        _refuse_floats(item)
