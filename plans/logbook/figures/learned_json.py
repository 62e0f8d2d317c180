"""What a sitting tells of the shop, as JSON keeps it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from plans.logbook.figures.of_a_sitting import Factor, Forecast, Learned, StayLearned
from plans.phase import PhaseKind
from plans.record_values import (
    Record,
    count_of,
    heat_of,
    maybe_number,
    maybe_seconds,
    number_of,
    records_of,
    seconds_of,
    step_of,
)

_MOST = 1e6
"""No factor is larger, however badly a fit went."""
_MOST_STAYS = 1_000_000


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


def learned_from_record(record: Mapping[str, Any]) -> Learned:
    """The inverse of `learned_record`; what the first versions did not work out may be missing.

    Raises:
        ValueError, KeyError, TypeError, AttributeError: this is nothing that was learned.
    """
    # The first versions did not tell contact apart.
    return Learned(
        _factor(record, "cooling", "stays_fitted"),
        _factor(record, "contact", "contact_stays_fitted") if "contact_factor_in_force" in record else None,
        tuple(map(_stay, records_of(record["stays"]))),
    )


def _factor(record: Mapping[str, Any], name: str, stays: str) -> Factor:
    return Factor(
        _maybe_factor(record[f"{name}_factor"]),
        _maybe_factor(record[f"{name}_factor_standard_error"]),
        number_of(record[f"{name}_factor_in_force"], 0.0, _MOST),
        count_of(record[stays], 0, _MOST_STAYS),
    )


def _stay(record: Mapping[str, Any]) -> StayLearned:
    likely, cooling = maybe_seconds(record["hammer_time_forecast_seconds"]), _maybe_factor(record["cooling_factor"])
    least, most = (maybe_seconds(record.get(f"hammer_time_forecast_{end}_seconds")) for end in ("least", "most"))
    return StayLearned(
        step_of(record["step"]),
        heat_of(record["heat"]),
        PhaseKind(record["phase"]),
        seconds_of(record["at_seconds"]),
        _maybe_factor(record.get("contact_factor")) if cooling is None else cooling,
        None if likely is None else Forecast(likely, least, most),
        maybe_seconds(record["hammer_time_measured_seconds"]),
    )


def _maybe_factor(value: object) -> float | None:
    return maybe_number(value, 0.0, _MOST)
