"""Adding, taking out, moving and repeating the steps and bars of a plan, each with all that is written of it.

As in plans/editing/changes.py each function goes from text to text, and refuses what the reader refuses. A step's
comments go with it: those among its lines, and those right above its header.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final, Literal

from plans.editing.changes import checked
from plans.editing.plan_toml import table_lines
from plans.editing.segments import Segment, joined, line_end, segments_of
from plans.editing.setting import FILE, check_there, parsed, place_of, refusal, sound, with_values
from plans.reader import AUTO, read_plan
from plans.units import Units

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Part = Literal["step", "bar"]
"""What a plan has several of, one after the other."""

_AGAIN: Final = ", again"
_LONGEST: Final = 60


def added(
    text: str,
    part: Part,
    at: int,
    keys: DataclassInstance,
    units: Units,
    why: Mapping[str, str] | None = None,
) -> str:
    """The plan with one step or bar more.

    Args:
        text: of the plan
        part: what is added
        at: the number that it shall have, from 0 to how many there are
        keys: what it holds: a `StepKeys` or `BarKeys`
        units: in which quantities are written
        why: comments by the attribute, as of `DraftTable`

    Raises:
        PlanError: the plan is none then, or is written in a way that this can't be done; it holds every fault.
    """
    return checked(inserted(text, part, at, keys, units, why))


def inserted(
    text: str,
    part: Part,
    at: int,
    keys: DataclassInstance,
    units: Units,
    why: Mapping[str, str] | None = None,
) -> str:
    """As `added`, but whether the plan makes sense then is not looked at."""
    end = line_end(text)
    lines = table_lines(f"[[{part}]]", keys, units, why)[1:]
    return _with_segment(text, part, at, end.join(lines) + end)


def removed(text: str, part: Part, index: int) -> str:
    """The plan without a step or bar, by its number from 0.

    The section that a step says it begins with goes to the next one in the fire, where that says none of its own.

    Raises:
        PlanError: the plan is none then, or is written in a way that this can't be done; it holds every fault.
    """
    rest = cut(text, part, index)
    if part == "step":
        begins = parsed(text).values["step"][index]
        heir = _heir(text, index) if "section" in begins else None
        if heir is not None:
            keys = [key for key in ("section", "length") if key in begins]
            rest = with_values(rest, {("step", heir - 1, key): begins[key] for key in keys})
    return checked(rest)


def _heir(text: str, index: int) -> int | None:
    """The number of the step that takes over what a step leaves in the fire; None where there is none."""
    steps = parsed(text).values["step"]
    plan = read_plan(text, "", FILE)
    for number in range(index + 1, len(steps)):
        if "section" in steps[number]:
            return None
        if plan.steps[number].targets:
            return number
    return None


def cut(text: str, part: Part, index: int) -> str:
    """As `removed`, but whether the plan makes sense then is not looked at."""
    segments, places = _places(text, part, index)
    at = places[index]
    gaps = [one.gap for one in segments]
    gaps.pop(at if at < len(gaps) - 1 else at - 1)
    segments.pop(at)
    return _edited(text, part, segments, gaps, lambda items: items.pop(index))


def moved(text: str, part: Part, index: int, to: int) -> str:
    """The plan with a step or bar at another place.

    Args:
        text: of the plan
        part: what is moved
        index: its number, from 0
        to: the number that it shall have then, from 0

    Raises:
        PlanError: the plan is none then, or is written in a way that this can't be done; it holds every fault.
    """
    return checked(shifted(text, part, index, to))


def shifted(text: str, part: Part, index: int, to: int) -> str:
    """As `moved`, but whether the plan makes sense then is not looked at."""
    segments, places = _places(text, part, index)
    check_there(parsed(text).values, (part, to))
    gaps = [one.gap for one in segments]
    segments.insert(places[to], segments.pop(places[index]))
    return _edited(text, part, segments, gaps, lambda items: items.insert(to, items.pop(index)))


def repeated(text: str, part: Part, index: int) -> str:
    """The plan with a step or bar once more, right below: its title or name then says "again".

    Raises:
        PlanError: the plan is none then, or is written in a way that this can't be done; it holds every fault.
    """
    copy = copied(text, part, index, _AGAIN)
    written = parsed(text).values[part][index]
    if written.get("heats") == AUTO and "section" not in written:
        # It begins with the section that it ends with: its heats can't be told from that any more.
        copy = with_values(copy, {(part, index + 1, "heats"): read_plan(text, "", FILE).steps[index].heats})
    return checked(copy)


def copied(text: str, part: Part, index: int, more: str) -> str:
    """As `repeated`, with `more` behind the title or name; whether the plan makes sense then is not looked at."""
    segments, places = _places(text, part, index)
    text = _with_segment(text, part, index + 1, segments[places[index]].text)
    key = "title" if part == "step" else "name"
    title = str(parsed(text).values[part][index].get(key, ""))
    if title and not title.endswith(more):
        return with_values(text, {(part, index + 1, key): f"{title[: _LONGEST - len(more)].rstrip(' ,')}{more}"})
    return text


def _with_segment(text: str, part: Part, at: int, lines: str) -> str:
    toml = parsed(text)
    count = len(toml.values.get(part, ()))
    if not 0 <= at <= count:
        raise refusal("", "", f"there is no place {at + 1} for a {part}", f"choose one from 1 to {count + 1}")
    segments, places = _places(text, part, 0)
    if at < count:
        place = places[at]
    elif places:
        place = places[-1] + 1
    else:
        place = next((index for index, one in enumerate(segments) if one.path), len(segments))
    end = line_end(text)
    gaps = [one.gap for one in segments]
    gaps.insert(place - 1, end)
    segments.insert(place, Segment((part, at), lines, ""))
    (table,) = tomllib.loads(lines)[part]
    return _edited(text, part, segments, gaps, lambda items: items.insert(at, table))


def _places(text: str, part: Part, index: int) -> tuple[list[Segment], list[int]]:
    """The segments of a plan, and which of them are its steps or bars."""
    toml = parsed(text)
    items = toml.values.get(part, [])
    if items:
        check_there(toml.values, (part, index))
    segments = segments_of(toml.text)
    places = [number for number, one in enumerate(segments) if one.path[:1] == (part,)]
    if len(places) != len(items) or any(len(segments[number].path) != 2 for number in places):
        where, _ = place_of(toml.values, (part, index))
        what = f"can't be changed: the plan's {part}s are not written one below the other"
        raise refusal(where, "", what, f"write each under a [[{part}]] of its own, its tables right below it")
    return segments, places


def _edited(
    text: str, part: Part, segments: list[Segment], gaps: list[str], done: Callable[[list[Any]], object]
) -> str:
    """The text of segments in their new order; the gaps between them stay where they are."""
    values = parsed(text).values
    items = list(values.get(part, ()))
    done(items)
    wanted = {key: value for key, value in values.items() if key != part} | ({part: items} if items else {})
    end = line_end(text)
    spaced = [
        replace(one, text=one.text if one.text.endswith("\n") or not one.text else one.text + end, gap=gap)
        for one, gap in zip(segments, gaps, strict=True)
    ]
    return sound(joined(spaced), wanted)
