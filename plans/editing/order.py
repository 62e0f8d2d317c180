"""The steps and bars of a plan's text in their order: put in, taken out, moved and copied with what is written of them.

A step's comments go with it: those among its lines, and those right above its header. Whether the plan makes sense then
is not looked at; that the text says what it shall is.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final, Literal

from plans.editing.plan_toml import table_lines
from plans.editing.segments import Segment, joined, line_end, segments_of
from plans.editing.setting import check_there, parsed, place_of, refusal, sound, with_values
from plans.units import Units

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Part = Literal["step", "bar"]
"""What a plan has several of, one after the other."""

_LONGEST: Final = 60
"""Most characters of a title or a name."""


def inserted(
    text: str,
    part: Part,
    at: int,
    keys: DataclassInstance,
    units: Units,
    why: Mapping[str, str] | None = None,
) -> str:
    """The text with one step or bar more.

    Args:
        text: of the plan
        part: what is added
        at: the number that it shall have, from 0 to how many there are
        keys: what it holds: a `StepKeys` or `BarKeys`
        units: in which quantities are written
        why: comments by the attribute, as of `DraftTable`

    Raises:
        PlanError: there is no such place, or the text is written in a way that this can't be done.
    """
    end = line_end(text)
    lines = table_lines(f"[[{part}]]", keys, units, why)[1:]
    return _with_segment(text, part, at, end.join(lines) + end)


def cut(text: str, part: Part, index: int) -> str:
    """The text without a step or bar, by its number from 0.

    Raises:
        PlanError: there is none of that number, or the text is written in a way that this can't be done.
    """
    segments, places = _places(text, part, index)
    at = places[index]
    gaps = [one.gap for one in segments]
    gaps.pop(at if at < len(gaps) - 1 else at - 1)
    segments.pop(at)
    return _edited(text, part, segments, gaps, lambda items: items.pop(index))


def shifted(text: str, part: Part, index: int, to: int) -> str:
    """The text with a step or bar at another place.

    Args:
        text: of the plan
        part: what is moved
        index: its number, from 0
        to: the number that it shall have then, from 0

    Raises:
        PlanError: there is no such one or no such place, or the text is written in a way that this can't be done.
    """
    segments, places = _places(text, part, index)
    check_there(parsed(text).values, (part, to))
    gaps = [one.gap for one in segments]
    segments.insert(places[to], segments.pop(places[index]))
    return _edited(text, part, segments, gaps, lambda items: items.insert(to, items.pop(index)))


def copied(text: str, part: Part, index: int, more: str) -> str:
    """The text with a step or bar once more, right below.

    Args:
        text: of the plan
        part: what is repeated
        index: its number, from 0
        more: what comes to stand behind the copy's title or name, which is cut where it has no room

    Raises:
        PlanError: there is none of that number, or the text is written in a way that this can't be done.
    """
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
    segments, places = _places(text, part, 0 if count else None)
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


def _places(text: str, part: Part, index: int | None) -> tuple[list[Segment], list[int]]:
    """The segments of a plan, and which of them are its steps or bars; that of the number has to be there."""
    toml = parsed(text)
    items = toml.values.get(part, [])
    if index is not None:
        check_there(toml.values, (part, index))
    segments = segments_of(toml.text)
    places = [number for number, one in enumerate(segments) if one.path[:1] == (part,)]
    if len(places) != len(items) or any(len(segments[number].path) != 2 for number in places):
        where, _ = place_of(toml.values, (part, index or 0))
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
