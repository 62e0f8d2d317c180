"""Setting one value in a TOML text, while all else that stands in it stays: comments, order, spaces, line ends."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Callable, Sequence
from copy import deepcopy
from datetime import datetime
from typing import Any, Final, NamedTuple

from plans.errors import PlansError
from plans.toml.faults import key_text
from plans.toml.file import TomlText
from plans.toml.key_lines import KeyPath, comments_in

Scalar = str | int | float | bool | datetime
"""What can be set in a file of settings."""


_LONE_FEED: Final = re.compile(r"(?<!\r)\n")


class _Put(NamedTuple):
    """What is put under a key, and how; the attributes are the arguments of `put`."""

    item: Any
    """The value as tomlkit has it."""
    note: str
    below: str
    beside: str | None
    over: str | None
    above: Sequence[str] = ()
    """Comments that come to stand above it as they are."""


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
    there = value_at(toml.values, path)
    if isinstance(there, list):
        raise TomlChangeError(f"{toml.file}: {key_text(path)} holds more than one value")
    return put(toml, path, value, note=note, below=below, beside="")


def put(
    toml: TomlText,
    path: KeyPath,
    value: Any,
    *,
    written: str = "",
    note: str = "",
    below: str = "",
    beside: str | None = None,
    over: str | None = None,
    above: Sequence[str] = (),
) -> str:
    """The text with a value set anew, a list as well, whatever stood there before but a table.

    Comments between the lines of a list that goes come to stand above the new value.

    Args:
        toml, note, below: as of `changed`
        path: what leads to the value: bare keys, and indices in arrays of tables that are there; the last part a key
        value: what it is to be: a text, a number, true or false, or a list of those
        written: how it is written in TOML; as is usual where empty
        beside: the comment at the end of its line; None for the one that is there, and empty for none
        over: the comment that `beside` replaces, which stays where it is another one; None for any
        above: comments that come to stand in lines above it, each with its "#"

    Raises:
        TomlChangeError: a table stands there, or what would have to be a table is none.
    """
    wanted = _wanted(toml, path, value)
    end = "\r\n" if "\r\n" in toml.text else "\n"
    written = written.replace("\n", end)

    def edited(more: Sequence[str] = ()) -> str:
        import tomlkit

        item = tomlkit.value(written) if written else tomlkit.item(value)
        return _edited(
            _with_table(toml, path[:-1], end), path, _Put(item, note, below, beside, over, (*more, *above)), end
        )

    text = _if_sound(toml, edited, wanted)
    if text is not None and beside is None:
        lost = Counter(comments_in(toml.text)) - Counter(comments_in(text))
        text = _if_sound(toml, lambda: edited(list(lost.elements())), wanted) if lost else text
    if text is None:
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
    if isinstance(toml.values.get(key), dict | list):
        raise TomlChangeError(f"{toml.file}: {key} holds more than one value")
    return taken_out(toml, (key,))


def taken_out(toml: TomlText, path: KeyPath) -> str:
    """The text without a value or table, and without the comments on its own lines; as it was if there is none.

    Args:
        toml: the text as it was read
        path: what leads to it: bare keys, and indices in arrays of tables; the last part a key

    Raises:
        TomlChangeError: it can't be taken out as the text is written.
    """
    wanted = deepcopy(toml.values)
    table = value_at(wanted, path[:-1])
    if not isinstance(table, dict) or path[-1] not in table:
        return toml.text
    del table[path[-1]]

    def edited() -> str:
        import tomlkit

        document = tomlkit.parse(toml.text)
        _inside(document, path[:-1]).remove(path[-1])
        return tomlkit.dumps(document)

    text = _if_sound(toml, edited, wanted)
    if text is None:
        raise TomlChangeError(f"{toml.file}: {key_text(path)} can't be taken out, as this file is written")
    return text


def _if_sound(toml: TomlText, edited: Callable[[], str], wanted: dict[str, Any]) -> str | None:
    """An edited text, if it says what it shall; None where it does not, or can't be edited."""
    from tomlkit.exceptions import TOMLKitError  # it takes 20 ms to load, and most runs write nothing

    try:
        text = edited()
        if "\r\n" in toml.text and not _LONE_FEED.search(toml.text):
            text = _LONE_FEED.sub("\r\n", text)  # tomlkit does not ask how lines end
        return text if tomllib.loads(text) == wanted else None
    except (TOMLKitError, ValueError, RecursionError):
        return None


def value_at(values: Any, path: KeyPath) -> Any:
    """What stands there in what tomllib has read; None where nothing does."""
    for part in path:
        try:
            values = values[part]
        except (KeyError, IndexError, TypeError):
            return None
    return values


def _inside(document: Any, path: KeyPath) -> Any:
    for part in path:
        document = document[part]
    return document


def _wanted(toml: TomlText, path: KeyPath, value: Any) -> dict[str, Any]:
    """What the text has to mean when it is changed."""
    wanted = deepcopy(toml.values)
    table: Any = wanted
    for count, part in enumerate(path[:-1], 1):
        table = table[part] if isinstance(part, int) else table.setdefault(part, {})
        if not isinstance(table, list if isinstance(path[count], int) else dict):
            raise TomlChangeError(f"{toml.file}: {key_text(path[:count])} is no table")
    if isinstance(table.get(path[-1]), dict):
        raise TomlChangeError(f"{toml.file}: {key_text(path)} holds more than one value")
    table[path[-1]] = value
    return wanted


def _with_table(toml: TomlText, path: KeyPath, end: str) -> str:
    """The text, with an empty table at its end where there is none of that path."""
    table: Any = toml.values
    for part in path:
        if isinstance(table, dict) and part not in table:
            gap = "" if not toml.text or toml.text.endswith("\n") else end
            return f"{toml.text}{gap}{end}[{'.'.join(name for name in path if isinstance(name, str))}]{end}"
        table = table[part]
    return toml.text


def _edited(text: str, path: KeyPath, put: _Put, end: str) -> str:
    import tomlkit
    from tomlkit.items import AbstractTable, Comment, Item, Table

    document = tomlkit.parse(text)
    table: Any = _inside(document, path[:-1])
    name = str(path[-1])
    # None for a table whose parts stand in several places
    lines = document if table is document else table.value if isinstance(table, AbstractTable) else None
    if lines is None or not (table is document or (isinstance(table, Table) and not table.is_super_table())):
        table[name] = put.item
        return tomlkit.dumps(document)
    if name in table:
        table[name] = put.item
    else:
        put.item.trivia.trail = end
        after = (index for index, (key, _) in enumerate(lines.body, 1) if key is not None and key.key == put.below)
        lines.body.insert(next(after, 0), (tomlkit.key(name), put.item))
    at = next(index for index, (key, _) in enumerate(lines.body) if key is not None and key.key == name)
    there = lines.body[at][1]
    says = there.trivia.comment.removeprefix("#").strip() if isinstance(there, Item) else ""
    if put.beside is not None and isinstance(there, Item) and put.over in (None, says):
        there.trivia.comment_ws = "  " if put.beside else ""
        there.trivia.comment = f"# {put.beside}" if put.beside else ""
    if put.note:
        word = f"# {put.note.split()[0]} "
        while at > 0 and isinstance(over := lines.body[at - 1][1], Comment) and over.trivia.comment.startswith(word):
            at -= 1
            del lines.body[at]
    for said in (*put.above, *([f"# {put.note}"] if put.note else [])):
        comment = tomlkit.comment("")
        comment.trivia.comment, comment.trivia.trail = said, end
        lines.body.insert(at, (None, comment))
        at += 1
    return tomlkit.dumps(document)
