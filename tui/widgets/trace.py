"""The trace: temperature over time, with heats shaded, limits drawn and calls marked."""

from __future__ import annotations

from collections.abc import Callable
from itertools import groupby
from typing import ClassVar

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from tui.widgets.contrast import RGB, contrast, glow_shown, rgb_of
from tui.widgets.plotting import Curve
from tui.widgets.sheet import Role, Sheet, TraceData

__all__ = ["Curve", "TraceData", "TraceView"]

_FAINTEST = 3.0
"""Contrast to the background below which a glow is not drawn as such; WCAG 2.2, 1.4.11, for graphics."""


class TraceView(Widget):
    """The trace as a widget; with `cursor=True` it takes the focus, and arrow keys move a reading line."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "trace--blank",
        "trace--measured",
        "trace--modelled",
        "trace--limit",
        "trace--flag",
        "trace--now",
        "trace--cursor",
        "trace--axis",
        "trace--span",
    }
    DEFAULT_CSS = """
    TraceView { width: 1fr; height: 1fr; }
    TraceView > .trace--measured { text-style: bold; }
    TraceView > .trace--modelled { color: $text-muted; }
    TraceView > .trace--limit { color: $text-warning; }
    TraceView > .trace--flag { color: $text-error; text-style: bold; }
    TraceView:nocolor > .trace--flag { color: $foreground; text-style: bold reverse; }
    TraceView > .trace--now { color: $text-disabled; }
    TraceView > .trace--cursor { color: $accent; }
    TraceView > .trace--axis { color: $text-muted; }
    TraceView > .trace--span { background: $foreground 12%; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "move(-1)", "earlier", show=False),
        Binding("right", "move(1)", "later", show=False),
        Binding("pageup", "move(-10)", "much earlier", show=False),
        Binding("pagedown", "move(10)", "much later", show=False),
        Binding("home", "move_to_edge(False)", "begin", show=False),
        Binding("end", "move_to_edge(True)", "end", show=False),
    ]

    class Moved(Message):
        """The reading line was moved."""

        def __init__(self, trace: TraceView, at: float, measured: float | None, modelled: float | None) -> None:
            super().__init__()
            self.trace = trace
            self.at = at
            """[s]"""
            self.measured = measured
            """[K]"""
            self.modelled = modelled
            """[K]"""

        @property
        def control(self) -> TraceView:
            return self.trace

    data: reactive[TraceData] = reactive(TraceData())
    fahrenheit: reactive[bool] = reactive(False)
    cursor_at: reactive[float | None] = reactive(None)
    """Where the reading line stands [s]."""

    _key: tuple[object, ...] = ()
    _sheet: Sheet | None = None

    def __init__(
        self,
        *,
        blocks: bool = False,
        cursor: bool = False,
        glow: Callable[[float], RGB] | None = None,
        name: str | None = None,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        """A trace.

        Args:
            blocks: half blocks in place of braille
            cursor: with a reading line
            glow: colour of steel at a temperature [K], for the measured curve
        """
        super().__init__(name=name, id=id, classes=classes)
        self._blocks, self._glow = blocks, glow
        self.can_focus = cursor

    def action_move(self, columns: int) -> None:
        """Move the reading line by columns of the plot."""
        self._move_to(self._cursor_column() + columns)

    def action_move_to_edge(self, to_end: bool) -> None:
        self._move_to(self._columns if to_end else 0)

    def on_click(self, event: events.Click) -> None:
        if self.can_focus:
            self._move_to(event.x)

    @property
    def _columns(self) -> int:
        return self._sheet.plot_width if self._sheet is not None else max(1, self.size.width)

    def _cursor_column(self) -> int:
        """The column of the reading line; before it was first moved, one past the end."""
        if self.cursor_at is None:
            return self._columns
        data = self.data
        return int((self.cursor_at - data.begin) / (data.end - data.begin or 1.0) * self._columns)

    def _move_to(self, column: int) -> None:
        data, columns = self.data, self._columns
        column = min(max(0, column), columns - 1)
        self.cursor_at = at = data.begin + (column + 0.5) / columns * (data.end - data.begin)
        self.post_message(self.Moved(self, at, data.measured.near(at), data.modelled.near(at)))

    def render_line(self, y: int) -> Strip:
        width, height = self.size
        key = (self.data, width, height, self.fahrenheit, self.cursor_at)
        if self._sheet is None or key != self._key:
            self._key = key
            self._sheet = Sheet(
                self.data,
                width,
                height,
                blocks=self._blocks,
                fahrenheit=self.fahrenheit,
                cursor=self.cursor_at if self.can_focus else None,
            )
        return self._strip(self._sheet, y)

    def _strip(self, sheet: Sheet, y: int) -> Strip:
        in_plot = y < sheet.plot_height
        shaded = sheet.shaded if in_plot else [False] * sheet.width
        segments = []
        column = 0
        line = sheet.characters[y]
        for (role, in_span), run in groupby(zip(sheet.roles[y], shaded, strict=True)):
            count = sum(1 for _ in run)
            segments.append(Segment("".join(line[column : column + count]), self._style(Role(role), in_span, sheet, y)))
            column += count
        return Strip(segments, sheet.width)

    def _style(self, role: Role, in_span: bool, sheet: Sheet, y: int) -> Style:
        style = self.get_component_rich_style(f"trace--{role.name.lower()}")
        if in_span:
            style += Style(bgcolor=self.get_component_rich_style("trace--span").bgcolor)
        if role is Role.MEASURED and self._glow is not None:
            glow = glow_shown(self._glow(sheet.kelvin_at(y)), self.app)
            if glow is not None and contrast(glow, rgb_of(style.bgcolor)) >= _FAINTEST:
                style += Style(color=Color.from_rgb(*glow))
        return style
