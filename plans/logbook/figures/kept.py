"""The figures of a sitting as JSON keeps them: temperatures in degC, depths in mm, steps counted from 1."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from plans.logbook.figures.learned_json import learned_from_record, learned_record
from plans.logbook.figures.of_a_sitting import (
    HeatEnd,
    HeatFigures,
    LayersLeft,
    Loss,
    SittingFigures,
    SteelCost,
    StepFigures,
)
from plans.plan import StepKind
from plans.record_values import (
    Record,
    heat_of,
    maybe_celsius,
    maybe_number,
    maybe_seconds,
    number_of,
    record_of,
    records_of,
    seconds_of,
    step_of,
    text_of,
)
from plans.sitting import Basis, Called, Note, event_from_record, event_to_record
from plans.units import celsius, kelvin

_DEEPEST = 1e4
"""No depth that is lost is larger, and no layer thicker [mm]."""


def figures_to_record(figures: SittingFigures) -> Record:
    """The figures as a JSON object; what was not worked out has no key."""
    record: Record = {
        "steps": [
            {
                "step": step.step + 1,
                "title": step.title,
                "kind": step.kind.value,
                "heats": [_heat_record(heat) for heat in step.heats],
            }
            for step in figures.steps
        ],
        "calls": [_call_record(call) for call in figures.calls],
        "notes": [
            {"at_seconds": note.at, "text": note.text, "step": note.step + 1, "heat": note.heat}
            for note in figures.notes
        ],
    }
    if figures.cost is not None:
        record["steel"] = _cost_record(figures.cost)
    if figures.learning_done:
        record["learned"] = None if figures.learned is None else learned_record(figures.learned)
    return record


def figures_from_record(record: Mapping[str, Any]) -> SittingFigures:
    """The inverse of `figures_to_record`; what the first versions did not work out may be missing.

    Raises:
        ValueError, KeyError, TypeError, AttributeError: these are no figures.
    """
    cost, learned = record.get("steel"), record.get("learned")
    return SittingFigures(
        steps=steps_from_record(record["steps"]),
        calls=tuple(map(_call, records_of(record["calls"]))),
        notes=tuple(
            Note(seconds_of(note["at_seconds"]), text_of(note["text"]), step_of(note["step"]), heat_of(note["heat"]))
            for note in records_of(record["notes"])
        ),
        cost=None if cost is None else _cost(record_of(cost)),
        learned=None if learned is None else learned_from_record(record_of(learned)),
        learning_done="learned" in record,
    )


def steps_from_record(steps: object) -> tuple[StepFigures, ...]:
    """The steps of the figures alone, from the list that `figures_to_record` made.

    Raises:
        ValueError, KeyError, TypeError, AttributeError: these are none.
    """
    return tuple(
        StepFigures(
            step_of(step["step"]),
            text_of(step["title"]),
            StepKind(step["kind"]),
            tuple(map(_heat, records_of(step["heats"]))),
        )
        for step in records_of(steps)
    )


def _call_record(called: Called) -> Record:
    """A call as the log has it among its events."""
    record = event_to_record(called)
    del record["event"]
    return record


def _call(record: Mapping[str, Any]) -> Called:
    step_of(record["step"])
    heat_of(record["heat"])
    # The first versions did not keep here which temperature it was about.
    found = event_from_record({"celsius": None, "basis": Basis.MODELLED.value} | dict(record) | {"event": "call"})
    assert isinstance(found, Called), "the event of a call is a call"
    return found


def _heat_record(heat: HeatFigures) -> Record:
    return {
        "heat": heat.heat,
        "in_fire_seconds": heat.in_fire,
        "soak_seconds": heat.soak,
        "strike_seconds": heat.strike,
        "air_seconds": heat.air,
        "hold_seconds": heat.hold,
        "too_cold_seconds": heat.too_cold,
        "peak_celsius": _celsius(heat.peak),
        "leaving_celsius": _celsius(heat.leaving),
        "lowest_struck_celsius": _celsius(heat.lowest_struck),
        "basis": heat.basis.value,
        "end": heat.end.value,
    } | ({} if heat.at_welding_heat is None else {"at_welding_heat_seconds": heat.at_welding_heat})


def _heat(record: Mapping[str, Any]) -> HeatFigures:
    return HeatFigures(
        heat=heat_of(record["heat"]),
        in_fire=seconds_of(record["in_fire_seconds"]),
        soak=seconds_of(record["soak_seconds"]),
        strike=seconds_of(record["strike_seconds"]),
        air=seconds_of(record["air_seconds"]),
        hold=seconds_of(record["hold_seconds"]),
        too_cold=seconds_of(record["too_cold_seconds"]),
        peak=_kelvin(record["peak_celsius"]),
        leaving=_kelvin(record["leaving_celsius"]),
        lowest_struck=_kelvin(record["lowest_struck_celsius"]),
        basis=Basis(record["basis"]),
        end=_end(record),
        at_welding_heat=maybe_seconds(record.get("at_welding_heat_seconds")),
    )


def _end(record: Mapping[str, Any]) -> HeatEnd:
    """How a heat ended; the first versions did not say, but one that was in the fire and nowhere else was cut off."""
    if "end" in record:
        return HeatEnd(record["end"])
    after = ("strike_seconds", "air_seconds", "hold_seconds")
    was_only_heated = seconds_of(record["in_fire_seconds"]) > 0 and not any(seconds_of(record[key]) for key in after)
    return HeatEnd.CUT_OFF if was_only_heated else HeatEnd.DONE


def _cost_record(cost: SteelCost) -> Record:
    layers = cost.layers
    return {
        "basis": Basis.MODELLED.value,
        "carbon_percent": cost.carbon,
        "decarb_mm": _loss_record(cost.decarb),
        "scale_loss_mm": _loss_record(cost.scale),
        "layers": None
        if layers is None
        else {
            "layer_mm": _millimetres(layers.thickness),
            "difference_left": layers.difference_left,
            "least": layers.least,
            "most": layers.most,
            "validity": layers.validity,
        },
    }


def _cost(record: Mapping[str, Any]) -> SteelCost:
    layers = record["layers"]
    return SteelCost(
        maybe_number(record["carbon_percent"], 0.0, 100.0),
        _loss(record["decarb_mm"]),
        _loss(record["scale_loss_mm"]),
        None
        if layers is None
        else LayersLeft(
            number_of(layers["layer_mm"], 0.0, _DEEPEST) / 1000,
            number_of(layers["difference_left"], 0.0, 1.0),
            maybe_number(layers.get("least"), 0.0, 1.0),
            maybe_number(layers.get("most"), 0.0, 1.0),
            text_of(layers.get("validity", "")),
        ),
    )


def _loss_record(loss: Loss | None) -> Record | None:
    if loss is None:
        return None
    return {
        "value": _millimetres(loss.value),
        "least": _millimetres(loss.least),
        "most": _millimetres(loss.most),
    }


def _loss(record: Mapping[str, Any] | None) -> Loss | None:
    if record is None:
        return None
    value, least, most = (maybe_number(record[key], 0.0, _DEEPEST) for key in ("value", "least", "most"))
    if value is None:
        raise TypeError("a depth was expected")
    return Loss(value / 1000, None if least is None else least / 1000, None if most is None else most / 1000)


def _celsius(value: float | None) -> float | None:
    return None if value is None else round(celsius(value), 1)


def _kelvin(value: object) -> float | None:
    degrees = maybe_celsius(value)
    return None if degrees is None else kelvin(degrees)


def _millimetres(metres: float | None) -> float | None:
    return None if metres is None else round(metres * 1000, 4)
