"""Changing figures and texts of a plan's file: whatever is not touched stays byte for byte, comments and order too.

Each function takes the text of a plan and gives the new one, which has been read to its end: what the reader refuses
is refused here, in its own words, and nothing has changed then. Several keys can be set at once, since some make sense
only together, such as a fire and the heat below it.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from plans.editing.figures import figures_of
from plans.editing.plan_toml import MADE_FROM, table_lines
from plans.editing.segments import Segment, joined, line_end, segments_of
from plans.editing.setting import FILE, Comment, key_at, parsed, refusal, sound, with_values
from plans.editing.typed import typed_value
from plans.errors import PlanError
from plans.reader import read_keys, read_plan
from plans.text import plain
from plans.toml import KeyPath, TomlFaults, TomlTable
from plans.units import Units

if TYPE_CHECKING:
    from _typeshed import DataclassInstance


def with_keys(
    text: str,
    typed: Mapping[KeyPath, str | None],
    comment: str | None = None,
    reasons: Mapping[KeyPath, str] | None = None,
) -> str:
    """The plan with keys set as a person types them, or taken out.

    Args:
        text: of the plan
        typed: what was typed, by the key's path as it stands in the file, e.g. ("step", 2, "air", "until") or
            ("title",); None takes the key out, with a comment on its line
        comment: what comes to stand at the end of each line, or above it where there is no room; None to leave what
            stands there
        reasons: why keys were as they were, where that is known: a comment at the end of a line that says just this is
            taken away with what it was about

    Raises:
        PlanError: the plan is none then, or was none before; it holds every fault.
    """
    values: dict[KeyPath, Any] = {}
    comments = {path: Comment("", plain(why)) for path, why in (reasons or {}).items() if path in typed}
    if comment is not None:
        comments = dict.fromkeys(typed, Comment(comment))
    for path, one in typed.items():
        key = key_at(path)
        values[path] = None if one is None else typed_value(key.value if key else None, one)
    return checked(with_values(text, values, comments))


def with_made_from(text: str, answers: DataclassInstance, units: Units, *, check: bool = True) -> str:
    """The plan with the answers that it is made from, those that differ in place of those it had.

    Args:
        text: of the plan
        answers: an object of the dataclass that declares them
        units: in which quantities are written
        check: whether the plan has to make sense then

    Raises:
        PlanError: the plan is none, or its answers can't be changed as they are written.
    """
    toml = parsed(text)
    there = toml.values.get(MADE_FROM)
    if isinstance(there, dict):
        table = TomlTable(TomlFaults(toml), (MADE_FROM,), there)
        old, new = figures_of(read_keys(table, type(answers))), figures_of(answers)
        text = with_values(
            text, {(MADE_FROM, *path): new[path].written(units) for path in new if not old[path].is_same(new[path])}
        )
    else:
        end = line_end(text)
        lines = table_lines(f"[{MADE_FROM}]", answers, units)[1:]
        segments = segments_of(toml.text)
        segments[-1] = replace(segments[-1], gap=segments[-1].gap or end)
        segment = Segment((MADE_FROM,), end.join(lines) + end, "")
        text = sound(joined([*segments, segment]), {**toml.values, **tomllib.loads(segment.text)})
    return checked(text) if check else text


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
