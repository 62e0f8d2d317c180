"""What drawing the live screen costs, beside drawing plain text of the same size with Textual turn by turn."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from math import sin
from time import perf_counter

from textual.app import App, ComposeResult
from textual.widget import Widget
from textual.widgets import Static

from tests.cost.row import Row, Timed, by_turns
from tui.widgets.hero import Hero, Lettering
from tui.widgets.trace import Curve, TraceData, TraceView

SIZE = (120, 35)
TURNS = 15


def hour(step: float, more: float) -> TraceData:
    """An hour of heats with a reading every `step` seconds, 14,400 at a quarter of one, by `more` kelvin hotter."""
    at = [step * index for index in range(int(3600 / step))]
    kelvin: list[float | None] = [1350 + more + 150 * sin(moment / 60) + 2 * sin(97 * moment) for moment in at]
    spans = [(began, began + 200.0, str(began // 400 + 1)) for began in range(0, 3600, 400)]
    return TraceData(0, 3600, Curve(at, kelvin), spans=spans, limits=((1423.0, "cold"), (1593.0, "burn")), now=3590.0)


class Side(App[None]):
    """The three that are compared, each as large as the screen."""

    CSS = "Screen { overflow: hidden; } Static, TraceView, Hero { width: 100%; height: 100%; }"

    def compose(self) -> ComposeResult:
        yield Static()
        yield TraceView(glow=lambda kelvin: (255, int(kelvin / 10), 0))
        yield Hero()


def drawn(widget: Widget, change: Callable[[int], None]) -> Timed:
    """Changes a widget and draws all its lines; how long that took [s]."""

    def once(turn: int) -> float:
        began = perf_counter()
        change(turn)
        strips = [widget.render_line(y) for y in range(SIZE[1])]
        took = perf_counter() - began
        assert len(strips) == SIZE[1]
        return took

    return once


def rows() -> list[Row]:
    """The trace of an hour, and the large figure."""
    return asyncio.run(_rows())


async def _rows() -> list[Row]:
    app = Side()
    async with app.run_test(size=SIZE) as pilot:
        await pilot.pause()
        plain, trace, figure = app.query_one(Static), app.query_one(TraceView), app.query_one(Hero)
        assert plain.size == trace.size == figure.size == SIZE
        dense, sparse = ((hour(step, 0.0), hour(step, 40.0)) for step in (0.25, 15.0))

        def show(data: tuple[TraceData, TraceData], turn: int) -> None:
            trace.data = data[turn % 2]

        def show_figure(hero: Hero, turn: int) -> None:
            hero.said = Lettering("strike", str(10 + turn), "s", glow=(255, turn, 0))

        text_took, dense_took, sparse_took, figure_took = by_turns(
            TURNS,
            drawn(plain, lambda turn: plain.update("\n".join(f"{turn} heat of " * 12 for _ in range(SIZE[1])))),
            drawn(trace, lambda turn: show(dense, turn)),
            drawn(trace, lambda turn: show(sparse, turn)),
            drawn(figure, lambda turn: show_figure(figure, turn)),
        )
    text = "plain text, as large, by Textual"
    return [
        Row("drawing, a trace of 14,400 points at 120 x 35", dense_took, text, text_took, 5.0),
        Row("drawing, a large figure at 120 x 35", figure_took, text, text_took, 2.5),
        # Sixty times the points are scanned, not drawn.
        Row("drawing, a trace of 14,400 points", dense_took, "a trace of 240 points", sparse_took, 2.0),
    ]
