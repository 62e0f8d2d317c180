"""What an answer looks like, with a line that says what is seen."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical

from plans.warmth import screen_glow
from tui.reckoner.pictures import Picture
from tui.reckoner.to_scale import ScaleDrawing, ScaleView
from tui.widgets import GlowData, GlowMap, SplitLine, TraceData, TraceView

_LEAST = 7
"""Rows below which nothing is seen in a picture."""


class PicturePane(Vertical):
    """A curve, steel in its colours, or both, or a drawing to scale.

    Args:
        blocks: whether curves are drawn with blocks, for fonts without the finer dots
    """

    DEFAULT_CSS = """
    PicturePane #said { color: $text-muted; }
    PicturePane #picture { height: 1fr; padding: 0 1; }
    PicturePane #glow { margin-left: 2; }
    """

    def __init__(self, *, blocks: bool) -> None:
        super().__init__()
        self._blocks = blocks

    def compose(self) -> ComposeResult:
        yield SplitLine(id="said")
        with Horizontal(id="picture"):
            yield TraceView(id="curve", blocks=self._blocks, glow=screen_glow)
            yield GlowMap(screen_glow, id="glow")
            yield ScaleView(blocks=self._blocks, id="scale")

    def show(self, drawn: Picture | None, rows: int) -> None:
        """Show a picture in so many rows, or nothing where there is none or no room for it."""
        self.display = drawn is not None and rows >= _LEAST
        self.styles.height = max(1, rows)
        if drawn is None:
            return
        curve, glow, scale = self.query_one(TraceView), self.query_one(GlowMap), self.query_one(ScaleView)
        curve.display, glow.display = drawn.curve is not None, drawn.glow is not None
        scale.display = drawn.drawing is not None
        curve.data, glow.data = drawn.curve or TraceData(), drawn.glow or GlowData()
        scale.data = drawn.drawing or ScaleDrawing()
        self.query_one("#said", SplitLine).show(drawn.said)
