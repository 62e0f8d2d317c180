"""What heatbook costs, as ratios to yardsticks that are measured in the same run, turn by turn.

    python -m tests.cost                    all of it, in about two minutes
    python -m tests.cost --only logbook     one part; --help names them
    python -m tests.cost --only thousand --whole    1,000 long sittings in place of 100, in some minutes
    python -m tests.cost --json             JSON in place of a table

The exit status is 1 when a bar is missed. Another program that runs at the same time does not change a ratio much,
but an idle machine tells more.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict

from tests.cost import (
    comparing,
    drawing,
    forecast,
    lessons,
    live,
    logbook,
    quit,
    registry,
    shelf,
    sitting,
    thermocouple,
    thousand,
    usable,
)
from tests.cost.row import Row
from tests.markdown import table

PARTS: dict[str, Callable[[], Iterable[Row]]] = {
    "usable": usable.rows,
    "drawing": drawing.rows,
    "forecast": forecast.rows,
    "live": live.rows,
    "logbook": logbook.rows,
    "lessons": lessons.rows,
    "comparing": comparing.rows,
    "quit": quit.rows,
    "registry": registry.rows,
    "shelf": shelf.rows,
    "sitting": sitting.rows,
    "thermocouple": thermocouple.rows,
    "thousand": thousand.rows,
}


def main() -> int:
    """Measure and print; 1 if a bar was missed."""
    parser = argparse.ArgumentParser(prog="python -m tests.cost", description="What heatbook costs, as ratios.")
    parser.add_argument("--only", choices=sorted(PARTS), help="this part only")
    parser.add_argument("--whole", action="store_true", help="1,000 long sittings in place of 100")
    parser.add_argument("--json", action="store_true", help="JSON in place of a table")
    chosen = parser.parse_args()
    every = PARTS | ({"thousand": thousand.whole} if chosen.whole else {})
    parts = [every[chosen.only]] if chosen.only else every.values()
    measured: list[Row] = []

    def seen() -> Iterator[Row]:
        for part in parts:
            for row in part():
                measured.append(row)
                yield row

    if chosen.json:
        print(json.dumps([asdict(row) | {"ratio": row.ratio, "met": row.met} for row in seen()], indent=1))
    else:
        headings = ("what", "ours", "yardstick", "theirs", "ratio", "bar", "")
        for line in table(headings, (52, 9, 42, 9, 7, 5, 6), map(_cells, seen())):
            print(line, flush=True)
    return 0 if all(row.met for row in measured) else 1


def _cells(row: Row) -> list[str]:
    ours, theirs = (_cost(cost, row.unit) for cost in (row.ours, row.theirs))
    return [row.what, ours, row.yardstick, theirs, f"{row.ratio:.3f}", f"{row.bar:g}", "" if row.met else "MISSED"]


def _cost(cost: float, unit: str) -> str:
    return f"{cost:.2f} MB" if unit == "MB" else f"{cost * 1000:.3g} ms"


if __name__ == "__main__":
    sys.exit(main())
