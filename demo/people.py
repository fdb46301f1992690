"""Who can log in to the demo. The password is printed by ``make demo`` and is no secret."""

import json
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).resolve().parent
PASSWORD = "trench and tape"


@dataclass(frozen=True)
class Login:
    email: str
    name: str
    role: str
    password: str = PASSWORD


LOGINS = tuple(
    Login(row["email"], row["name"], row["role"])
    for row in json.loads((FOLDER / "company.json").read_text(encoding="utf-8"))["people"]
)
