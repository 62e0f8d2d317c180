from __future__ import annotations

from collections.abc import Callable
from itertools import combinations, product
from typing import Any

import pytest
from rich.cells import cell_len
from rich.style import Style
from textual.color import Color
from textual.filter import Monochrome
from textual.strip import Strip

from plans.phase import PhaseKind
from plans.sitting.calls import Call
from tui.widgets.contrast import RGB, contrast, rgb_of
from tui.widgets.figure import drawn_figure, drawn_word
from tui.widgets.grounds import Ground
from tui.widgets.hero import Hero, Lettering
from tui.widgets.marks import PAUSED, call_mark, phase_mark

ORANGE: RGB = (255, 106, 0)
SIZES = [(1, 1), (3, 2), (7, 4), (24, 10), (39, 3), (80, 12), (120, 20), (220, 60)]


def colours_of(strips: list[Strip], character: str) -> set[tuple[RGB, RGB]]:
    """Foreground and background of the cells that hold a character."""
    return {
        (rgb_of(style.color), rgb_of(style.bgcolor))
        for strip in strips
        for text, style, _ in strip
        if character in text and isinstance(style, Style)
    }


def hero(figure: str = "42", *, word_rows: int = 3, **more: Any) -> Hero:
    shown = Hero()
    shown.set_reactive(Hero.said, Lettering(**({"word": "strike", "figure": figure, "unit": "s"} | more)))
    shown.set_reactive(Hero.word_rows, word_rows)
    return shown


@pytest.mark.parametrize("size", SIZES)
async def test_strips_are_as_wide_as_the_widget(stage: Any, lines: Any, size: tuple[int, int]) -> None:
    widget = hero()
    async with stage(widget, size):
        for text, ground in product(["42", "1:05:00", "--", "", "[/x] [T=12]", "刃刃刃", "\x1b[2J"], Ground):
            widget.said = Lettering(text, text, "degC", "1-2", ground=ground)
            strips = lines(widget)
            assert len(strips) == size[1]
            assert {strip.cell_length for strip in strips} == {size[0]}
            assert {cell_len(strip.text) for strip in strips} == {size[0]}


def test_a_figure_fills_the_height_with_its_unit_at_the_foot() -> None:
    rows = drawn_figure("42", "s", "", 50, 10).rows(50, 10)
    assert all("█" in row for row in rows)
    assert rows[-1].rstrip().endswith(" s")
    assert "s" not in "".join(rows[:-1])


def test_the_range_stands_beside_the_figure_in_lower_digits_or_else_small() -> None:
    beside, alone = drawn_figure("31", "s", "15-43", 50, 8), drawn_figure("31", "s", "", 50, 8)
    assert beside.foot == " s"
    assert beside.width > alone.width
    assert len(beside.picture) == 8
    assert drawn_figure("31", "s", "15-43", 34, 8).foot == " s 15-43"


async def test_a_strike_is_dark_on_the_glow_and_an_alarm_turns_over(stage: Any, lines: Any) -> None:
    widget = hero(glow=ORANGE, ground=Ground.FULL)
    async with stage(widget, (50, 10)) as pilot:
        assert colours_of(lines(widget), "s") == {((0, 0, 0), ORANGE)}
        # Ink on ink: a gap between two rows of a font can't show the field.
        assert colours_of(lines(widget), "█") == {((0, 0, 0), (0, 0, 0))}
        widget.said = Lettering("too cold", "42", "s", glow=ORANGE, ground=Ground.ALARM)
        await pilot.pause()
        ((ink, field),) = colours_of(lines(widget), "s")
        widget.blink_on = False
        await pilot.pause()
        assert colours_of(lines(widget), "s") == {(field, ink)}


async def test_nothing_but_an_alarm_blinks(stage: Any, lines: Any) -> None:
    widget = hero()
    async with stage(widget, (50, 10)):
        for ground in Ground:
            widget.said = Lettering("strike", "42", "s", ground=ground, glow=ORANGE)
            widget.blink_on = True
            on = lines(widget)
            widget.blink_on = False
            assert (lines(widget) != on) == (ground is Ground.ALARM)


async def test_without_colours_the_figure_still_stands_out(
    stage: Any, lines: Callable[..., list[Strip]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What Textual sends to the terminal under NO_COLOR is greys: those must differ."""
    monkeypatch.setenv("NO_COLOR", "1")
    widget = hero()
    async with stage(widget, (50, 10)):
        for glow, ground in product([(70, 0, 0), (190, 40, 0), ORANGE, (255, 220, 150), None], Ground):
            widget.said = Lettering("strike", "42", "s", ground=ground, glow=glow)
            grey = [strip.apply_filter(Monochrome(), Color(0, 0, 0)) for strip in lines(widget)]
            ((ink, field),) = colours_of(grey, "s")
            assert contrast(ink, field) >= 4.5
            assert len(set(ink)) == len(set(field)) == 1


def lightness(strips: list[Strip]) -> list[list[float]]:
    """How light each half of each cell is, from 0 to 1; letters count as their field."""
    found = []
    for strip in strips:
        over: list[float] = []
        under: list[float] = []
        for text, style, _ in strip:
            assert isinstance(style, Style)
            ink, field = (sum(rgb_of(colour)) / 765 for colour in (style.color, style.bgcolor))
            over += [ink if cell in "▀█" else field for cell in text]
            under += [ink if cell in "▄█" else field for cell in text]
        found += [over, under]
    return found


@pytest.mark.parametrize("size", [(62, 11), (80, 16)])
async def test_what_is_done_now_is_told_from_afar_without_a_colour_or_a_letter(
    stage: Any, lines: Any, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int]
) -> None:
    """An eighth of the width at a side, so far off that 2 x 2 cells are one: a fifth of it differs by a quarter."""
    monkeypatch.setenv("NO_COLOR", "1")
    states = {
        "heat": (Ground.SIDES, phase_mark(PhaseKind.FIRE)),
        "soak": (Ground.LEVEL, phase_mark(PhaseKind.SOAK)),
        "out": (Ground.STRIPES, call_mark(Call.SOAK_DONE)),
        "strike": (Ground.FULL, phase_mark(PhaseKind.STRIKE)),
        "paused": (Ground.EMPTY, PAUSED),
        "quench": (Ground.SIDES, phase_mark(PhaseKind.QUENCH)),
    }
    seen, widget = {}, hero()
    async with stage(widget, size):
        for state, (ground, mark) in states.items():
            widget.said = Lettering("42", "42", ground=ground, mark=mark)
            light = [row[: size[0] // 8] for row in lightness(lines(widget))]
            seen[state] = [
                sum(light[y + dy][x + dx] for dy in range(4) for dx in range(2)) / 8
                for y in range(0, len(light) - 3, 4)
                for x in range(0, len(light[0]) - 1, 2)
            ]
    for one, other in combinations(seen, 2):
        apart = [abs(a - b) >= 0.25 for a, b in zip(seen[one], seen[other], strict=True)]
        assert sum(apart) >= len(apart) / 5, (one, other)


def test_a_figure_too_large_for_its_room_is_written_out() -> None:
    assert drawn_figure("1:05:00", "", "", 12, 3).picture == ("1:05:00",)


def test_the_unit_gives_way_to_the_figure() -> None:
    # Four digits of four dots and three gaps take 19, a margin of one on each side 21.
    drawn = drawn_figure("8888", "degC", "", 21, 10)
    assert "█" in "".join(drawn.picture)
    assert drawn.foot == ""


def test_a_word_is_drawn_on_two_lines_where_that_is_larger() -> None:
    rows = drawn_word("too cold", 24, 10).rows(24, 10)
    assert sum(row.strip() != "" for row in rows) >= 8


def test_a_word_without_room_is_written_in_capitals() -> None:
    assert drawn_word("too cold", 10, 1).rows(10, 1) == [" TOO COLD "]


async def test_a_change_is_drawn(stage: Any, lines: Any) -> None:
    widget = hero("1")
    async with stage(widget, (30, 10)) as pilot:
        before = [strip.text for strip in lines(widget)]
        widget.said = Lettering("strike", "2")
        await pilot.pause()
        assert [strip.text for strip in lines(widget)] != before
