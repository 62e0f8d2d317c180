"""`heatbook log trends`: heats, times and sound welds over time, and which habits went with flawed welds."""

from __future__ import annotations

import argparse
import json
from typing import TYPE_CHECKING, Any

from plans.plan import StepKind
from plans.shown import counted
from plans.text import printable
from tui.cli.opened import opened
from tui.cli.own_files import units_in
from tui.config import UsageError, user_folders

if TYPE_CHECKING:
    from plans.logbook.comparing import HabitsTold, HabitTold, Point


def run(chosen: argparse.Namespace) -> int:
    """Print how the figures go over time, and what the outcomes tell."""
    from plans.logbook.comparing import habits_told, occasions, points_of

    kind = _kind(chosen.kind)
    places = user_folders()
    with opened(places, chosen.rehearsals) as logbook:
        found = list(occasions(logbook, chosen.plan, kind))
        points, told = points_of(found), habits_told(found)
        if chosen.json:
            print(json.dumps({"sittings": [_point(point) for point in points], "habits": _told(told)}, indent=2))
            return 0
        of_plan = "" if chosen.plan is None else f" of {chosen.plan}"
        of_kind = "" if kind is None else f" with a {kind.value} step"
        if not found:
            print(printable(f"no sitting{of_plan}{of_kind} yet that is finished, or of which an outcome was said"))
            return 0
        from tui.cli.trends_text import habit_lines, trend_lines

        alone = "" if kind is None else f"; heats and times of {kind.value} steps alone"
        lines = [
            f"{counted(len(found), 'sitting')}{of_plan}{of_kind}{alone}",
            "",
            *trend_lines(points, units_in(places)),
        ]
        if kind in (None, StepKind.WELD) and any(step.kind is StepKind.WELD for one in found for step in one.steps):
            lines += ["", *habit_lines(told, units_in(places))]
        print("\n".join(map(printable, lines)))
        return 0


def _kind(text: str | None) -> StepKind | None:
    try:
        return None if text is None else StepKind(text)
    except ValueError:
        raise UsageError(f"--kind {text}: steps are of these kinds: {', '.join(StepKind)}") from None


def _point(point: Point) -> dict[str, Any]:
    return {
        "id": point.sitting,
        "started": point.started.isoformat(timespec="seconds"),
        "heats": point.heats,
        "in_fire_seconds": round(point.in_fire, 2),
        "strike_seconds": round(point.struck, 2),
        "too_cold_seconds": round(point.too_cold, 2),
        **({} if point.fuel_mass is None else {"fuel_kg": point.fuel_mass}),
        **({} if point.fuel_volume is None else {"fuel_m3": point.fuel_volume}),
        "welds_looked_at": point.welds,
        "welds_sound": point.sound,
    }


def _told(told: HabitsTold) -> dict[str, Any]:
    from plans.logbook.comparing import FEWEST, LIMIT

    return {
        "sittings": told.sittings,
        "flawed": told.flawed,
        "fewest_sittings": FEWEST,
        "test": "Fisher's exact test, two-sided",
        "counts_from_p": LIMIT,
        "habits": [_habit(one) for one in told.habits],
    }


def _habit(one: HabitTold) -> dict[str, Any]:
    from plans.logbook.lines import What
    from plans.units import celsius

    hot = one.habit.what is What.TEMPERATURE
    usual = None if one.usual is None else round(celsius(one.usual) if hot else one.usual, 2)
    unit = {} if usual is None else {f"usual_{'celsius' if hot else 'seconds'}": usual}
    return {
        "habit": one.habit.name,
        **unit,
        "flawed_with": one.flawed_with,
        "sound_with": one.sound_with,
        "flawed_without": one.flawed_without,
        "sound_without": one.sound_without,
        "p": one.chance,
        "counts": one.is_told,
    }
