"""A small garden that is begun on the board: a lawn, a valve, a head. Figures are plane geometry by hand."""

LAWN = {"id": "A1", "label": "Lawn", "cover": "turf", "outline": [[0, 0], [12, 0], [12, 8], [0, 8]]}
SUPPLY = {"at": [-2, 4], "static_kpa": 450, "tests": [{"kind": "bucket", "litres": 20, "seconds": 30}]}
NODES = [
    {"id": "S", "kind": "supply", "at": [-2, 4]},
    {"id": "V1", "kind": "valve", "at": [-1, 4], "part": "valve-25"},
    {"id": "H1", "kind": "head", "at": [12, 4], "part": "rotary-6", "from_deg": 180, "sweep_deg": 180,
     "area": "A1"},
]  # fmt: skip
PIPES = [
    {"id": "P1", "from": "S", "to": "V1", "part": "pvc-25"},
    {"id": "P2", "from": "V1", "to": "H1", "part": "pvc-25"},
]
