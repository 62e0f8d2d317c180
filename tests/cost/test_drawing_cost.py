"""What drawing the live screen costs, beside drawing plain text of the same size with Textual in the same run."""

from __future__ import annotations

from collections.abc import Callable
from math import sin
from statistics import median
from time import perf_counter

from textual.app import App, ComposeResult
from textual.widget import Widget
from textual.widgets import Static

from tui.widgets.figure import BigFigure
from tui.widgets.trace import Curve, TraceData, TraceView

SIZE = (120, 35)
TIMES = 15


def hour(step: float) -> TraceData:
    """An hour of heats with a reading every `step` seconds; 14,400 at a quarter of one."""
    at = [step * index for index in range(int(3600 / step))]
    kelvin: list[float | None] = [1350 + 150 * sin(moment / 60) + 2 * sin(97 * moment) for moment in at]
    spans = [(began, began + 200.0, str(began // 400 + 1)) for began in range(0, 3600, 400)]
    return TraceData(0, 3600, Curve(at, kelvin), spans=spans, limits=((1423.0, "cold"), (1593.0, "burn")), now=3590.0)


class Side(App[None]):
    """The three that are compared, each as large as the screen."""

    CSS = "Screen { overflow: hidden; } Static, TraceView, BigFigure { width: 100%; height: 100%; }"

    def compose(self) -> ComposeResult:
        yield Static()
        yield TraceView(glow=lambda kelvin: (255, int(kelvin / 10), 0))
        yield BigFigure()


def drawn(widget: Widget, change: Callable[[int], None]) -> Callable[[int], float]:
    """Seconds to change a widget and to draw all its lines."""

    def once(turn: int) -> float:
        began = perf_counter()
        change(turn)
        strips = [widget.render_line(y) for y in range(SIZE[1])]
        took = perf_counter() - began
        assert len(strips) == SIZE[1]
        return took

    return once


async def test_a_trace_of_14400_points_and_a_figure_cost_little_more_than_plain_text() -> None:
    app = Side()
    async with app.run_test(size=SIZE) as pilot:
        await pilot.pause()
        plain, trace, figure = app.query_one(Static), app.query_one(TraceView), app.query_one(BigFigure)
        assert plain.size == trace.size == figure.size == SIZE
        dense, sparse = (hour(0.25), hour(0.25)), (hour(15), hour(15))

        def show(data: tuple[TraceData, TraceData], turn: int) -> None:
            trace.data = data[turn % 2]

        drawings = {
            "text": drawn(plain, lambda turn: plain.update("\n".join(f"{turn} heat of " * 12 for _ in range(SIZE[1])))),
            "dense": drawn(trace, lambda turn: show(dense, turn)),
            "sparse": drawn(trace, lambda turn: show(sparse, turn)),
            "figure": drawn(figure, lambda turn: figure.show(str(10 + turn), "s", glow=(255, turn, 0))),
        }
        # One after the other in each round, so that a busy machine slows all of them.
        rounds = [{name: draw(turn) for name, draw in drawings.items()} for turn in range(TIMES)]
    took = {name: median(one[name] for one in rounds) for name in drawings}
    assert took["dense"] < 5 * took["text"]
    assert took["figure"] < 2.5 * took["text"]
    # Sixty times the points are scanned, not drawn.
    assert took["dense"] < 2 * took["sparse"]
