"""A drawing to scale in a terminal: each steel in its own pattern of dots, dimensions and a legend round it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import ClassVar, Final

from rich.segment import Segment
from textual.strip import Strip

from plans.drawing import Bounds, Drawing, Measure, Part, Pattern, lanes
from plans.record import record
from plans.text import plain
from plans.units import Units
from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.plain import clip

_LEAST = 3
"""Rows of a picture that are not given up for another line of dimensions."""
_ACROSS, _DOWN = 2, 4
"""Dots of a cell, which is about twice as high as it is wide: so they stand equally far apart both ways."""
_BITS: Final = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""Unicode, Braille Patterns: the bit of each dot, row by row."""
_INKED: Final[dict[Pattern, Callable[[int, int], bool]]] = {
    Pattern.SOLID: lambda _x, _y: True,
    Pattern.DOTTED: lambda x, y: y % 2 == 0 and (x + y) % 4 == 0,
    Pattern.HATCHED: lambda x, y: (x + y) % 4 == 1,
    Pattern.COUNTER: lambda x, y: (x - y) % 4 == 1,
    Pattern.LINED: lambda x, _y: x % 4 == 1,
    Pattern.CHECKED: lambda x, y: (x + y) % 2 == 0,
    Pattern.EMPTY: lambda _x, _y: False,
}
"""Which dots of a part are inked, by column and row."""
_BLOCKS: Final = {
    Pattern.SOLID: "█",
    Pattern.DOTTED: "░",
    Pattern.HATCHED: "/",
    Pattern.COUNTER: "\\",
    Pattern.LINED: "|",
    Pattern.CHECKED: "▒",
    Pattern.EMPTY: "·",
}
"""A character for each pattern, for fonts without the finer dots."""


@record(eq=False)
class ScaleDrawing:
    """What a `ScaleView` shows; equal only to itself."""

    drawing: Drawing | None = None
    """The drawing; None for nothing."""
    units: Units = Units.METRIC
    """In which its texts are written."""


class ScaleView(CachedDrawing):
    """The drawing as large as there is room for it.

    Args:
        blocks: whether patterns are drawn with blocks, for fonts without the finer dots
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {"scale--words"}
    DEFAULT_CSS = """
    ScaleView { width: 1fr; height: 1fr; }
    ScaleView > .scale--words { color: $text-muted; }
    """

    data: Shown[ScaleDrawing] = Shown(ScaleDrawing())

    def __init__(self, *, blocks: bool, id: str | None = None) -> None:
        super().__init__(id=id)
        self._blocks = blocks

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        if self.data.drawing is None:
            return [Strip.blank(width, self.look())] * height
        rows = drawn_to_scale(self.data.drawing, self.data.units, width, height, blocks=self._blocks)
        return [Strip(list(self._segments(row, width)), width) for row in rows]

    def _segments(self, row: str, width: int) -> Iterable[Segment]:
        """Words apart from what is drawn."""
        text, words = "", False
        for cell in row.ljust(width):
            word = not (cell == " " or "⠀" <= cell <= "⣿" or cell in _BLOCKS.values())
            if word != words and text:
                yield Segment(text, self.look("scale--words" if words else ""))
                text = ""
            text, words = text + cell, word
        yield Segment(text, self.look("scale--words" if words else ""))


def drawn_to_scale(drawing: Drawing, units: Units, width: int, height: int, *, blocks: bool) -> list[str]:
    """A drawing as `height` rows of no more than `width` cells; empty rows where there is no room for it.

    Args:
        drawing: what is drawn
        units: in which its texts are written
        width: cells across
        height: rows
        blocks: whether patterns are drawn with blocks, one a cell, in place of finer dots
    """
    legend = _legend(drawing, units, blocks)
    above, below = drawing.beside(level=True, far=True), drawing.beside(level=True, far=False)
    left, right = (_Gutter(drawing.beside(level=False, far=far), units, far=far) for far in (False, True))
    columns = width - left.width - right.width
    over, under = min(1, len(above)), min(1, len(below))
    while True:
        # The fewer lines of dimensions there are, the larger is the picture, and the more of them go on one line.
        rows = height - over - under - bool(legend)
        if rows < 1 or columns < 4:
            return [""] * height
        plot = _Plot(drawing.bounds, columns, rows, left.width)
        heads, feet = (_level(measures, plot, units, width) for measures in (above, below))
        if len(heads) <= over and len(feet) <= under:
            break
        if rows <= _LEAST:  # the last dimensions are left out rather than the picture
            heads, feet = heads[:over], feet[:under]
            break
        over, under = (over + 1, under) if len(heads) > over else (over, under + 1)
    cells = _cells(drawing, plot, blocks)
    for note in drawing.notes:
        _write(cells, plot, note.at, f" {plain(units.text(note.shown))} ")
    body = [f"{left.row(row, plot)}{''.join(line)}{right.row(row, plot)}".rstrip() for row, line in enumerate(cells)]
    found = [*heads[::-1], *body, *feet, *([clip(legend, width)] if legend else [])]
    return [*found, *[""] * (height - len(found))]


class _Plot:
    """From places in metres to dots and cells."""

    def __init__(self, bounds: Bounds, columns: int, rows: int, begin: int) -> None:
        self.bounds, self.begin = bounds, begin
        self.scale = min(columns * _ACROSS / bounds.width, rows * _DOWN / bounds.height)
        self.columns = min(columns, max(1, -(-round(bounds.width * self.scale) // _ACROSS)))
        self.rows = min(rows, max(1, -(-round(bounds.height * self.scale) // _DOWN)))
        # In the middle of its rows, so that what is alike above and below looks so.
        self._top = (self.rows * _DOWN - bounds.height * self.scale) / 2

    def dot_across(self, x: float) -> float:
        """Dots from the left edge."""
        return (x - self.bounds.left) * self.scale

    def dot_down(self, y: float) -> float:
        """Dots from the upper edge."""
        return self._top + (self.bounds.top - y) * self.scale

    def column(self, x: float) -> int:
        """The cell that a place lies in."""
        return min(self.columns - 1, max(0, int(self.dot_across(x) / _ACROSS - 1e-9)))

    def row(self, y: float) -> int:
        """The row that a place lies in."""
        return min(self.rows - 1, max(0, int(self.dot_down(y) / _DOWN - 1e-9)))


def _cells(drawing: Drawing, plot: _Plot, blocks: bool) -> list[list[str]]:
    dots = _filled(drawing.parts, plot)
    if blocks:
        return [[_block(dots, row, column) for column in range(plot.columns)] for row in range(plot.rows)]
    return [[_braille(dots, row, column) for column in range(plot.columns)] for row in range(plot.rows)]


def _filled(parts: Iterable[Part], plot: _Plot) -> list[list[Pattern | None]]:
    """The pattern of the uppermost part at each dot; None beside all."""
    dots: list[list[Pattern | None]] = [[None] * (plot.columns * _ACROSS) for _ in range(plot.rows * _DOWN)]
    for part in parts:
        corners = [(plot.dot_across(x), plot.dot_down(y)) for x, y in part.outline]
        edges = list(zip(corners, [*corners[1:], corners[0]], strict=True))
        for row, line in enumerate(dots):
            level = row + 0.5
            crossed = sorted(
                x + (level - y) / (next_y - y) * (next_x - x)
                for (x, y), (next_x, next_y) in edges
                if (y <= level) != (next_y <= level)
            )
            for begin, end in zip(crossed[::2], crossed[1::2], strict=True):
                first, last = max(0, round(begin)), min(len(line), round(end))
                line[first:last] = [part.pattern] * (last - first)
    return dots


def _braille(dots: list[list[Pattern | None]], row: int, column: int) -> str:
    bits = sum(
        bit
        for down, pair in enumerate(_BITS)
        for across, bit in enumerate(pair)
        if _is_inked(dots, column * _ACROSS + across, row * _DOWN + down)
    )
    return chr(0x2800 + bits) if bits else " "


def _is_inked(dots: list[list[Pattern | None]], x: int, y: int) -> bool:
    """Whether its pattern inks a dot, or it lies at the rim of the piece, which is seen whatever its pattern."""
    pattern = dots[y][x]
    if pattern is None:
        return False
    return _INKED[pattern](x, y) or any(
        not (0 <= side_y < len(dots) and 0 <= side_x < len(dots[0])) or dots[side_y][side_x] is None
        for side_x, side_y in ((x - 1, y), (x + 1, y), (x, y - 1), (x, y + 1))
    )


def _block(dots: list[list[Pattern | None]], row: int, column: int) -> str:
    """The character of what fills most of a cell; of two halves, the one that is steel."""
    there = [dots[row * _DOWN + down][column * _ACROSS + across] for down in range(_DOWN) for across in range(_ACROSS)]
    most = max(dict.fromkeys(there), key=lambda one: (there.count(one), one is not None))
    return " " if most is None else _BLOCKS[most]


def _write(cells: list[list[str]], plot: _Plot, at: tuple[float, float], text: str) -> None:
    """A text in the middle of a place, as much of it as there is room for."""
    text = clip(text, plot.columns)
    begin = min(plot.columns - len(text), max(0, round(plot.dot_across(at[0]) / _ACROSS - len(text) / 2)))
    cells[plot.row(at[1])][begin : begin + len(text)] = text


def _legend(drawing: Drawing, units: Units, blocks: bool) -> str:
    def sample(pattern: Pattern) -> str:
        if blocks:
            return _BLOCKS[pattern] * 2
        empty = pattern is Pattern.EMPTY
        dots: list[list[Pattern | None]] = [[pattern] * 8 for _ in range(_DOWN)] if empty else [[pattern] * 8] * 12
        return "".join(_braille(dots, 0 if empty else 1, column) for column in ((0, 3) if empty else (1, 2)))

    return "   ".join(f"{sample(part.pattern)} {plain(units.text(part.name))}" for part in drawing.named)


def _level(measures: Sequence[Measure], plot: _Plot, units: Units, width: int) -> list[str]:
    """Lines of dimensions that run level, the nearest to the picture first."""
    drawn, spans = [], []
    for one in measures:
        text = plain(units.text(one.shown))
        begin, end = (plot.begin + plot.column(at) for at in one.span)
        long = end - begin + 1
        if long >= len(text) + 4:
            drawn.append((begin, f"├{f' {text} '.center(long - 2, '─')}┤"))
            spans.append((begin, end))
            continue
        line = "├" + "─" * (long - 2) + "┤" if long > 1 else "│"
        if begin + long + 1 + len(text) <= width:
            drawn.append((begin, f"{line} {text}"))
        else:
            drawn.append((max(0, begin - len(text) - 1), f"{text} {line}"))
        spans.append((drawn[-1][0] - 1, drawn[-1][0] + len(drawn[-1][1])))
    places = lanes(spans)
    lines = [""] * (max(places, default=-1) + 1)
    for lane, (begin, text) in sorted(zip(places, drawn, strict=True), key=lambda one: one[1][0]):
        # Where one ends and the next begins they share a cell.
        joined = len(lines[lane]) == begin + 1 and lines[lane].endswith("┤")
        lines[lane] = f"{lines[lane][:-1]}┼{text[1:]}" if joined else lines[lane].ljust(begin) + text
    return [clip(line, width) for line in lines]


class _Gutter:
    """The dimensions that run upright on one side, one beyond the other."""

    def __init__(self, measures: Sequence[Measure], units: Units, *, far: bool) -> None:
        self._far = far
        self._all = [(one, plain(units.text(one.shown))) for one in measures]
        self.width = sum(len(text) + 4 for _, text in self._all)

    def row(self, row: int, plot: _Plot) -> str:
        """What stands there in one row of the picture."""
        parts = [self._one(one, text, row, plot) for one, text in (self._all if self._far else self._all[::-1])]
        return "".join(parts)

    def _one(self, one: Measure, text: str, row: int, plot: _Plot) -> str:
        bottom, top = (plot.row(at) for at in one.span)
        shown = text if row == (top + bottom) // 2 else ""
        mark = " "
        if top == bottom == row:
            mark = "]" if self._far else "["
        elif row in (top, bottom):
            mark = ("┐" if row == top else "┘") if self._far else ("┌" if row == top else "└")
        elif top < row < bottom:
            mark = "│"
        return f" {mark} {shown.ljust(len(text) + 1)}" if self._far else f" {shown.rjust(len(text))} {mark} "
