"""Plays traces that the program has not seen, with a physics of its own, and holds its log against the truth.

    python tests/listening/played                  every cell through recordings, some minutes; prints the table
    python tests/listening/played --quick          a few of them, less than a minute
    python tests/listening/played --only weld      the cells of one scene
    python tests/listening/played --port           one cell through a pseudo-terminal in real time, some minutes
    python tests/listening/played --port --quick   the same in less than one
    python tests/listening/played --json           the same as JSON, for a test

`late` is from when it was to when it was told: median to longest. Where the probe said nothing meanwhile, it is left
out of `late` and `dated`, but not out of `found`.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict
from functools import partial
from typing import TYPE_CHECKING

from cells import Cell
from grid import full, quick
from live_weld import play_on_port
from table import rows, written

if TYPE_CHECKING:
    from judging import Score


def main() -> None:
    """Play and print."""
    parser = argparse.ArgumentParser(description="How well the program hears what happens to the work.")
    parser.add_argument("--quick", action="store_true", help="a few cells only")
    parser.add_argument("--only", default="", help="cells of this scene only")
    parser.add_argument("--port", action="store_true", help="in real time, through a pseudo-terminal")
    parser.add_argument("--json", action="store_true", help="JSON instead of a table")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--heatbook", default="", help="how the program is called, if not as a module of this Python")
    chosen = parser.parse_args()
    heatbook = tuple(chosen.heatbook.split()) or (sys.executable, "-m", "tui.cli")
    if chosen.port:
        _print([play_on_port(heatbook, chosen.seed, chosen.quick)], chosen.json)
        return
    cells = [cell for cell in (quick if chosen.quick else full)(chosen.seed) if chosen.only in ("", cell.scene)]
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        _print(zip(cells, pool.map(partial(_play, heatbook), cells), strict=True), chosen.json)


def _play(heatbook: tuple[str, ...], cell: Cell) -> dict[str, Score]:
    return cell.play(heatbook)


def _print(played: Iterable[tuple[Cell, dict[str, Score]]], as_json: bool) -> None:
    if as_json:
        told = [
            asdict(cell) | {"scores": {what: asdict(score) for what, score in scores.items()}}
            for cell, scores in played
        ]
        print(json.dumps(told))
        return
    for line in written(row for cell, scores in played for row in rows(cell, scores)):
        print(line, flush=True)


if __name__ == "__main__":
    main()
