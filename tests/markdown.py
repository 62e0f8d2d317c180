"""A table in Markdown, as the tools beside the tests print it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain


def table(headings: Sequence[str], widths: Sequence[int], rows: Iterable[Sequence[str]]) -> Iterator[str]:
    """The lines of a table, each as soon as its row is there.

    Args:
        headings: one for each column
        widths: how wide each column is drawn at least [characters]
        rows: the cells, as text
    """
    for row in chain([headings, ["-" * width for width in widths]], rows):
        yield "| " + " | ".join(text.ljust(width) for text, width in zip(row, widths, strict=True)) + " |"
