"""Which price holds on a day."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from parts.models import Price


@dataclass(frozen=True)
class PriceNow:
    """The best price of one part on one day; ``unit_price`` is for one metre or one piece."""

    code: str
    supplier: str  # code of the supplier
    supplier_name: str
    price: Decimal
    pack: Decimal
    unit: str
    valid_from: date
    age_days: int
    price_id: int

    @property
    def unit_price(self) -> Decimal:
        return self.price / self.pack

    @property
    def price_text(self) -> str:
        return price_text(self.price)


def price_text(price: Decimal) -> str:
    """Two decimal places, or up to four where a supplier counts so finely."""
    return f"{price:.2f}" if price == round(price, 2) else f"{price.normalize():f}"


def best_prices(on: date, codes: Iterable[str] | None = None) -> dict[str, PriceNow]:
    """Best price by part code on that day: of each supplier's latest price, the lowest per unit.

    Between equal ones the newer wins, then the supplier's code. Parts without a price by
    that day are left out. One query.
    """
    rows = Price.objects.filter(valid_from__lte=on).select_related("part", "supplier")
    if codes is not None:
        rows = rows.filter(part__code__in=list(codes))
    latest: dict[tuple[int, int], Price] = {}
    for row in rows.order_by("valid_from", "pk"):
        latest[row.part_id, row.supplier_id] = row
    best: dict[str, PriceNow] = {}
    for row in latest.values():
        offer = _price_now(row, on)
        if offer.code not in best or _rank(offer) < _rank(best[offer.code]):
            best[offer.code] = offer
    return best


def _price_now(row: Price, on: date) -> PriceNow:
    return PriceNow(
        code=row.part.code,
        supplier=row.supplier.code,
        supplier_name=row.supplier.name,
        price=row.price,
        pack=row.pack,
        unit=row.unit,
        valid_from=row.valid_from,
        age_days=(on - row.valid_from).days,
        price_id=row.pk,
    )


def _rank(offer: PriceNow) -> tuple[Decimal, int, str]:
    return offer.unit_price, offer.age_days, offer.supplier
