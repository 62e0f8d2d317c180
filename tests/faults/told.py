"""What a program told before it was killed, held against what its log has afterwards."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

from plans.logbook.log import Log
from plans.sitting.event_record import event_to_record
from plans.sitting.events import Ended

_KEYS = {
    "word": ("at_seconds", "word", "text"),
    "phase": ("at_seconds", "step", "heat", "phase", "by"),
    "call": ("at_seconds", "call", "step", "heat", "celsius", "basis"),
    "eased": ("at_seconds", "call"),
}
"""What is compared of each kind of event."""

Told = list[dict[str, Any]]


def told_in(lines: Iterable[str]) -> Told:
    """The events among the lines of JSON that a program said; a line that was cut off counts for nothing."""
    said = [json.loads(line) for line in lines if line.endswith("\n")]
    return [_compared(event) for event in said if event["event"] in _KEYS]


def kept_in(log: Log) -> Told:
    """The same events, as a log has them."""
    records = [event_to_record(event) for event in log.events if not isinstance(event, Ended)]
    return [_compared(event) for event in records if event["event"] in _KEYS]


def from_first_word(events: Sequence[dict[str, Any]]) -> Told:
    """Without what the sitting opened with, which is begun before anybody is told."""
    first = next((index for index, event in enumerate(events) if event["event"] == "word"), len(events))
    return list(events[first:])


def _compared(event: dict[str, Any]) -> dict[str, Any]:
    return {key: event[key] for key in ("event", *_KEYS[event["event"]]) if key in event}
