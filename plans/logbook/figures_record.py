"""The figures of a sitting as JSON keeps them: temperatures in degC, depths in mm, steps counted from 1."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import isfinite
from typing import Any

from plans.logbook.figures import (
    CallMade,
    Factor,
    Forecast,
    HeatFigures,
    LayersLeft,
    Learned,
    Loss,
    SittingFigures,
    StayLearned,
    SteelCost,
    StepFigures,
)
from plans.phase import PhaseKind
from plans.plan import StepKind
from plans.sitting import Basis, Call, Note
from plans.units import celsius, kelvin

Record = dict[str, Any]
"""A JSON object, units in the key names."""


def to_record(figures: SittingFigures) -> Record:
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
        "calls": [
            {"at_seconds": call.at, "call": call.call.value, "step": call.step + 1, "heat": call.heat}
            for call in figures.calls
        ],
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


def from_record(record: Mapping[str, Any]) -> SittingFigures:
    """The inverse of `to_record`; what the first versions did not work out may be missing.

    Raises:
        ValueError, KeyError, TypeError, AttributeError: these are no figures.
    """
    cost, learned = record.get("steel"), record.get("learned")
    return SittingFigures(
        steps=tuple(
            StepFigures(
                _step(step["step"]),
                _text(step["title"]),
                StepKind(step["kind"]),
                tuple(map(_heat, _list(step["heats"]))),
            )
            for step in _list(record["steps"])
        ),
        calls=tuple(
            CallMade(_number(call["at_seconds"]), Call(call["call"]), _step(call["step"]), _count(call["heat"]))
            for call in _list(record["calls"])
        ),
        notes=tuple(
            Note(_number(note["at_seconds"]), _text(note["text"]), _step(note["step"]), _count(note["heat"]))
            for note in _list(record["notes"])
        ),
        cost=None if cost is None else _cost(cost),
        learned=None if learned is None else _learned(learned),
        learning_done="learned" in record,
    )


def learned_record(learned: Learned) -> Record:
    """What a sitting tells of the shop, as a JSON object."""
    record: Record = _factor_record("cooling", learned.cooling) | {"stays_fitted": learned.cooling.stays}
    if learned.contact is not None:
        record |= _factor_record("contact", learned.contact) | {"contact_stays_fitted": learned.contact.stays}
    return record | {"stays": [_stay_record(stay, learned.contact is not None) for stay in learned.stays]}


def _factor_record(name: str, factor: Factor) -> Record:
    return {
        f"{name}_factor": factor.value,
        f"{name}_factor_standard_error": factor.spread,
        f"{name}_factor_in_force": factor.went_by,
    }


def _stay_record(stay: StayLearned, told_apart: bool) -> Record:
    forecast, is_struck = stay.forecast, stay.phase is PhaseKind.STRIKE
    record: Record = {
        "step": stay.step + 1,
        "heat": stay.heat,
        "phase": stay.phase.value,
        "at_seconds": stay.began,
        "cooling_factor": None if told_apart and is_struck else stay.factor,
        "hammer_time_forecast_seconds": None if forecast is None else forecast.likely,
        "hammer_time_measured_seconds": stay.happened,
    }
    if told_apart:
        record |= {
            "contact_factor": stay.factor if is_struck else None,
            "hammer_time_forecast_least_seconds": None if forecast is None else forecast.least,
            "hammer_time_forecast_most_seconds": None if forecast is None else forecast.most,
        }
    return record


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
    }


def _heat(record: Mapping[str, Any]) -> HeatFigures:
    return HeatFigures(
        heat=_count(record["heat"]),
        in_fire=_number(record["in_fire_seconds"]),
        soak=_number(record["soak_seconds"]),
        strike=_number(record["strike_seconds"]),
        air=_number(record["air_seconds"]),
        hold=_number(record["hold_seconds"]),
        too_cold=_number(record["too_cold_seconds"]),
        peak=_kelvin(record["peak_celsius"]),
        leaving=_kelvin(record["leaving_celsius"]),
        lowest_struck=_kelvin(record["lowest_struck_celsius"]),
        basis=Basis(record["basis"]),
    )


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
        _maybe(record["carbon_percent"]),
        _loss(record["decarb_mm"]),
        _loss(record["scale_loss_mm"]),
        None
        if layers is None
        else LayersLeft(
            _number(layers["layer_mm"]) / 1000,
            _number(layers["difference_left"]),
            _maybe(layers.get("least")),
            _maybe(layers.get("most")),
            _text(layers.get("validity", "")),
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
    value, least, most = (_maybe(record[key]) for key in ("value", "least", "most"))
    if value is None:
        raise TypeError("a depth was expected")
    return Loss(value / 1000, None if least is None else least / 1000, None if most is None else most / 1000)


def _learned(record: Mapping[str, Any]) -> Learned:
    # The first versions did not tell contact apart.
    return Learned(
        _factor(record, "cooling", "stays_fitted"),
        _factor(record, "contact", "contact_stays_fitted") if "contact_factor_in_force" in record else None,
        tuple(map(_stay, _list(record["stays"]))),
    )


def _factor(record: Mapping[str, Any], name: str, stays: str) -> Factor:
    return Factor(
        _maybe(record[f"{name}_factor"]),
        _maybe(record[f"{name}_factor_standard_error"]),
        _number(record[f"{name}_factor_in_force"]),
        _count(record[stays], least=0),
    )


def _stay(record: Mapping[str, Any]) -> StayLearned:
    likely, cooling = _maybe(record["hammer_time_forecast_seconds"]), _maybe(record["cooling_factor"])
    least, most = (_maybe(record.get(f"hammer_time_forecast_{end}_seconds")) for end in ("least", "most"))
    return StayLearned(
        _step(record["step"]),
        _count(record["heat"]),
        PhaseKind(record["phase"]),
        _number(record["at_seconds"]),
        _maybe(record.get("contact_factor")) if cooling is None else cooling,
        None if likely is None else Forecast(likely, least, most),
        _maybe(record["hammer_time_measured_seconds"]),
    )


def _celsius(value: float | None) -> float | None:
    return None if value is None else round(celsius(value), 1)


def _kelvin(value: object) -> float | None:
    return None if value is None else kelvin(_number(value))


def _millimetres(metres: float | None) -> float | None:
    return None if metres is None else round(metres * 1000, 4)


def _list(value: object) -> Iterable[Any]:
    if not isinstance(value, list):
        raise TypeError("a list was expected")
    return value


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError("a text was expected")
    return value


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise TypeError("a number was expected")
    if not isfinite(value):
        raise ValueError("a finite number was expected")
    return float(value)


def _maybe(value: object) -> float | None:
    return None if value is None else _number(value)


def _count(value: object, least: int = 1) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise TypeError("a whole number was expected")
    if value < least:
        raise ValueError(f"a number from {least} on was expected")
    return value


def _step(value: object) -> int:
    return _count(value) - 1
