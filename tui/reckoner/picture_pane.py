"""What an answer looks like, with a line that says what is seen."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.containers import Horizontal, Vertical

from plans.warmth import screen_glow
from tui.widgets import SplitLine

if TYPE_CHECKING:
    from tui.reckoner.pictures import Picture

_LEAST = 7
"""Rows below which nothing is seen in a picture."""


class PicturePane(Vertical):
    """A curve, steel in its colours, or both, or a drawing to scale.

    What draws it is made when there is something to draw, and room for it.

    Args:
        blocks: whether curves are drawn with blocks, for fonts without the finer dots
    """

    DEFAULT_CSS = """
    PicturePane { display: none; }
    PicturePane #said { color: $text-muted; }
    PicturePane #picture { height: 1fr; padding: 0 1; }
    PicturePane #glow { margin-left: 2; }
    """

    def __init__(self, *, blocks: bool) -> None:
        super().__init__()
        self._blocks = blocks

    async def show(self, draw: Callable[[], Picture | None], rows: int) -> None:
        """Show a picture in so many rows, or nothing where there is none or no room for it.

        Args:
            draw: makes the picture; called only where there is room
            rows: how many rows there are
        """
        drawn = draw() if rows >= _LEAST else None
        self.display = drawn is not None
        if drawn is None:
            return
        from tui.widgets import GlowData, GlowMap, ScaleDrawing, ScaleView, TraceData, TraceView

        if not self._nodes:
            curve = TraceView(id="curve", blocks=self._blocks, glow=screen_glow)
            glow, scale = GlowMap(screen_glow, id="glow"), ScaleView(blocks=self._blocks, id="scale")
            await self.mount(SplitLine(id="said"), Horizontal(curve, glow, scale, id="picture"))
        self.styles.height = rows
        curve, glow, scale = self.query_one(TraceView), self.query_one(GlowMap), self.query_one(ScaleView)
        curve.display, glow.display = drawn.curve is not None, drawn.glow is not None
        scale.display = drawn.drawing is not None
        curve.data, glow.data = drawn.curve or TraceData(), drawn.glow or GlowData()
        scale.data = drawn.drawing or ScaleDrawing()
        self.query_one("#said", SplitLine).show(drawn.said)
