"""A plan's text in the pieces that can be moved: each table with its header, what belongs to it, and its comments."""

from __future__ import annotations

from collections.abc import Sequence

from plans.record import record
from plans.toml import KeyPath, table_headers


@record
class Segment:
    """One table of a text, with the tables within it that follow it, and the comment lines right above its header."""

    path: KeyPath
    """The path of its table; empty for what stands above the first header."""
    text: str
    """Its lines, without the empty ones behind it; each with its end, but for the last one of a text without one."""
    gap: str
    """The empty lines behind it."""


def segments_of(text: str) -> list[Segment]:
    """The segments of a TOML text in their order; the first one is that of the keys above the first header.

    Args:
        text: what `tomllib.loads` has read without an error
    """
    lines = _lines(text)
    begins: list[tuple[int, KeyPath]] = [(0, ())]
    for number, path in table_headers(text):
        last = begins[-1][1]
        if last and path[: len(last)] == last:
            continue
        begin = number - 1
        while begin > begins[-1][0] and lines[begin - 1].lstrip().startswith("#"):
            begin -= 1
        begins.append((begin, path))
    found = []
    for (begin, path), end in zip(begins, [*(begin for begin, _ in begins[1:]), len(lines)], strict=True):
        last_line = end
        while last_line > begin and not lines[last_line - 1].strip():
            last_line -= 1
        found.append(Segment(path, "".join(lines[begin:last_line]), "".join(lines[last_line:end])))
    return found


def joined(segments: Sequence[Segment]) -> str:
    """The text of segments in a row; one whose last line has no end gets one, unless it is the last."""
    parts = []
    for segment in segments[:-1]:
        end = "" if not segment.text or segment.text.endswith("\n") else "\n"
        parts.append(segment.text + end + segment.gap)
    return "".join(parts) + "".join(segment.text + segment.gap for segment in segments[-1:])


def line_end(text: str) -> str:
    """How the lines of a text end."""
    return "\r\n" if "\r\n" in text else "\n"


def _lines(text: str) -> list[str]:
    """The lines of a text with their ends; no other character than TOML's own parts them."""
    parts = text.split("\n")
    return [f"{part}\n" for part in parts[:-1]] + parts[-1:] if parts[-1] else [f"{part}\n" for part in parts[:-1]]
