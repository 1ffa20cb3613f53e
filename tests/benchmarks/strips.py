"""Plan published test lists and cut lists of pieced blocks; print how many are proven, and how fast.

Seconds are those of the processor, so that a busy machine counts as an idle one.  Run: make strips
"""

from __future__ import annotations

import json
import sys
from fractions import Fraction
from pathlib import Path
from time import process_time
from typing import Any, NamedTuple

from patterns.engine.strips import Answer, Demand, StripPlan, plan_strips
from tests.benchmarks.strip_lists import LISTS

PUBLISHED = Path(__file__).parents[2] / "fixtures" / "check_values" / "packing.json"
EFFORT = 10  # published lists
SECONDS = 10  # that a published list may take
NEEDED = 42  # of the published lists


class Group(NamedTuple):
    """Lists of so many sizes, the seconds each may take, the share to be done, what done is, the efforts.

    A list that the first effort leaves open is planned again with the next, as a page does and its worker.
    """

    fewest: int
    most: int
    seconds: int
    share: Fraction
    proven: bool
    efforts: tuple[int, ...]


GROUPS = (
    Group(1, 4, 2, Fraction(1), proven=True, efforts=(1,)),
    Group(5, 6, 5, Fraction(9, 10), proven=True, efforts=(3,)),
    Group(7, 7, 10, Fraction(9, 10), proven=False, efforts=(2, 11)),
    Group(8, 12, 10, Fraction(9, 10), proven=False, efforts=(2, 11)),
)


def say(line: str) -> None:
    """Print a line at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def planned(rows: list[list[Fraction]], width: int, *, turn: bool, effort: int) -> tuple[StripPlan, float]:
    """Plan [width, length, count] rows on fabric so wide; give the plan and the seconds it took."""
    demands = [
        Demand(label=str(at), width=w, length=h, count=int(n), may_turn=turn)
        for at, (w, h, n) in enumerate(rows)
    ]
    start = process_time()
    plan = plan_strips(demands, usable_width=Fraction(width), effort=effort)
    return plan, process_time() - start


def published(instance: dict[str, Any]) -> tuple[bool, bool]:
    """Plan a published list; say whether it is proven in time, and whether it contradicts its bounds."""
    rows = [[Fraction(number) for number in item] for item in instance["items"]]
    plan, seconds = planned(rows, instance["width"], turn=False, effort=EFFORT)
    wrong = plan.total_length < instance["lower"] or plan.lower_bound > instance["upper"]
    done = plan.proven and seconds <= SECONDS
    words = ("proven" if done else "open") + ("  WRONG" if wrong else "")
    say(
        f"{instance['name']:<28} {len(rows):>3} sizes  length {plan.total_length!s:>7}  bound"
        f" {plan.lower_bound!s:>7}  {seconds:>6.2f} s  {words}"
    )
    return done, wrong


def realistic(cut_list: dict[str, Any], group: Group) -> tuple[bool, float]:
    """Plan a list of pieced blocks; say whether it is done, and the seconds it took."""
    rows = [[Fraction(w, 8), Fraction(h, 8), Fraction(n)] for w, h, n in cut_list["eighths"]]
    seconds, done = float(0), False
    for effort in group.efforts:
        plan, more = planned(rows, cut_list["width"], turn=cut_list["turn"], effort=effort)
        seconds += more
        done = plan.proven if group.proven else plan.answer != Answer.OPEN
        if done:
            break
    if not done:
        say(f"open: {len(rows)} sizes, length {plan.total_length}, bound {plan.lower_bound}, {seconds:.2f} s")
    return done and seconds <= group.seconds, seconds


def grouped(lists: list[dict[str, Any]], group: Group) -> bool:
    """Plan the lists of a group and print their line; False when too few are done."""
    found = [realistic(each, group) for each in lists if group.fewest <= len(each["eighths"]) <= group.most]
    done = sum(each for each, _ in found)
    sizes = str(group.most) if group.fewest == group.most else f"{group.fewest} to {group.most}"
    what = "proven" if group.proven else "no smaller purchase possible"
    say(
        f"{sizes} sizes: {done} of {len(found)} {what} within {group.seconds} s,"
        f" slowest {max(seconds for _, seconds in found):.2f} s"
    )
    return done >= group.share * len(found)


def main() -> int:
    """Print both tables; 1 when too few lists are done or one contradicts what is published."""
    results = [published(each) for each in json.loads(PUBLISHED.read_text("utf-8"))["instances"]]
    done = sum(each for each, _ in results)
    wrong = sum(each for _, each in results)
    say(f"published lists: {done} of {len(results)} proven within {SECONDS} s, {wrong} contradicted")
    lists = json.loads(LISTS.read_text("utf-8"))
    enough = [grouped(lists, group) for group in GROUPS]
    return int(wrong > 0 or done < NEEDED or not all(enough))


if __name__ == "__main__":
    sys.exit(main())
