"""`heatbook plan copy`: a plan, or a piece of the reckoner, to make it one's own."""

from __future__ import annotations

import argparse
from pathlib import Path

from plans.reader import piece_text
from plans.text import printable
from tui.cli.new_file import write_new
from tui.cli.plan_files import plan_named, write_plan


def run(chosen: argparse.Namespace) -> int:
    """Copy a plan or a piece to a new file, to the last byte."""
    name, to = chosen.plan, Path(chosen.file)
    if (piece := piece_text(name)) is not None:
        write_new(to, piece)
        print(printable(f"{to}: now your own; heatbook reckon stock {to} reckons with it"))
        return 0
    print(printable(f"{to}: now your own") + write_plan(to, plan_named(name).source))
    return 0
