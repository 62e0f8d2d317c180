"""`heatbook` alone: the shelf."""

from __future__ import annotations

import argparse


def run(chosen: argparse.Namespace) -> int:  # noqa: ARG001 - every command has the same signature
    """Show the shelf."""
    from tui.cli.on_screen import show
    from tui.running import Shelf

    return show(Shelf())
