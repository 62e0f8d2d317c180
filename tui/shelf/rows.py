"""The rows of the shelf's list."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from operator import attrgetter

from textual.content import Content
from textual.widgets.option_list import Option

from plans.at_hand import ListedPlan
from plans.logbook import Summary
from plans.prose import in_units
from plans.text import plain
from plans.units import Units
from tui.screens import gap, heading, title, when

_PLAN = "plan "
"""What the row of a plan is called begins so; that of a sitting is the sitting's id."""


def name_of(row: str) -> str | None:
    """The name of the plan that a row is of; None for that of a sitting."""
    return row.removeprefix(_PLAN) if row.startswith(_PLAN) else None


def row_of(name: str) -> str:
    """What the row of the plan of a name is called."""
    return _PLAN + name


def sitting_rows(unfinished: Iterable[Summary], units: Units) -> list[Option]:
    """The sittings that can be gone on with, under a heading; nothing where there is none."""
    rows = [
        Option(Content.assemble("  ", title(one, units), ("  " + when(one.started), "$text-muted")), id=one.id)
        for one in unfinished
    ]
    return [heading("Go on with"), *rows, gap()] if rows else []


def plan_rows(plans: Iterable[ListedPlan], units: Units) -> list[Option]:
    """Plans in their order, each group under its heading; a line that says so where there is none."""
    rows: list[Option] = []
    for group, members in groupby(plans, attrgetter("group")):
        rows.append(heading(group.heading))
        rows += [Option(_plan_row(plan, units), id=_PLAN + plan.name) for plan in members]
    return rows or [Option(Content.styled("  no plan has these words", "$text-muted"), disabled=True)]


def _plan_row(plan: ListedPlan, units: Units) -> Content:
    if not plan.is_usable:
        return Content.assemble("  ", plain(plan.name), ("  can't be used", "$error"))
    named = plain(in_units(plan.title, units))
    return Content.assemble("  ", named, ("  your own" if plan.file.own else "", "$text-muted"))
