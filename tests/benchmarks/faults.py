"""Put faults into the recipes of the traditional blocks and print, by kind, how many virtual sewing names.

Run: make faults
"""

from __future__ import annotations

import sys
from collections import Counter
from random import Random

from tests.engine.fault_rounds import BLOCKS, CAUGHT, HARMLESS, MISSED, NOT_THERE, one_fault
from tests.engine.injected_faults import KINDS

EACH = 50
TRIES = 20 * EACH


def say(line: str) -> None:
    """Print a line at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def faults_of(kind: str) -> Counter[str]:
    """Inject a kind until it found enough places."""
    chance, found = Random(kind), Counter[str]()
    for _ in range(TRIES):
        found[one_fault(chance.choice(BLOCKS), kind, chance)] += 1
        if found.total() - found[NOT_THERE] >= EACH:
            break
    return found


def main() -> int:
    """Print a line for each kind, then the sum; 1 when a fault was missed."""
    total = Counter[str]()
    for kind in KINDS:
        found = faults_of(kind)
        total += found
        say(f"{kind:<28} caught {found[CAUGHT]:>4}   harmless {found[HARMLESS]:>4}   missed {found[MISSED]}")
    injected = total.total() - total[NOT_THERE]
    say(f"{injected} faults: {total[CAUGHT]} caught, {total[HARMLESS]} harmless, {total[MISSED]} missed")
    return int(total[MISSED] > 0)


if __name__ == "__main__":
    sys.exit(main())
