from __future__ import annotations

import re
from typing import Any

import pytest
from rich.cells import cell_len
from rich.color import Color as RichColor, ColorSystem
from textual.app import App, ComposeResult

from tui.widgets.contrast import RGB, rgb_of
from tui.widgets.trace import Curve, TraceData, TraceView

SIZES = [(1, 1), (5, 3), (31, 4), (32, 7), (80, 24), (220, 60)]
ORANGE: RGB = (255, 106, 0)


def steady(kelvin: float = 1400.0) -> TraceData:
    at = [2.0 * index for index in range(51)]
    return TraceData(
        0, 100, Curve(at, [kelvin] * 51), spans=((10, 40, "1"),), limits=((1300.0, "cold"),), flags=((50, kelvin, "▼"),)
    )


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("blocks", [False, True])
async def test_strips_are_as_wide_as_the_widget(stage: Any, lines: Any, size: tuple[int, int], blocks: bool) -> None:
    trace = TraceView(blocks=blocks, glow=lambda _: ORANGE)
    trace.set_reactive(TraceView.data, steady())
    async with stage(trace, size):
        strips = lines(trace)
        assert {strip.cell_length for strip in strips} == {size[0]}
        assert {cell_len(strip.text) for strip in strips} == {size[0]}


def curve_colours(strips: list[Any]) -> set[RGB]:
    return {
        rgb_of(style.color)
        for strip in strips
        for text, style, _ in strip
        if any("\u2801" <= sign <= "\u28ff" for sign in text)
    }


async def test_the_measured_curve_has_the_colour_of_its_glow_where_that_can_be_seen(stage: Any, lines: Any) -> None:
    hot, cold = TraceView(glow=lambda _: ORANGE), TraceView(glow=lambda _: (25, 0, 0))
    data = TraceData(0, 100, Curve([0.0, 100.0], [1400.0, 1400.0]))
    for trace in (hot, cold):
        trace.set_reactive(TraceView.data, data)
    async with stage(hot, (40, 10)):
        assert curve_colours(lines(hot)) == {ORANGE}
    async with stage(cold, (40, 10)):
        assert (25, 0, 0) not in curve_colours(lines(cold))


async def test_heats_are_shaded(stage: Any, lines: Any) -> None:
    trace = TraceView()
    trace.set_reactive(TraceView.data, TraceData(0, 100, spans=((0, 50, "1"),)))
    async with stage(trace, (20, 10)):
        fields = [rgb_of(style.bgcolor) for text, style, _ in lines(trace)[0] for _ in text]
        assert len(set(fields[:10])) == len(set(fields[10:])) == 1
        assert fields[0] != fields[-1]


async def test_new_data_are_drawn(stage: Any, lines: Any) -> None:
    trace = TraceView()
    async with stage(trace, (60, 12)) as pilot:
        before = [strip.text for strip in lines(trace)]
        trace.data = steady()
        await pilot.pause()
        after = [strip.text for strip in lines(trace)]
        assert before != after
        assert any("1027 cold" in line for line in after)


class Reader(App[None]):
    """A trace that is read with the keys."""

    def __init__(self, trace: TraceView) -> None:
        super().__init__()
        self.trace = trace
        self.read: list[tuple[float, float | None, float | None]] = []

    def compose(self) -> ComposeResult:
        yield self.trace

    def on_trace_view_moved(self, event: TraceView.Moved) -> None:
        assert event.control is self.trace
        self.read.append((event.at, event.measured, event.modelled))


async def test_arrow_keys_move_the_reading_line() -> None:
    """20 columns of 5 s each, read in their middle."""
    at = [2.0 * index for index in range(51)]
    trace = TraceView(cursor=True)
    trace.set_reactive(
        TraceView.data,
        TraceData(0, 100, Curve(at, [1000.0 + t for t in at]), Curve([0.0, 50.0, 100.0], [900.0, None, 950.0])),
    )
    app = Reader(trace)
    async with app.run_test(size=(20, 8)) as pilot:
        trace.focus()
        await pilot.press("left", "left", "home", "left", "right", "pagedown", "end", "pageup")
        await pilot.pause()
    assert [at for at, _, _ in app.read] == pytest.approx([97.5, 92.5, 2.5, 2.5, 7.5, 57.5, 97.5, 47.5])
    assert app.read[0][1:] == (1098.0, 950.0)
    assert app.read[2][1:] == (1002.0, 900.0)
    assert app.read[-1][2] is None


async def test_a_click_moves_it_too() -> None:
    trace = TraceView(cursor=True)
    trace.set_reactive(TraceView.data, steady())
    app = Reader(trace)
    async with app.run_test(size=(20, 8)) as pilot:
        await pilot.click(trace, offset=(4, 2))
        await pilot.pause()
        assert app.read == [(22.5, 1400.0, None)]
        assert all(trace.render_line(row).text[4] in "│⣀⠤⠒⠉" for row in range(4))


async def test_on_the_live_screen_it_takes_no_keys() -> None:
    trace = TraceView()
    trace.set_reactive(TraceView.data, steady())
    app = Reader(trace)
    async with app.run_test(size=(20, 8)) as pilot:
        await pilot.press("tab", "left")
        await pilot.click(trace, offset=(4, 2))
        await pilot.pause()
        assert app.focused is None
        assert app.read == []


def test_curves_over_one_another_have_five_colours_where_a_terminal_has_sixteen() -> None:
    colours = re.findall(r"trace--(?:first|second|third|fourth|fifth) { color: (#\w+)", TraceView.DEFAULT_CSS)
    assert len({RichColor.parse(colour).downgrade(ColorSystem.STANDARD).number for colour in colours}) == 5
