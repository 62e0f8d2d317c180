"""The tally of heats, as chalked on the anvil block: strokes, and every fifth across the four."""

from __future__ import annotations

from rich.cells import cell_len
from textual.content import Content

_CHALK = {"stroke": "|", "five": "─┼┼┼┼─", "begun": "╷", "planned": "·"}
_ASCII = {"stroke": "|", "five": "-++++-", "begun": ",", "planned": "."}


def tally_text(done: int, planned: int, current: bool, *, width: int | None = None, blocks: bool = False) -> Content:
    """Strokes for what is done, a short one for what is under way, faint dots for what is planned beyond that.

    Args:
        done: finished heats
        planned: planned heats, done ones included
        current: whether one more is under way
        width: where the strokes take more cells than this, figures take their place
        blocks: plain ASCII
    """
    chalk = _ASCII if blocks else _CHALK
    fives, rest = divmod(done, 5)
    groups = [chalk["five"]] * fives
    faint = chalk["planned"] * max(0, planned - done - current)
    last = chalk["stroke"] * rest + (chalk["begun"] if current else "")
    strokes = " ".join([*groups, last] if last else groups)
    if width is not None and cell_len(strokes) + len(faint) > width:
        return Content(f"{done} of {planned}")
    return Content.assemble((strokes, "bold"), (faint, "dim"))
