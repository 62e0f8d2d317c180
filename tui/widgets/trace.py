"""The trace: temperature over time, with heats shaded, limits drawn and calls marked."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby
from typing import ClassVar

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.strip import Strip

from tui.widgets.axes import TEMPERATURES
from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.contrast import RGB, contrast, glow_shown, rgb_of
from tui.widgets.plotting import Curve
from tui.widgets.trace_layout import TraceData, TraceLayout, lay_out
from tui.widgets.trace_plot import Role, TracePlot

__all__ = ["Curve", "TraceData", "TraceView"]

_FAINTEST = 3.0
"""Contrast to the background below which a glow is not drawn as such; WCAG 2.2, 1.4.11, for graphics."""


class TraceView(CachedDrawing):
    """The trace as a widget; with `cursor=True` it takes the focus, arrow keys move a reading line, and the mouse asks
    for another stretch: its wheel for a longer or a shorter one, dragging for one further on or back."""

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
        "trace--first",
        "trace--second",
        "trace--third",
        "trace--fourth",
        "trace--fifth",
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
    /* Five that are five in 16 colours as well. */
    TraceView > .trace--first { color: #f2b04c; text-style: bold; }
    TraceView > .trace--second { color: #5c9dff; }
    TraceView > .trace--third { color: #5fd75f; }
    TraceView > .trace--fourth { color: #ff5fff; }
    TraceView > .trace--fifth { color: #5fffff; }
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
            """Where the line stands: time since the sitting began [s]."""
            self.measured = measured
            """The measured temperature there [K]; None where nothing was measured."""
            self.modelled = modelled
            """The modelled temperature of the skin there [K]; None where there is none."""

        @property
        def control(self) -> TraceView:
            """The trace whose line was moved."""
            return self.trace

    class Wheeled(Message):
        """The wheel was turned over it."""

        def __init__(self, at: float, closer: bool) -> None:
            super().__init__()
            self.at = at
            """Where the pointer stands: time since the sitting began [s]."""
            self.closer = closer
            """Whether it is to be seen from nearer by, else from further off."""

    class Dragged(Message):
        """The curve was taken hold of and moved."""

        def __init__(self, seconds: float) -> None:
            super().__init__()
            self.seconds = seconds
            """How much further on it is to show [s]; below 0 it is further back."""

    data: Shown[TraceData] = Shown(TraceData())
    cursor_at: Shown[float | None] = Shown(None)
    """Where the reading line stands [s]."""

    _laid: TraceLayout | None = None
    _lines: Sequence[Strip] = ()

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
        self._held_at: int | None = None
        """The column at which the mouse holds the curve."""
        self._was_dragged = False

    def action_move(self, columns: int) -> None:
        """Move the reading line by columns of the plot."""
        self._move_to(self._cursor_column() + columns)

    def action_move_to_edge(self, to_end: bool) -> None:
        self._move_to(self._columns if to_end else 0)

    def on_click(self, event: events.Click) -> None:
        # The end of a drag comes as a click too.
        if self.can_focus and not self._was_dragged:
            self._move_to(event.x)

    def on_mouse_down(self, event: events.MouseDown) -> None:
        self._was_dragged = False
        if self.can_focus:
            self._held_at = event.x
            self.capture_mouse()

    def on_mouse_move(self, event: events.MouseMove) -> None:
        if self._held_at is not None and event.x != self._held_at:
            moved, self._held_at, self._was_dragged = event.x - self._held_at, event.x, True
            self.post_message(self.Dragged(-moved / self._columns * (self.data.end - self.data.begin)))

    def on_mouse_up(self) -> None:
        self._held_at = None
        self.release_mouse()

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        self._wheel(event, closer=True)

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        self._wheel(event, closer=False)

    def _wheel(self, event: events.MouseEvent, closer: bool) -> None:
        if self.can_focus:
            event.stop()
            self.post_message(self.Wheeled(self._time_at(event.x), closer))

    @property
    def _columns(self) -> int:
        return self._laid.plot_width if self._laid is not None else max(1, self.size.width)

    def _cursor_column(self) -> int:
        """The column of the reading line; before it was first moved, one past the end."""
        if self.cursor_at is None:
            return self._columns
        data = self.data
        return int((self.cursor_at - data.begin) / (data.end - data.begin or 1.0) * self._columns)

    def _move_to(self, column: int) -> None:
        data = self.data
        self.cursor_at = at = self._time_at(column)
        self.post_message(self.Moved(self, at, data.measured.near(at), data.modelled.near(at)))

    def _time_at(self, column: int) -> float:
        """The time in the middle of a column of the plot, or of the nearest that there is [s]."""
        data, columns = self.data, self._columns
        return data.begin + (min(max(0, column), columns - 1) + 0.5) / columns * (data.end - data.begin)

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        cursor = self.cursor_at if self.can_focus else None
        laid = lay_out(self.data, width, height, blocks=self._blocks, cursor=cursor)
        # A curve that has grown within its last column is mostly drawn as it was.
        if laid != self._laid or not self._lines:
            self._laid, self._lines = laid, self._coloured(laid)
        return self._lines

    def _forget_looks(self) -> None:
        super()._forget_looks()
        self._lines = ()

    def _coloured(self, laid: TraceLayout) -> list[Strip]:
        """A strip a row; runs of cells that share role and shading share a segment."""
        sheet = TracePlot(laid)
        styles = [style for role in Role for style in self._styles(role)]
        measured = self._styles(Role.MEASURED)
        strips = []
        for y, (line, roles) in enumerate(zip(sheet.characters, sheet.roles, strict=True)):
            kinds = [2 * role for role in roles]
            if y < laid.plot_height:
                kinds = [kind + in_span for kind, in_span in zip(kinds, sheet.shaded, strict=True)]
                if self._glow is not None and laid.up in TEMPERATURES:
                    kelvin = laid.kelvin_at(y)
                    first = 2 * Role.MEASURED
                    styles[first : first + 2] = [style + self._glow_on(style, kelvin) for style in measured]
            segments = []
            column = 0
            for kind, run in groupby(kinds):
                end = column + len(list(run))
                segments.append(Segment("".join(line[column:end]), styles[kind]))
                column = end
            strips.append(Strip(segments, laid.width))
        return strips

    def _styles(self, role: Role) -> list[Style]:
        """How a role looks outside and inside a span."""
        style = self.look(f"trace--{role.name.lower()}")
        return [style, style + Style(bgcolor=self.look("trace--span").bgcolor)]

    def _glow_on(self, style: Style, kelvin: float) -> Style:
        """The colour of a glow, where it is shown at all and stands out enough from what is behind it."""
        glow = None if self._glow is None else glow_shown(self._glow(kelvin), self.app)
        if glow is None or contrast(glow, rgb_of(style.bgcolor)) < _FAINTEST:
            return Style()
        return Style(color=Color.from_rgb(*glow))
