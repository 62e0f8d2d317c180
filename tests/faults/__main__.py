"""Does to heatbook what a shop does to it, the full number of times; the suite has a handful of each.

    python -m tests.faults                     all of it, in about an hour
    python -m tests.faults --short             a few of each, in a minute or two
    python -m tests.faults --only kills torn   these parts only
    python -m tests.faults --kills 500         so many kills of each kind (250)
    python -m tests.faults --times 2000        each kind of file spoiled so often (400)
    python -m tests.faults --seed 2            other moments, bytes and traces
    python -m tests.faults --json              JSON in place of a table

`tests/faults/parts.py` has the table of parts. What was lost, or went wrong otherwise, is told below the table, a line
for each case. The exit status is 1 when more went wrong than may.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from dataclasses import asdict

from tests.faults.parts import PARTS, Much
from tests.faults.row import Row
from tests.markdown import table

_FULL, _SHORT = {"kills": 250, "times": 400}, {"kills": 2, "times": 10}


def main() -> int:
    """Do it and print what came of it; 1 if more went wrong than may."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults", description="What a shop does to a program.")
    parser.add_argument("--only", nargs="+", choices=tuple(PARTS), metavar="PART", help=f"of {', '.join(PARTS)}")
    parser.add_argument("--short", action="store_true", help="a few of each")
    parser.add_argument("--kills", type=int, metavar="N", help="kills of each kind (250)")
    parser.add_argument("--times", type=int, metavar="N", help="spoilings of each kind of file (400)")
    parser.add_argument("--seed", type=int, default=1, metavar="N", help="the same seed does the same (1)")
    parser.add_argument("--json", action="store_true", help="JSON in place of a table")
    chosen = parser.parse_args()
    usual = _SHORT if chosen.short else _FULL
    much = Much(chosen.kills or usual["kills"], chosen.times or usual["times"], chosen.seed, chosen.short)
    found: list[Row] = []

    def seen() -> Iterator[Row]:
        for name in chosen.only or PARTS:
            for row in PARTS[name](much):
                found.append(row)
                yield row

    if chosen.json:
        # A row at a time: hours of it are not lost if it is broken off.
        print("[", end="")
        for number, row in enumerate(seen()):
            record = asdict(row) | {"survived": row.survived, "stood": row.stood}
            print("," if number else "", json.dumps(record, indent=1), sep="\n", end="", flush=True)
        print("\n]")
    else:
        for line in table(
            ("what", "tried", "survived", "lost", "may be", ""), (42, 6, 8, 6, 6, 6), map(_cells, seen())
        ):
            print(line, flush=True)
        for row in found:
            for told in row.failed:
                print(f"\n{row.what}: {told}")
    return 0 if all(row.stood for row in found) else 1


def _cells(row: Row) -> list[str]:
    allowed = int(row.allowed * row.cases)
    counts = (row.cases, row.survived, len(row.failed), allowed)
    return [row.what, *map(str, counts), "" if row.stood else "FAILED"]


if __name__ == "__main__":
    sys.exit(main())
