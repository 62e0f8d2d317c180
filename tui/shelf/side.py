"""Beside the shelf's list: what the chosen line is about, what that plan takes, and its sections to scale."""

from __future__ import annotations

import asyncio
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.timer import Timer
from textual.widgets import Static

from plans.at_hand import ListedPlan
from plans.logbook import Summary
from plans.plan import Plan
from plans.reader import ShelfPlan
from plans.units import Units
from tui.config import read_shop
from tui.shelf.plan_text import glance_text, left_text, plan_text

if TYPE_CHECKING:
    from plans.drawing import Drawing
    from plans.times import PlanTimes

_RESTS = 0.3
"""A plan that is looked at for so long is worked out; whoever goes along the list is not held up [s]."""
_PICTURE_FROM = 18
"""Rows from which on a third of them is for the picture."""
_TALLEST = 10
"""Rows of a picture at most."""


class _Closer(NamedTuple):
    """What is worked out of a plan that is looked at for a while."""

    times: PlanTimes
    drawing: Drawing | None


class Side(Vertical):
    """What the chosen line is about.

    Args:
        units: those that are set
        shop: path of the shop file
        blocks: whether pictures are drawn with blocks, for fonts without the finer dots
    """

    DEFAULT_CSS = """
    Side #about { height: 1fr; padding: 1 2 0 2; }
    Side ScaleView { padding: 1 2 0 2; }
    """

    def __init__(self, units: Units, shop: Path, *, blocks: bool) -> None:
        super().__init__()
        self._words = Static(id="words", markup=False)  # there before it is composed, as the first line is shown sooner
        self._units, self._shop, self._blocks = units, shop, blocks
        self._found: ShelfPlan | None = None
        self._known: dict[str, _Closer] = {}
        """What was worked out, by the name of the plan."""
        self._rest: Timer | None = None

    def compose(self) -> ComposeResult:
        with VerticalScroll(id="about", can_focus=False):
            yield self._words

    def forget(self, name: str) -> None:
        """Work a plan out anew when it is looked at again: its file has been written."""
        self._known.pop(name, None)

    def show_sitting(self, summary: Summary) -> None:
        """Tell of a sitting that was left."""
        self._found = None
        self._words.update(left_text(summary, self._units))
        self._show_picture()

    def show_plan(self, found: ShelfPlan | None) -> None:
        """Tell of a plan, or of what is wrong with its file; of nothing where there is none."""
        self._found = found
        self._tell()
        if self._rest is not None:
            self._rest.stop()
        if found is not None and found.plan is not None and found.name not in self._known:
            self._rest = self.set_timer(_RESTS, self._look_closer)

    def show_glance(self, listed: ListedPlan) -> None:
        """Tell of a plan what a glance at its file has found; the rest comes when it has been read."""
        self._found = None
        if self._rest is not None:
            self._rest.stop()
        self._words.update(glance_text(listed, self._units))
        self._show_picture()

    def on_resize(self) -> None:
        self._show_picture()

    def _tell(self) -> None:
        found = self._found
        closer = self._known.get(found.name) if found is not None else None
        words = "" if found is None else plan_text(found, self._units, closer.times if closer else None)
        self._words.update(words)
        self._show_picture()

    def _look_closer(self) -> None:
        if self._found is not None and self._found.plan is not None:
            self.run_worker(self._work_out(self._found.plan), exclusive=True)

    async def _work_out(self, plan: Plan) -> None:
        self._known[plan.name] = await asyncio.to_thread(_closer, plan, self._shop)
        from tui.widgets import ScaleView

        if not self.is_mounted:  # the shelf has been left meanwhile
            return
        if not self.query(ScaleView):
            await self.mount(ScaleView(blocks=self._blocks))
        if self._found is not None and self._found.name == plan.name:
            self._tell()

    def _show_picture(self) -> None:
        """Show the sections of the plan where they are known and there is room for them."""
        if not self._known:  # nor is there anything yet that draws
            return
        from tui.widgets import ScaleDrawing, ScaleView, drawn_to_scale

        closer = self._known.get(self._found.name) if self._found is not None else None
        drawing = closer.drawing if closer is not None else None
        width, height = self.size
        rows = min(_TALLEST, height // 3) if height >= _PICTURE_FROM and drawing is not None else 0
        if drawing is not None and rows:
            # What it leaves empty, as wide as it can be here, is for the words.
            rows = sum(map(bool, drawn_to_scale(drawing, self._units, width - 4, rows, blocks=self._blocks)))
        for view in self.query(ScaleView):
            view.display = rows > 0
            view.styles.height = 1 + rows
            view.data = ScaleDrawing(drawing, self._units)


def _closer(plan: Plan, shop: Path) -> _Closer:
    """What a plan takes and looks like; for a thread."""
    from plans.at_hand import sections_drawn
    from plans.times import plan_times

    return _Closer(plan_times(plan, read_shop(shop)[0]), sections_drawn(plan))
