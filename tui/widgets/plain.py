"""Text cut or padded to a width on the screen, where one character may take two cells or none."""

from __future__ import annotations

from rich.cells import cell_len, set_cell_size


def clip(text: str, width: int) -> str:
    """`text` cut to at most `width` cells, with an ellipsis where something was cut off."""
    if width <= 0:
        return ""
    if cell_len(text) <= width:
        return text
    return set_cell_size(text, width - 1).rstrip() + "…"


def fill(text: str, width: int) -> str:
    """`text` clipped or padded with spaces to exactly `width` cells."""
    clipped = clip(text, width)
    return clipped + " " * (width - cell_len(clipped))
