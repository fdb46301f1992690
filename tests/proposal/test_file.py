"""The file itself: always the same bytes, small, with its fonts inside."""

import hashlib
import os
import subprocess
import sys
from pathlib import Path

from quoting.proposal import render_proposal
from tests.proposal.pdf_reading import raw_of
from tests.proposal.sample_proposal import SAMPLE, sample

ROOT = Path(__file__).resolve().parents[2]
PRINT_DIGEST = (
    "import hashlib; from quoting.proposal import render_proposal;"
    "from tests.proposal.sample_proposal import sample;"
    "print(hashlib.sha256(render_proposal(sample(customer_name='王小明 □ محمد'))).hexdigest())"
)


def digest_in_a_new_process(seed: str) -> str:
    env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": f"Etc/GMT+{seed}"}
    done = subprocess.run(
        [sys.executable, "-c", PRINT_DIGEST], cwd=ROOT, env=env, capture_output=True, text=True, check=True
    )
    return done.stdout.strip()


def test_the_same_data_give_the_same_bytes():
    assert render_proposal(SAMPLE) == render_proposal(SAMPLE)


def test_the_same_data_give_the_same_bytes_in_another_process_and_time_zone():
    here = hashlib.sha256(render_proposal(sample(customer_name="王小明 □ محمد"))).hexdigest()
    assert digest_in_a_new_process("1") == digest_in_a_new_process("7") == here


def test_other_data_give_other_bytes():
    assert render_proposal(sample(total="$6,350.41")) != render_proposal(SAMPLE)


def test_it_is_small_and_carries_its_fonts():
    pdf = render_proposal(SAMPLE)
    assert len(pdf) < 1_000_000
    assert b"/FontFile2" in raw_of(pdf)
    assert b"DejaVuSans" in raw_of(pdf)
