"""Lines in large letters: they fit, say it shorter where they must, and are written small where even that fails."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, strategies as st
from rich.cells import cell_len

from tui.widgets.big_line import BigLine
from tui.widgets.painting import fine_pair

QUARTERS = set(" ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█")
HALVES = set(" ▀▄█")


def line(blocks: bool = False, **more: Any) -> BigLine:
    shown = BigLine(blocks=blocks)
    texts = {"left": ("31 x 18 mm, 153 mm", "31 x 18 mm"), "right": ("heat 2 of 3", "2 of 3"), "lead": "reach"} | more
    shown.show(**texts)
    return shown


@given(st.text(max_size=40), st.text(max_size=12), st.integers(1, 220), st.integers(1, 9), st.booleans())
def test_a_pair_fills_its_width_and_no_more_than_its_rows(
    left: str, right: str, width: int, height: int, quarters: bool
) -> None:
    picture = fine_pair(left, right, width, height, quarters=quarters)
    if picture is not None:
        assert len(picture) <= height
        assert {len(row) for row in picture} == {width}
        assert set("".join(picture)) <= (QUARTERS if quarters else HALVES)


def test_the_letter_l_in_quarters_is_an_upright_and_a_foot() -> None:
    # Three rows are drawn five dots high; L is four across, its pen one.
    picture = fine_pair("L", "", 2, 3, quarters=True)
    assert picture == ("▌ ", "▌ ", "▀▀")


def test_at_eighty_columns_section_length_and_heat_stand_whole_in_letters_twice_as_large() -> None:
    """Of 78 cells "reach" takes 6: 28 letters in 72 cells and three rows."""
    assert fine_pair("31 x 18 mm, 153 mm", "heat 2 of 3", 72, 3, quarters=True) is not None


@pytest.mark.parametrize(
    ("width", "height", "blocks", "large"),
    [
        (80, 3, False, True),
        (40, 3, False, False),
        (80, 2, False, False),
        (80, 3, True, True),
        (60, 3, True, False),
        (160, 3, True, True),
    ],
)
async def test_it_is_large_where_there_is_room_and_else_written(
    stage: Any, lines: Any, width: int, height: int, blocks: bool, large: bool
) -> None:
    async with stage(line(blocks), (width, height)) as pilot:
        widget = pilot.app.query_one(BigLine)
        texts = [strip.text for strip in lines(widget)]
    assert [cell_len(text) for text in texts] == [width] * height
    shown = "\n".join(texts)
    assert "reach" in shown
    assert ("31 x 18 mm" in shown) != large
    assert bool(set(shown) & (QUARTERS - {" "})) == large
    assert not blocks or set(shown) <= HALVES | set(map(chr, range(32, 127))) | {"\n", "…"}


async def test_it_is_said_shorter_before_it_is_written(stage: Any, lines: Any) -> None:
    async with stage(
        line(left=("31 x 18 mm, 153 mm, and more than there is room for", "31 x 18 mm")), (80, 3)
    ) as pilot:
        whole = [strip.text for strip in lines(pilot.app.query_one(BigLine))]
    async with stage(line(left=("31 x 18 mm",)), (80, 3)) as pilot:
        assert [strip.text for strip in lines(pilot.app.query_one(BigLine))] == whole


@pytest.mark.parametrize(("width", "whole"), [(90, True), (56, False), (30, True)])
async def test_it_tells_whether_it_says_all(stage: Any, width: int, whole: bool) -> None:
    async with stage(line(), (width, 3)) as pilot:
        assert pilot.app.query_one(BigLine).says_all is whole


@pytest.mark.parametrize("size", [(1, 1), (5, 3), (20, 1), (79, 4), (200, 6)])
async def test_it_fits_whatever_it_says(stage: Any, lines: Any, size: tuple[int, int]) -> None:
    async with stage(line(), size) as pilot:
        shown = pilot.app.query_one(BigLine)
        for text in ("", "刃刃刃 x 3", "\x1b[2J[/x]", "1 1/4 x 23/32 in"):
            shown.show((text,), (text,), lead="reach", aside=(text, "1:05:00"))
            assert [cell_len(strip.text) for strip in lines(shown)] == [size[0]] * size[1]
