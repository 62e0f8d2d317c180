"""How a plan's TOML is laid out, so that it reads as one that was written by hand."""

from __future__ import annotations

import re
from json import dumps
from textwrap import wrap
from typing import Any, Final

from plans.reader import Lines, Paragraphs, Value
from plans.text import plain

COLUMNS: Final = 118
"""Most characters of a line, where it can be broken."""


def comment_lines(text: str) -> list[str]:
    """A text as lines of comment, an empty one between paragraphs."""
    lines: list[str] = []
    for paragraph in text.split("\n\n"):
        lines += ["#"] if lines else []
        lines += [f"# {line}" for line in wrap(plain(paragraph), COLUMNS - 2, break_on_hyphens=False)]
    return lines


def key_lines_of(name: str, kind: Value, value: Any, why: str = "") -> list[str]:
    """A key as lines of a file, with a comment at its end, or above it where there is no room.

    Args:
        name: of the key
        kind: the type of its value
        value: as TOML holds it
        why: the comment; empty for none
    """
    text = f"{name} = {value_text(kind, value)}"
    beside, above = placed(text, why)
    return [*above, *f"{text}{f'  # {beside}' if beside else ''}".split("\n")]


def placed(text: str, why: str) -> tuple[str, list[str]]:
    """Where a comment on a key stands: at the end of its line, or else in lines above it; the other one is empty.

    Args:
        text: the key and its value as they are written
        why: the comment
    """
    said = plain(why)
    if "\n" not in text and len(text) + len(said) + 4 <= COLUMNS:
        return said, []
    return "", comment_lines(said)


def value_text(kind: Value, value: Any) -> str:
    """A value as TOML: paragraphs wrapped in lines of their own, a list of several texts one a line.

    Args:
        kind: the type of the value
        value: as TOML holds it: a text, a number, true or false, or a list of those
    """
    if isinstance(kind, Paragraphs) and isinstance(value, str):
        return _paragraphs(value, kind.longest)
    if isinstance(value, list):
        items = [_scalar(item) for item in value]
        line = f"[{', '.join(items)}]"
        if len(items) < 2 or (not isinstance(kind, Lines) and len(line) <= COLUMNS - 20):
            return line
        return "\n".join(["[", *(f"  {item}," for item in items), "]"])
    return _scalar(value)


def _scalar(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return str(value)


def _paragraphs(text: str, longest: int) -> str:
    wrapped = []
    for paragraph in text.split("\n\n"):
        # what stands in braces stays together: it is one figure
        whole = re.sub(r"\{[^{}\n]*\}", lambda found: found[0].replace(" ", "\x00"), paragraph)
        lines = wrap(whole, COLUMNS, break_long_words=False, break_on_hyphens=False)
        wrapped.append("\n".join(lines).replace("\x00", " "))
    inside = "\n\n".join(wrapped)
    last = "\n" if len(inside) < longest else ""
    escaped = inside.replace("\\", "\\\\").replace('"""', '""\\"')
    if not last and escaped.endswith('"'):
        escaped = escaped[:-1] + '\\"'
    return f'"""\n{escaped}{last}"""'
