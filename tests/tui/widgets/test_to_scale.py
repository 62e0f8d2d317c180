"""Drawings to scale in a terminal."""

from __future__ import annotations

from plans.drawing import Drawing, Measure, Note, Part, Pattern, box
from plans.units import Units
from tui.widgets.to_scale import drawn_to_scale

HALVES = (
    Part(box(0.0, 0.0, 0.010, 0.010), Pattern.SOLID, "steel"),
    Part(box(0.010, 0.0, 0.020, 0.010), Pattern.DOTTED, "iron"),
)


def dots(rows: list[str]) -> list[list[bool]]:
    """The dots of braille, eight to a cell (Unicode, Braille Patterns: 1 2 3 7 at the left, 4 5 6 8 at the right)."""
    order = (0, 1, 2, 6), (3, 4, 5, 7)
    bits = [[ord(cell) - 0x2800 if cell != " " else 0 for cell in row] for row in rows]
    return [
        [bool(cell >> order[side][down] & 1) for cell in row for side in (0, 1)] for row in bits for down in range(4)
    ]


def test_equal_lengths_are_equally_long_both_ways() -> None:
    square = Drawing("", (Part(box(0.0, 0.0, 0.03, 0.03), Pattern.SOLID),))
    for width, height in ((20, 8), (8, 20), (13, 13)):
        inked = dots(drawn_to_scale(square, Units.METRIC, width, height, blocks=False))
        across, down = max(map(sum, inked)), sum(map(any, inked))
        assert across == down == min(2 * width, 4 * height)


def test_an_area_has_its_share_of_the_dots() -> None:
    # A triangle of 20 x 10 mm fills half of what lies round it: 40 x 20 dots.
    wedge = Drawing("", (Part(((0.0, 0.0), (0.02, 0.005), (0.0, 0.01)), Pattern.SOLID),))
    inked = dots(drawn_to_scale(wedge, Units.METRIC, 20, 5, blocks=False))
    assert abs(sum(map(sum, inked)) - 400) <= 20


def test_steels_differ_without_colours_and_the_legend_tells_them() -> None:
    for blocks in (False, True):
        *rows, legend = drawn_to_scale(Drawing("", HALVES), Units.METRIC, 20, 6, blocks=blocks)
        middle = rows[2]
        assert len(set(middle[1:9])) == 1
        assert set(middle[1:9]).isdisjoint(middle[11:19])
        names = dict(part.split()[::-1] for part in legend.split("   "))
        assert names["steel"][0] == middle[4]
        assert names["iron"][0] in middle[11:19]


def test_dimensions_and_notes_are_written_where_they_belong() -> None:
    measures = (
        Measure((0.0, 0.0), (0.010, 0.0), lambda units: units.length(0.010)),
        Measure((0.0, 0.010), (0.020, 0.010), "both"),
        Measure((0.0199, 0.0), (0.020, 0.0), "a thin rim"),
        Measure((0.005, 0.0), (0.015, 0.0), "over"),
        Measure((0.020, 0.0), (0.020, 0.010), "high"),
    )
    drawing = Drawing("", HALVES, measures, (Note((0.015, 0.005), "here"),))
    head, *rows, foot, second, legend = filter(None, drawn_to_scale(drawing, Units.METRIC, 40, 12, blocks=True))
    side = rows[0].index("┐")
    whole = range(rows[4].index("█"), side - 1)
    assert (head.index("├"), head.index("┤")) == (whole[0], whole[-1])
    assert (foot.index("├"), foot.index("┤")) == (whole[0], whole[len(whole) // 2 - 1])
    assert " 10 mm " in foot
    assert "a thin rim │" in foot
    assert " over " in second, "it would have overlapped"
    assert rows[len(rows) // 2 - 1].endswith("│ high") or rows[len(rows) // 2].endswith("│ high")
    assert any(" here " in row[len(whole) // 2 : side] for row in rows)
    assert legend.startswith("██ steel")


def test_no_room_is_no_picture_and_no_fault() -> None:
    drawing = Drawing("", HALVES, (Measure((0.020, 0.0), (0.020, 0.010), "so high"),))
    assert drawn_to_scale(drawing, Units.METRIC, 10, 3, blocks=False) == ["", "", ""]
    assert drawn_to_scale(drawing, Units.METRIC, 40, 1, blocks=False) == [""]


def test_dimensions_in_a_row_share_their_ends() -> None:
    row = (Measure((0.0, 0.0), (0.010, 0.0), "one"), Measure((0.010, 0.0), (0.020, 0.0), "two"))
    foot = next(
        line for line in drawn_to_scale(Drawing("", HALVES, row), Units.METRIC, 30, 20, blocks=True) if "├" in line
    )
    assert foot.count("├") == foot.count("┼") == foot.count("┤") == 1
    assert foot.index("one") < foot.index("┼") < foot.index("two")
