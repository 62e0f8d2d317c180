"""What stands below the figure: the trace of the sitting, or the instruction while there is time to read it."""

from __future__ import annotations

from typing import Final

from textual.app import ComposeResult
from textual.content import Content

from plans.sitting import Sitting
from plans.warmth import screen_glow
from tui.config import Settings
from tui.live.live_trace import LiveTrace
from tui.widgets import StillColumn, StillText, TraceView

_WINDOW: Final = 15 * 60.0
"""How much of the sitting the trace shows; a wide terminal shows a third more [s]."""
_WIDE: Final = 110
_LABELS: Final = 14
"""Columns that the labels of the trace take, about."""
_EVERY: Final = 2.0
"""How often the trace is looked at anew; a column of its dots takes some seconds [s]."""


class Below(StillColumn):
    """The trace, or the instruction in its place; draws nothing anew that is as it was.

    Args:
        sitting: whose
        settings: its units, and what traces are drawn with
        id: by which it is found
    """

    DEFAULT_CSS = """
    Below { height: 1fr; padding: 0 1; }
    Below #task { height: 1fr; }
    """

    def __init__(self, sitting: Sitting, settings: Settings, *, id: str) -> None:
        super().__init__(id=id)
        self._blocks = settings.blocks
        self._trace = LiveTrace(sitting, settings.units)
        self._at: float | None = None
        """When the trace was looked at last; None where it is to be looked at now [s]."""

    def compose(self) -> ComposeResult:
        yield TraceView(id="trace", blocks=self._blocks, glow=screen_glow)
        yield StillText(id="task", markup=False)

    @property
    def reads(self) -> bool:
        """Whether the instruction stands here, rather than the trace."""
        return bool(self.query_one("#task").display)

    @reads.setter
    def reads(self, reads: bool) -> None:
        self.query_one("#task").display = reads
        self.query_one(TraceView).display = not reads

    def tell(self, task: Content) -> None:
        """Another instruction to read; the trace is looked at anew with it."""
        self.query_one("#task", StillText).update(task)
        self._at = None

    def draw_trace(self, at: float, width: int) -> None:
        """Draw the trace where it is to be seen, and some time has gone since it was drawn last.

        Args:
            at: now [s]
            width: columns of the terminal
        """
        if not self.display or self.reads or (self._at is not None and abs(at - self._at) < _EVERY):
            return
        self._at = at
        trace = self.query_one(TraceView)
        window = _WINDOW if width < _WIDE else _WINDOW * 4 / 3
        trace.data = self._trace.data(at, window, trace.size.width - _LABELS)
