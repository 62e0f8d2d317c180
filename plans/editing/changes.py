"""Changing figures and texts of a plan's file: whatever is not touched stays byte for byte, comments and order too.

Each function takes the text of a plan and gives the new one, which has been read to its end: what the reader refuses
is refused here, in its own words, and nothing has changed then. Several keys can be set at once, since some make sense
only together, such as a fire and the heat below it.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from plans.editing.layout import placed, value_text
from plans.editing.plan_toml import MADE_FROM, table_lines
from plans.editing.segments import Segment, joined, line_end, segments_of
from plans.editing.typed import typed_value
from plans.errors import Fault, FaultKind, PlanError
from plans.reader import Key, Line, ManyNested, Nested, PlanKeys, keys_of, read_plan
from plans.shown import counted
from plans.text import plain
from plans.toml import KeyPath, TomlChangeError, TomlError, TomlText, key_text, parse_toml, put, taken_out
from plans.units import Units

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

FILE: Final = "plan"
"""What an error calls the text: it need not be in a file yet."""


def with_keys(text: str, typed: Mapping[KeyPath, str | None], comment: str | None = None) -> str:
    """The plan with keys set as a person types them, or taken out.

    Args:
        text: of the plan
        typed: what was typed, by the key's path as it stands in the file, e.g. ("step", 2, "air", "until") or
            ("title",); None takes the key out, with a comment on its line
        comment: what comes to stand at the end of each line, or above it where there is no room; None to leave what
            stands there

    Raises:
        PlanError: the plan is none then, or was none before; it holds every fault.
    """
    values: dict[KeyPath, Any] = {}
    for path, one in typed.items():
        key = key_at(path)
        values[path] = None if one is None else typed_value(key.value if key else None, one)
    return checked(with_values(text, values, {} if comment is None else dict.fromkeys(typed, comment)))


def with_made_from(text: str, answers: DataclassInstance, units: Units, *, check: bool = True) -> str:
    """The plan with the answers that it was made from, in place of those it had.

    Args:
        text: of the plan
        answers: an object of a dataclass that declares keys
        units: in which quantities are written
        check: whether the plan has to make sense then

    Raises:
        PlanError: the plan is none, or its answers can't be replaced as they are written.
    """
    values = parsed(text).values
    end = line_end(text)
    lines = table_lines(f"[{MADE_FROM}]", answers, units)[1:]
    segment = Segment((MADE_FROM,), end.join(lines) + end, "")
    old = segments_of(text)
    kept = [one for one in old if one.path[:1] != (MADE_FROM,)]
    if len(kept) == len(old) and MADE_FROM in values:
        raise refusal("", MADE_FROM, "stands among other keys", f"write it as a table of its own, [{MADE_FROM}]")
    kept[-1] = replace(kept[-1], gap=kept[-1].gap or end)
    changed = joined([*kept, segment])
    wanted = {**values, MADE_FROM: tomllib.loads(segment.text)[MADE_FROM]}
    changed = sound(changed, wanted)
    return checked(changed) if check else changed


def with_values(text: str, values: Mapping[KeyPath, Any], comments: Mapping[KeyPath, str] | None = None) -> str:
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


def checked(text: str) -> str:
    """The text of a plan, if the plan can be followed.

    Raises:
        PlanError: it can't; the faults have no line, since the text is not in the file.
    """
    try:
        text.encode()
    except UnicodeEncodeError:
        raise refusal("", "", "a text holds half a character", "type it again") from None
    try:
        read_plan(text, "", FILE)
    except PlanError as error:
        raise PlanError([replace(fault, line=None) for fault in error.faults]) from None
    return text


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

    def set(self, path: KeyPath, value: Any, comment: str | None) -> None:
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

    def _put(self, path: KeyPath, value: Any, comment: str | None) -> None:
        one = key_at(path)
        written = value_text(one.value if one else Line(0), value)
        value = tomllib.loads(f"value = {written}")["value"]
        below = _above(path, _table(deepcopy(self.values), path))
        beside, above = (None, []) if comment is None else placed(f"{path[-1]} = {written}", comment)

        def edit(toml: TomlText, at: KeyPath) -> str:
            return put(toml, at, value, written=written, below=below, beside=beside, above=above)

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
