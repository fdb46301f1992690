"""What the drawing board makes of a plan: documents that load, and the faults that are found here too.

The board's edits run in the browser; node runs them here. Outlines are judged by Shapely on this side.
"""

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from design.document import Plan
from design.loading import MAX_BY_LIST, MAX_ENTRIES
from design.plan_rules import plan_problems

ROOT = Path(__file__).resolve().parents[2]
NODE = Path(sys.executable).parent / "node"
CONNECTION = {"No pipe", "Water comes", "This valve"}  # what is connected to what is not the board's to judge


@pytest.fixture(scope="module")
def edited() -> list[dict[str, Any]]:
    if not NODE.exists():
        pytest.skip("node is not installed beside this Python")
    script = ROOT / "tests/js/board/support/walked_documents.mjs"
    done = subprocess.run([NODE, script], capture_output=True, check=True, text=True, encoding="utf-8")
    return json.loads(done.stdout)


def test_every_edited_document_loads(edited):
    assert len(edited) == 150
    for one in edited:
        Plan.model_validate(one["document"])


def test_the_board_finds_the_faults_of_shape_that_are_found_here(edited):
    told = 0
    for number, one in enumerate(edited):
        problems = plan_problems(Plan.model_validate(one["document"]))
        here = {_place(found.entity, found.field) for found in problems if _is_of_shape(found.sentence)}
        board = {_place(fault["entity"], fault["field"]) for fault in one["faults"]}
        told += len(here)
        # Short pipes are only looked for here once all else is sound.
        assert here <= board, number
        assert {place for place in board if place[1] != "via"} <= here, number
    assert told >= 10, "the documents should not all be sound"


def test_the_board_draws_no_more_than_loads():
    source = (ROOT / "static/js/board/plan/groups.js").read_text(encoding="utf-8")
    (table,) = re.findall(r"const MOST = \{(.*?)\};", source, re.DOTALL)
    assert {name: int(most) for name, most in re.findall(r"(\w+): (\d+)", table)} == MAX_BY_LIST
    assert f"const MOST_OF_OTHERS = {MAX_ENTRIES};" in source


def _is_of_shape(sentence: str) -> bool:
    return " ".join(sentence.split()[:2]) not in CONNECTION


def _place(entity: str, field: str) -> tuple[str, str]:
    return entity, field.split("[")[0]
