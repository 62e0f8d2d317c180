from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from rich.cells import cell_len
from rich.style import Style
from textual.color import Color
from textual.filter import Monochrome
from textual.strip import Strip

from tui.widgets.contrast import RGB, contrast, rgb_of
from tui.widgets.figure import BigFigure, BigWord

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


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("text", ["42", "1:05:00", "--", "", "[/x] [T=12]", "刃刃刃", "\x1b[2J"])
async def test_strips_are_as_wide_as_the_widget(stage: Any, lines: Any, size: tuple[int, int], text: str) -> None:
    figure, word = BigFigure(text), BigWord(text)
    figure.set_reactive(BigFigure.unit, "degC")
    for widget in (figure, word):
        async with stage(widget, size):
            strips = lines(widget)
            assert len(strips) == size[1]
            assert {strip.cell_length for strip in strips} == {size[0]}
            assert {cell_len(strip.text) for strip in strips} == {size[0]}


async def test_a_figure_fills_the_height_with_its_unit_at_the_foot(stage: Any, lines: Any) -> None:
    figure = BigFigure()
    async with stage(figure, (50, 10)) as pilot:
        figure.show("42", "s", glow=ORANGE)
        await pilot.pause()
        texts = [strip.text for strip in lines(figure)]
        assert all("█" in text for text in texts)
        assert texts[-1].rstrip().endswith(" s")
        assert "s" not in "".join(texts[:-1])


async def test_an_alarm_swaps_field_and_ink(stage: Any, lines: Any) -> None:
    figure = BigFigure("42")
    async with stage(figure, (50, 10)) as pilot:
        figure.show("42", "s", glow=ORANGE)
        await pilot.pause()
        assert colours_of(lines(figure), "s") == {((0, 0, 0), ORANGE)}
        # Ink on ink: a gap between two rows of a font can't show the field.
        assert colours_of(lines(figure), "█") == {((0, 0, 0), (0, 0, 0))}
        figure.show("42", "s", glow=ORANGE, alarm=True)
        await pilot.pause()
        assert colours_of(lines(figure), "s") == {(ORANGE, (0, 0, 0))}
        assert colours_of(lines(figure), "█") == {(ORANGE, ORANGE)}


@pytest.mark.parametrize("alarm", [False, True])
@pytest.mark.parametrize("glow", [(70, 0, 0), (190, 40, 0), ORANGE, (255, 220, 150), None])
async def test_without_colours_the_figure_still_stands_out(
    stage: Any, lines: Callable[..., list[Strip]], monkeypatch: pytest.MonkeyPatch, glow: RGB | None, alarm: bool
) -> None:
    """What Textual sends to the terminal under NO_COLOR is greys: those must differ."""
    monkeypatch.setenv("NO_COLOR", "1")
    figure = BigFigure("42")
    async with stage(figure, (50, 10)) as pilot:
        figure.show("42", "s", glow=glow, alarm=alarm)
        await pilot.pause()
        grey = [strip.apply_filter(Monochrome(), Color(0, 0, 0)) for strip in lines(figure)]
        ((ink, field),) = colours_of(grey, "s")
        assert contrast(ink, field) >= 4.5
        assert len(set(ink)) == len(set(field)) == 1


async def test_a_figure_too_large_for_its_room_is_written_out(stage: Any, lines: Any) -> None:
    figure = BigFigure("1:05:00")
    async with stage(figure, (12, 3)):
        assert [strip.text.strip() for strip in lines(figure)] == ["", "1:05:00", ""]


async def test_the_unit_gives_way_to_the_figure(stage: Any, lines: Any) -> None:
    figure = BigFigure("8888")
    figure.set_reactive(BigFigure.unit, "degC")
    # Four digits of four dots and three gaps take 19, a margin of one on each side 21.
    async with stage(figure, (21, 10)):
        text = "\n".join(strip.text for strip in lines(figure))
        assert "█" in text
        assert "degC" not in text


async def test_a_word_is_drawn_on_two_lines_where_that_is_larger(stage: Any, lines: Any) -> None:
    word = BigWord()
    async with stage(word, (24, 10)) as pilot:
        word.show("too cold", alarm=True)
        await pilot.pause()
        inked = [strip.text.strip() != "" for strip in lines(word)]
        assert sum(inked) >= 8


async def test_a_word_without_room_is_written_in_capitals(stage: Any, lines: Any) -> None:
    word = BigWord("too cold")
    async with stage(word, (10, 1)):
        assert lines(word)[0].text == " TOO COLD "


async def test_a_change_is_drawn(stage: Any, lines: Any) -> None:
    figure = BigFigure("1")
    async with stage(figure, (30, 10)) as pilot:
        before = [strip.text for strip in lines(figure)]
        figure.text = "2"
        await pilot.pause()
        assert [strip.text for strip in lines(figure)] != before
