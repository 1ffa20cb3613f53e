"""Make drawings by chance, write and sew each, and print how many run clean.

Run: make drawings, or make drawings COUNT=500
"""

from __future__ import annotations

import sys
from multiprocessing import Pool
from time import perf_counter

from tests.engine.chance_rounds import block_by_chance, fault_of

CHUNK = 10
EVERY = 250


def say(line: str) -> None:
    """Print a line at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def one(number: int) -> tuple[int, str, float]:
    """Give the number of a drawing, its fault, and the seconds it took; a crash is a fault."""
    start = perf_counter()
    try:
        fault = fault_of(number)
    except Exception as error:  # noqa: BLE001 -- a crash is what is looked for
        fault = f"crash: {error!r}"
    return number, fault, perf_counter() - start


def main(count: int) -> int:
    """Print faults as they come and the figure at the end; 1 when there was one."""
    faulty, slowest, total = 0, (0.0, 0), 0.0
    with Pool() as pool:
        for done, (number, fault, seconds) in enumerate(pool.imap_unordered(one, range(count), CHUNK), 1):
            slowest, total = max(slowest, (seconds, number)), total + seconds
            if fault:
                faulty += 1
                say(f"drawing {number}, {len(block_by_chance(number).patches)} patches: {fault}")
            if done % EVERY == 0:
                say(f"{done} drawings: {done - faulty} clean, {total / done:.2f} s each")
    say(f"{count} drawings: {count - faulty} clean; slowest {slowest[0]:.1f} s (drawing {slowest[1]})")
    return int(faulty > 0)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000))
