"""A small invented price book for the tests of the parts app."""

import copy

PIPE = {
    "kind": "pipe", "code": "pvc-25", "label": "PVC pipe 25", "material": "pvc", "size": "25",
    "outside_mm": 25.0, "bore_mm": 20.4, "rating_kpa": 1600, "joint": "solvent", "supplied": "stick",
    "stock_m": [6.0],
}  # fmt: skip
HEAD = {
    "kind": "head", "code": "rotor-9", "label": "Rotor 9 m", "family": "rotor", "pattern": "fixed_arc",
    "min_kpa": 250, "max_kpa": 450,
    "rows": [{"pressure_kpa": 250, "flow_lpm": 12, "throw_m": 8.5},
             {"pressure_kpa": 350, "flow_lpm": 14, "throw_m": 9.3}],
}  # fmt: skip
BOOK = {
    "suppliers": [{"code": "north", "name": "North Pipe"}, {"code": "south", "name": "South Trade"}],
    "parts": [
        {
            "category": "pipe",
            "data": PIPE,
            "prices": [
                {
                    "supplier": "north",
                    "price": "7.20",
                    "pack": 6,
                    "unit": "stick",
                    "valid_from": "2026-01-01",
                },
                {
                    "supplier": "north",
                    "price": "9.00",
                    "pack": 6,
                    "unit": "stick",
                    "valid_from": "2026-06-01",
                },
                {"supplier": "south", "price": "1.40", "pack": 1, "unit": "m", "valid_from": "2026-03-01"},
            ],
        },
        {"category": "heads", "data": HEAD, "prices": []},
    ],
}


def book() -> dict:
    return copy.deepcopy(BOOK)
