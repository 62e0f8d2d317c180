"""Setting values in the text of a plan, as TOML holds them: whether they make sense is not looked at.

What is not touched stays byte for byte, comments and order too; that the text then says what it shall is checked.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import replace
from typing import Any, Final, NamedTuple

from plans.editing.layout import placed, value_text
from plans.editing.segments import Segment, joined, line_end, segments_of
from plans.errors import Fault, FaultKind, PlanError
from plans.reader import Key, Line, ManyNested, Nested, PlanKeys, keys_of
from plans.shown import counted
from plans.text import plain
from plans.toml import KeyPath, TomlChangeError, TomlError, TomlText, key_text, parse_toml, put, taken_out

FILE: Final = "plan"
"""What an error calls the text: it need not be in a file yet."""


class Comment(NamedTuple):
    """A comment on a key."""

    text: str
    """What it says; empty for none."""
    over: str | None = None
    """What the one at the end of the line must say to be replaced; None for any."""


def with_values(text: str, values: Mapping[KeyPath, Any], comments: Mapping[KeyPath, Comment] | None = None) -> str:
    """The text of a plan with values set as TOML holds them; whether they make sense is not looked at.

    Args:
        text: of the plan
        values: by path; None takes a key out
        comments: what comes to stand beside each, or above it where there is no room; what stands at the end of its
            line stays where there is none

    Raises:
        PlanError: the text is no TOML, or a value can't be set as it is written.
    """
    editing = _Editing(parsed(text))
    for path, value in values.items():
        editing.set(path, value, (comments or {}).get(path))
    return sound(joined(editing.segments), editing.values)


def key_at(path: KeyPath) -> Key | None:
    """What is declared of a key of a plan file, by its path in the file; None where there is no such key."""
    declared: Any = PlanKeys
    found = None
    for part in path:
        if isinstance(part, int):
            continue
        found = next((one for one in keys_of(declared).values() if one.name == part), None) if declared else None
        declared = found.value.keys if found and isinstance(found.value, Nested | ManyNested) else None
    return found


def parsed(text: str) -> TomlText:
    """What the text of a plan says.

    Raises:
        PlanError: it is no TOML.
    """
    try:
        return parse_toml(text, FILE)
    except TomlError as error:
        raise PlanError([error.fault]) from None


def sound(text: str, wanted: Mapping[str, Any]) -> str:
    """The text, if it says what it shall.

    Raises:
        PlanError: it does not, since the plan is written in a way that can't be edited.
    """
    try:
        if tomllib.loads(text) == wanted:
            return text
    except (ValueError, RecursionError):
        pass
    raise refusal("", "", "this can't be changed, as the plan is written", "change it in the file, by hand")


def place_of(values: Mapping[str, Any], path: KeyPath) -> tuple[str, str]:
    """What an error calls the part of a plan that a key stands in, e.g. `step 2 "Set the weld"`, and the key."""
    if len(path) < 2 or not isinstance(path[1], int):
        return "", key_text(path)
    table = values[str(path[0])][path[1]]
    name = plain(str(table.get("title", table.get("name", "")))) if isinstance(table, dict) else ""
    return f'{path[0]} {path[1] + 1} "{name}"', key_text(path[2:])


def check_there(values: Mapping[str, Any], path: KeyPath) -> None:
    """Check that a plan has the step or bar that a path leads into.

    Raises:
        PlanError: it has none.
    """
    if len(path) < 2 or not isinstance(path[1], int):
        return
    there = values.get(str(path[0]))
    count = len(there) if isinstance(there, list) else 0
    if not 0 <= path[1] < count:
        raise refusal("", "", f"there is no {path[0]} {path[1] + 1}", f"it has {counted(count, str(path[0]))}")


def refusal(where: str, key: str, what: str, hint: str) -> PlanError:
    """The error that says why nothing has been changed; the arguments are those of `Fault`."""
    return PlanError([Fault(FILE, None, where, key, what, hint, FaultKind.VALUE)])


class _Editing:
    """A plan's text while values are set in it, one after the other."""

    def __init__(self, toml: TomlText) -> None:
        self.segments = segments_of(toml.text)
        self.values = deepcopy(toml.values)
        """What the text has to mean when it is done."""
        self.end = line_end(toml.text)

    def set(self, path: KeyPath, value: Any, comment: Comment | None) -> None:
        """Set a value, or take it out where it is None; the comment is that of `with_values`."""
        check_there(self.values, path)
        try:
            if value is None:
                path = _emptied(self.values, path)
                self._edit(path, taken_out)
                _table(self.values, path).pop(path[-1], None)
            else:
                self._put(path, value, comment)
        except TomlChangeError:
            where, key = place_of(self.values, path)
            what = "can't be changed, as the plan is written there"
            raise refusal(where, key, what, "change it in the file, by hand") from None

    def _put(self, path: KeyPath, value: Any, comment: Comment | None) -> None:
        one = key_at(path)
        written = value_text(one.value if one else Line(0), value)
        value = tomllib.loads(f"value = {written}")["value"]
        below = _above(path, _table(deepcopy(self.values), path))
        beside, above = (None, []) if comment is None else placed(f"{path[-1]} = {written}", comment.text)
        over = None if comment is None else comment.over

        def edit(toml: TomlText, at: KeyPath) -> str:
            return put(toml, at, value, written=written, below=below, beside=beside, over=over, above=above)

        self._edit(path, edit)
        _table(self.values, path)[path[-1]] = value

    def _edit(self, path: KeyPath, edit: Callable[[TomlText, KeyPath], str]) -> None:
        """Edit the one segment that a key's table stands in, or the whole text where it stands in none of its own.

        In a segment tomlkit sees nothing of the rest, and takes a tenth of the time.
        """
        at = _alone(self.segments, path)
        if at is None:
            self.segments = segments_of(edit(parsed(joined(self.segments)), path))
            return
        there = self.segments[at]
        inner = (path[0], 0, *path[2:]) if path[0] in ("step", "bar") else path
        text = edit(parsed(_with_end(there.text, self.end)), inner)
        self.segments[at] = replace(there, text=text.rstrip() + self.end)


def _emptied(values: Mapping[str, Any], path: KeyPath) -> KeyPath:
    """The path of what goes with a key that is taken out: its table, where it is the only one in a table of a step."""
    inside = len(path) > 3 and isinstance(path[1], int)
    return path[:-1] if inside and set(_table(values, path)) == {path[-1]} else path


def _table(values: Any, path: KeyPath) -> Any:
    """The table that a key stands in; where there is none, it is made."""
    for part in path[:-1]:
        values = values[part] if isinstance(part, int) else values.setdefault(part, {})
        if not isinstance(values, dict | list):
            return {}
    return values


def _written(path: KeyPath, value: Any) -> str:
    one = key_at(path)
    return value_text(one.value if one else Line(0), value)


def _above(path: KeyPath, table: Mapping[str, Any]) -> str:
    """The last key that stands in a table and is declared before another one; empty where there is none."""
    outer = key_at(path[:-1])
    declared = outer.value.keys if outer and isinstance(outer.value, Nested | ManyNested) else PlanKeys
    found = ""
    for one in keys_of(declared).values():
        if one.name == path[-1]:
            break
        if one.name in table and not isinstance(one.value, Nested | ManyNested):
            found = one.name
    return found


def _alone(segments: list[Segment], path: KeyPath) -> int | None:
    """The number of the one segment that a key's table stands in; None where it stands in several or has none."""
    table = path[:2] if path[0] in ("step", "bar") else path[:1] if len(path) > 1 else ()
    found = [index for index, one in enumerate(segments) if one.path[: len(table)] == table and (table or not index)]
    return found[0] if len(found) == 1 and segments[found[0]].path == table else None


def _with_end(text: str, end: str) -> str:
    return text if not text or text.endswith("\n") else text + end
