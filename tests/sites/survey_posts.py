"""What a browser sends from the page of the measured ground."""

KINDS = ("mark", "tie", "offset", "tape", "outline", "walk")


def survey_post(rows=None, **fields):
    """Rows by kind, each a dictionary; ``leg0`` holds the legs of the first walk."""
    rows = {"walk": [{"start": "A", "by_wheel": "on"}], **(rows or {})}
    data = {"began_from": "0"}
    for kind in (*KINDS, *(kind for kind in rows if kind.startswith("leg"))):
        given = rows.get(kind, [])
        data |= {f"{kind}-TOTAL_FORMS": len(given), f"{kind}-INITIAL_FORMS": 0}
        for number, row in enumerate(given):
            data |= {f"{kind}-{number}-{name}": value for name, value in row.items()}
    return {**data, **fields}


def tie(point, first_tape, second_tape, side="right"):
    return {
        "point": point, "first": "A", "first_tape": first_tape,
        "second": "B", "second_tape": second_tape, "side": side,
    }  # fmt: skip


# a lawn 24 m by 12 m, south of the wall from A to B, 16 m long
MARKS = [{"name": "A", "east": "4", "north": "15"}, {"name": "B", "off": "A", "distance": "16"}]
TIES = [tie("1", "15.52", "25.00"), tie("2", "25", "15.52"), tie("3", "20.22", "5"), tie("4", "5", "20.22")]
LAWN = {"points": "1-4", "becomes": "area:turf", "label": "Front"}
LAWN_BY_TIES = {"mark": MARKS, "tie": TIES, "outline": [LAWN]}
