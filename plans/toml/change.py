"""Setting one value in a TOML text, while all else that stands in it stays: comments, order, spaces, line ends."""

from __future__ import annotations

import tomllib
from copy import deepcopy
from typing import Any

from plans.errors import PlansError
from plans.toml.faults import key_text
from plans.toml.file import TomlText

Scalar = str | int | float | bool
"""What can be set."""


class TomlChangeError(PlansError):
    """A value can't be set, since the text holds something else in its place; says what stands where."""


def changed(toml: TomlText, path: tuple[str, ...], value: Scalar, note: str = "", below: str = "") -> str:
    """The text with one value set anew.

    A key that is there keeps its place, but loses a comment on its own line, which was on the old value. A new one
    becomes the first of its table, or stands below another, and a new table the last of the text.

    Args:
        toml: the text as it was read
        path: the keys that lead to the value, the last one its own; each a bare key
        value: what it is to be
        note: a comment to put in the line above, in place of those right above it that begin with the same word; none
            is put where the key has no line of its own
        below: a key of the same table, below which a new one is put where that key has a line

    Raises:
        TomlChangeError: a table or list stands there, or what would have to be a table is none.
    """
    from tomlkit.exceptions import TOMLKitError  # it takes 20 ms to load, and most runs write nothing

    wanted = _wanted(toml, path, value)
    end = "\r\n" if "\r\n" in toml.text else "\n"
    try:
        text = _edited(_with_table(toml, path[:-1], end), path, value, note, below, end)
        sound = tomllib.loads(text) == wanted
    except (TOMLKitError, ValueError, RecursionError):
        sound = False
    if not sound:
        raise TomlChangeError(f"{toml.file}: {key_text(path)} can't be set, as this file is written")
    return text


def without(toml: TomlText, key: str) -> str:
    """The text without a value of its top table, and without the comment on the same line; as it was if there is none.

    Args:
        toml: the text as it was read
        key: the key that leads to the value; a bare key

    Raises:
        TomlChangeError: a table or list stands there, or it can't be taken out as the text is written.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    if key not in toml.values:
        return toml.text
    if isinstance(toml.values[key], dict | list):
        raise TomlChangeError(f"{toml.file}: {key} holds more than one value")
    try:
        document = tomlkit.parse(toml.text)
        document.remove(key)
        text = tomlkit.dumps(document)
        sound = tomllib.loads(text) == {name: value for name, value in toml.values.items() if name != key}
    except (TOMLKitError, ValueError, RecursionError):
        sound = False
    if not sound:
        raise TomlChangeError(f"{toml.file}: {key} can't be taken out, as this file is written")
    return text


def _wanted(toml: TomlText, path: tuple[str, ...], value: Scalar) -> dict[str, Any]:
    """What the text has to mean when it is changed."""
    wanted = deepcopy(toml.values)
    table = wanted
    for count, part in enumerate(path[:-1], 1):
        table = table.setdefault(part, {})
        if not isinstance(table, dict):
            raise TomlChangeError(f"{toml.file}: {key_text(path[:count])} is no table")
    if isinstance(table.get(path[-1]), dict | list):
        raise TomlChangeError(f"{toml.file}: {key_text(path)} holds more than one value")
    table[path[-1]] = value
    return wanted


def _with_table(toml: TomlText, path: tuple[str, ...], end: str) -> str:
    """The text, with an empty table at its end where there is none of that path."""
    table: Any = toml.values
    for part in path:
        if part not in table:
            gap = "" if not toml.text or toml.text.endswith("\n") else end
            return f"{toml.text}{gap}{end}[{'.'.join(path)}]{end}"
        table = table[part]
    return toml.text


def _edited(text: str, path: tuple[str, ...], value: Scalar, note: str, below: str, end: str) -> str:
    import tomlkit
    from tomlkit.items import AbstractTable, Comment, Item, Table

    document = tomlkit.parse(text)
    table: Any = document
    for part in path[:-1]:
        table = table[part]
    name = path[-1]
    item = tomlkit.item(value)
    # None for a table whose parts stand in several places
    lines = document if table is document else table.value if isinstance(table, AbstractTable) else None
    has_lines = table is document or (isinstance(table, Table) and not table.is_super_table())
    if name in table or lines is None or not has_lines:
        table[name] = item
        if lines is not None and isinstance(there := lines.item(name), Item):
            there.trivia.comment_ws = there.trivia.comment = ""
    else:
        item.trivia.trail = end
        after = (index for index, (key, _) in enumerate(lines.body, 1) if key is not None and key.key == below)
        lines.body.insert(next(after, 0), (tomlkit.key(name), item))
    if note and lines is not None and has_lines:
        at = next(index for index, (key, _) in enumerate(lines.body) if key is not None and key.key == name)
        word = f"# {note.split()[0]} "
        while at > 0 and isinstance(above := lines.body[at - 1][1], Comment) and above.trivia.comment.startswith(word):
            at -= 1
            del lines.body[at]
        comment = tomlkit.comment(note)
        comment.trivia.trail = end
        lines.body.insert(at, (None, comment))
    return tomlkit.dumps(document)
