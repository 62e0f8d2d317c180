"""An event as the log keeps it: a record with units in the names of its keys, and back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from plans.measured import MeasuredError, read_measured
from plans.phase import PhaseKind
from plans.reading import ProbeOn
from plans.record_values import heat_of, maybe_celsius, maybe_seconds, seconds_of, step_of, text_of
from plans.sitting.calls import Call
from plans.sitting.events import (
    Asked,
    Basis,
    Begun,
    Called,
    Cause,
    Doubt,
    Eased,
    Ended,
    Event,
    LeftFire,
    Said,
    WentOn,
    Word,
)
from plans.sitting.ticks import read_tick
from plans.units import ZERO_CELSIUS, Units


def as_kept(kelvin: float) -> float:
    """A temperature as the log keeps it [K]."""
    return round(kelvin - ZERO_CELSIUS, 2) + ZERO_CELSIUS


def event_to_record(event: Event) -> dict[str, Any]:
    """The event as JSON would have it, units in the key names, temperatures in degC; steps count from 1."""
    record: dict[str, Any] = {"at_seconds": round(event.at, 3)}
    match event:
        case Said(word=word, text=text):
            record |= {"event": "word", "word": word.value}
            if text:
                record["text"] = text
        case Begun(step=step, heat=heat, phase=phase, cause=cause):
            record |= {"event": "phase", "step": step + 1, "heat": heat, "phase": phase.value, "by": cause.value}
            record |= _dated(event.happened)
        case Called(call=call, step=step, heat=heat, kelvin=kelvin, basis=basis):
            record |= {"event": "call", "call": call.value, "step": step + 1, "heat": heat}
            record |= {"celsius": _celsius(kelvin), "basis": basis.value} | _dated(event.happened)
            record |= _seconds(took=event.took, wanted=event.wanted)
        case Asked(word=word, doubt=doubt, kelvin=kelvin, basis=basis):
            record |= {"event": "asked", "word": word.value, "doubt": doubt.value}
            if kelvin is not None:
                record |= {"celsius": _celsius(kelvin), "basis": basis.value}
            if event.wanted is not None:
                record["wanted_celsius"] = _celsius(event.wanted)
            record |= _seconds(took=event.took, lasts=event.lasts)
        case Eased(call=call, happened=happened):
            record |= {"event": "eased", "call": call.value} | _dated(happened)
        case WentOn(probe_on=probe_on, paused_since=since, away_since=away):
            record |= {"event": "went on", "probe_on": None if probe_on is None else probe_on.value}
            record |= {} if since is None else {"stood_since_seconds": round(since, 3)}
            record |= {} if away is None else {"away_since_seconds": round(away, 3)}
        case Ended():
            record |= {"event": "ended"}
        case LeftFire(happened=happened):
            record |= {"event": "left fire"} | _dated(happened)
    return record


def _celsius(kelvin: float | None) -> float | None:
    return None if kelvin is None else round(kelvin - ZERO_CELSIUS, 2)


def _kelvin(value: object) -> float | None:
    celsius = maybe_celsius(value)
    return None if celsius is None else celsius + ZERO_CELSIUS


def _seconds(**spans: float | None) -> dict[str, float]:
    return {f"{name}_seconds": round(span, 3) for name, span in spans.items() if span is not None}


def _dated(happened: float | None) -> dict[str, float]:
    return {} if happened is None else {"happened_seconds": round(happened, 3)}


def event_from_record(record: Mapping[str, Any]) -> Event:
    """The event that `event_to_record` made a record of, each field of its type and in the ranges of `record_values`.

    Raises:
        ValueError, KeyError, TypeError, AttributeError: the record is not one of ours.
    """
    at, happened = seconds_of(record["at_seconds"]), maybe_seconds(record.get("happened_seconds"))
    match record["event"]:
        case "word":
            return _said(at, Word(record["word"]), text_of(record.get("text", "")))
        case "phase":
            step, heat = step_of(record["step"]), heat_of(record["heat"])
            return Begun(at, step, heat, PhaseKind(record["phase"]), Cause(record["by"]), happened)
        case "call":
            step, heat, kelvin = step_of(record["step"]), heat_of(record["heat"]), _kelvin(record["celsius"])
            took, wanted = maybe_seconds(record.get("took_seconds")), maybe_seconds(record.get("wanted_seconds"))
            return Called(at, Call(record["call"]), step, heat, kelvin, Basis(record["basis"]), happened, took, wanted)
        case "asked":
            kelvin, wanted = _kelvin(record.get("celsius")), _kelvin(record.get("wanted_celsius"))
            basis = Basis(record.get("basis", Basis.MODELLED))
            took, lasts = maybe_seconds(record.get("took_seconds")), maybe_seconds(record.get("lasts_seconds"))
            return Asked(at, Word(record["word"]), Doubt(record["doubt"]), kelvin, basis, wanted, took, lasts)
        case "eased":
            return Eased(at, Call(record["call"]), happened)
        case "went on":
            probe_on = None if record["probe_on"] is None else ProbeOn(record["probe_on"])
            stood = maybe_seconds(record.get("stood_since_seconds"))
            away = maybe_seconds(record.get("away_since_seconds"))
            return WentOn(at, probe_on, stood, away)
        case "ended":
            return Ended(at)
        case "left fire":
            return LeftFire(at, happened)
        case other:
            raise ValueError(f"unknown event {other!r}")


def _said(at: float, word: Word, text: str) -> Said:
    if word is Word.EARLIER and text:
        seconds_of(float(text))
    if word is Word.MEASURED:
        try:
            read_measured(text, Units.METRIC)
        except MeasuredError as error:
            raise ValueError(str(error)) from None
    if word is Word.TICK and read_tick(text).step is None:
        raise ValueError("a tick without its step")
    return Said(at, word, text)
