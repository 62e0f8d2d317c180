"""Does to heatbook what a shop does to it, the full number of times; the suite has a handful of each.

    python -m tests.faults                     all of it, in about half an hour
    python -m tests.faults --only kills        one part: kills, torn, spoiled, properties or played
    python -m tests.faults --kills 500         so many kills of each kind (50)
    python -m tests.faults --times 2000        each kind of file spoiled so often (500)
    python -m tests.faults --seed 2            other moments, bytes and traces
    python -m tests.faults --json              JSON in place of a table

What went wrong is told below the table, a line a case. The exit status is 1 when more went wrong than may.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.faults.kills import killed_while_putting_away, killed_while_writing
from tests.faults.played import played
from tests.faults.properties import properties
from tests.faults.rehearsal_kills import killed_while_rehearsing
from tests.faults.row import Row
from tests.faults.spoiled import TARGETS, spoiled
from tests.faults.torn import cut_anywhere, spoiled_anywhere
from tests.markdown import table


def main() -> int:
    """Do it and print what came of it; 1 if more went wrong than may."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults", description="Kills, torn files, long traces.")
    parser.add_argument("--only", choices=("kills", "torn", "spoiled", "properties", "played"), help="this part only")
    parser.add_argument("--kills", type=int, default=50, metavar="N", help="kills of each kind (50)")
    parser.add_argument("--times", type=int, default=500, metavar="N", help="spoilings of each kind of file (500)")
    parser.add_argument("--seed", type=int, default=1, metavar="N", help="the same seed does the same (1)")
    parser.add_argument("--json", action="store_true", help="JSON in place of a table")
    chosen = parser.parse_args()
    parts: dict[str, Callable[[], Iterable[Row]]] = {
        "kills": lambda: _kills(chosen.kills, chosen.seed),
        "torn": lambda: _torn(chosen.times, chosen.seed),
        "spoiled": lambda: _spoiled(chosen.times, chosen.seed),
        "properties": lambda: [properties()],
        "played": lambda: played(chosen.seed),
    }
    found: list[Row] = []

    def seen() -> Iterator[Row]:
        for name, part in parts.items():
            if chosen.only in (None, name):
                for row in part():
                    found.append(row)
                    yield row

    if chosen.json:
        print(json.dumps([asdict(row) | {"stood": row.stood} for row in seen()], indent=1))
    else:
        for line in table(("what", "cases", "wrong", "may be", ""), (48, 6, 6, 6, 6), map(_cells, seen())):
            print(line, flush=True)
        for row in found:
            for told in row.failed:
                print(f"\n{row.what}: {told}")
    return 0 if all(row.stood for row in found) else 1


def _cells(row: Row) -> list[str]:
    allowed = int(row.allowed * row.cases)
    return [row.what, str(row.cases), str(len(row.failed)), str(allowed), "" if row.stood else "FAILED"]


def _kills(kills: int, seed: int) -> Iterator[Row]:
    yield _row("killed while a journal is written", lambda folder: killed_while_writing(folder, kills, seed))
    yield _row("killed before each step of putting away", killed_while_putting_away)
    yield _row("killed during a rehearsal", lambda folder: killed_while_rehearsing(folder, kills, seed))


def _torn(times: int, seed: int) -> Iterator[Row]:
    yield _row("a journal cut at each byte", lambda folder: cut_anywhere(folder, 100))
    yield _row("a journal spoiled", lambda folder: spoiled_anywhere(folder, 100, times, seed))


def _spoiled(times: int, seed: int) -> Iterator[Row]:
    for target in TARGETS:
        yield _row(f"spoiled: {target.name}", partial(spoiled, target, times=times, seed=seed))


def _row(what: str, done: Callable[[Path], Iterable[str | None]]) -> Row:
    with TemporaryDirectory() as folder:
        cases = list(done(Path(folder)))
    return Row(what, len(cases), tuple(told for told in cases if told is not None))


if __name__ == "__main__":
    sys.exit(main())
