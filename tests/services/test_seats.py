"""People who sign up at the same moment never take more seats than there are, on either database."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from tests.services.servers import ROOT, Setup
from tests.services.test_kill import in_shell, migrated

pytestmark = [pytest.mark.services, pytest.mark.slow]
CAP = 12
CROWDS = 4
PEOPLE = 8  # in each crowd

OPEN = f"""
from tests.shops.factories import make_open_program, make_terms
make_terms(make_open_program(), cap={CAP})
"""
SIGN_UP = f"""
import sys
from shops.models import Terms
from tests.shops.factories import make_sign_up
terms = Terms.objects.select_related("program__quilt").get()
for number in range({PEOPLE}):
    make_sign_up(terms, f"person-CROWD-{{number}}")
"""
TELL = """
import json
from shops.models import SignUp
print(json.dumps(list(SignUp.objects.order_by("number").values_list("number", "place"))))
"""


@pytest.mark.parametrize("which", ["embedded", "served"])
def test_a_crowd_at_the_counter_fills_the_seats_and_no_more(
    which: str, request: pytest.FixtureRequest
) -> None:
    setup: Setup = migrated(request.getfixturevalue(which))
    in_shell(setup, OPEN)
    crowds = [
        subprocess.Popen(
            [
                sys.executable, "manage.py", "shell", "--verbosity", "0",
                "--command", SIGN_UP.replace("CROWD", str(crowd)),
            ],
            env=setup.environment,
            cwd=ROOT,
        )
        for crowd in range(CROWDS)
    ]  # fmt: skip
    assert [each.wait(timeout=60) for each in crowds] == [0] * CROWDS
    rows = json.loads(in_shell(setup, TELL))
    assert [number for number, _place in rows] == list(range(1, CROWDS * PEOPLE + 1))
    assert [place for _number, place in rows].count("seat") == CAP
