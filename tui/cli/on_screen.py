"""The doors to the screen, one for each command that has one."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from tui.app import HeatbookApp
from tui.config.folders import folders
from tui.running.making_requests import plan_called, probe_or_clock, rehearsal_of
from tui.running.requests import First, LogList, Reckoner, RunRequest, Shelf

if TYPE_CHECKING:
    from plans.reading import ProbeOn


def show(first: First) -> int:
    """Run the screen; what is to be said comes when the terminal is restored.

    Returns:
        the exit status
    """
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        print("heatbook: the screen needs a terminal; without one: heatbook run PLAN --no-screen", file=sys.stderr)
        return 1
    app = HeatbookApp(folders(), first)
    app.run()
    for line in app.outcome.said:
        print(line)
    for line in app.outcome.errors:
        print(f"heatbook: {line}", file=sys.stderr)
    return app.outcome.status


def open_shelf() -> int:
    """Show the plans at hand."""
    return show(Shelf())


def open_log() -> int:
    """Show the sittings that were kept."""
    return show(LogList())


def open_reckoner() -> int:
    """Show the reckoner."""
    return show(Reckoner())


def follow_plan(
    *,
    plan: str | None,
    go_on: str | None,
    port: str | None,
    profile: str,
    probe_on: ProbeOn | None,
    hands_free: str | None = None,
) -> int:
    """Follow a plan, or go on with a sitting.

    Args:
        plan: its name or path
        go_on: id of an unfinished sitting, in place of a plan
        port: where the probe is; None without one
        profile: how the probe talks
        probe_on: where the probe sits; None without one
        hands_free: what may end a phase by itself; None goes by the settings
    """
    return show(
        RunRequest(
            source=lambda _: probe_or_clock(port, profile),
            plan=None if plan is None else lambda: plan_called(plan),
            go_on=go_on,
            probe_on=probe_on,
            profile=profile if port else "",
            port=port or "",
            hands_free=hands_free,
        )
    )


def rehearse(plan: str, seed: int, speed: float) -> int:
    """Show a rehearsal of a plan; `speed` is rehearsal seconds in one second."""
    return show(rehearsal_of(lambda: plan_called(plan), seed, speed))
