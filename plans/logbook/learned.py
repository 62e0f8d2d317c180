"""What a sitting with a probe on the work tells of the shop: how fast work cools here, and how good forecasts were."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from plans.logbook.fitting import fit, piece_of
from plans.logbook.stays import Stay, leaving, stays
from plans.sitting.engine import Sitting
from plans.warmth.forecast import hammer_time


@dataclass(frozen=True, slots=True)
class StayLearned:
    """What one stay outside the fire tells."""

    stay: Stay
    factor: float | None
    """The cooling factor that it has by itself; None where it was too short."""
    forecast: float | None
    """Hammer time as it was reckoned when the work left the fire; None where none is counted [s]."""
    happened: float | None
    """Hammer time as it was measured; None where the work went back before it was over [s]."""


@dataclass(frozen=True, slots=True)
class Learned:
    """What a sitting tells of the shop."""

    factor: float | None
    """The cooling factor that fits all stays together best; None where none of them, or no sane one, does."""
    spread: float | None
    """Its standard error, from the scatter between stays; None with a single one."""
    went_by: float
    """The cooling factor that the sitting's forecasts went by."""
    stays: tuple[StayLearned, ...]

    @property
    def fitted(self) -> int:
        """How many stays the factor comes from."""
        return sum(one.factor is not None for one in self.stays)


def learn(sitting: Sitting) -> Learned | None:
    """Fit the cooling factor by least squares, and hold the forecasts against what happened.

    For each stay the warm model is started from what was measured as the work left the fire, and what it gives to air
    and anvil is multiplied by one factor, the same for all stays, so that the squares of what it misses by are least.
    When each stay began is left open: a late word, and the lag of a probe, then move no factor. Contact and radiation
    are not told apart.

    Returns:
        None without a probe on the work, or where the work was never felt outside the fire

    References:
        Gauss and Newton's method, each stay's own beginning projected out; the standard error is the jackknife's,
        leaving out one stay at a time (Efron and Tibshirani, An Introduction to the Bootstrap, 1993, chapter 11).
    """
    found = stays(sitting)
    if not found:
        return None
    pieces = [piece_of(sitting, stay) for stay in found]
    factor, spread, own = fit([piece for piece in pieces if piece is not None])
    owns = iter(own)
    return Learned(
        factor,
        spread,
        sitting.shop.cooling_factor,
        tuple(
            StayLearned(stay, None if piece is None else next(owns, None), *_hammer_time(sitting, stay))
            for stay, piece in zip(found, pieces, strict=True)
        ),
    )


def learned_figures(sitting: Sitting) -> dict[str, Any] | None:
    """The same, fit for JSON, as the log keeps it; steps count from 1."""
    learned = learn(sitting)
    if learned is None:
        return None
    return {
        "cooling_factor": _rounded(learned.factor, 3),
        "cooling_factor_standard_error": _rounded(learned.spread, 3),
        "cooling_factor_in_force": learned.went_by,
        "stays_fitted": learned.fitted,
        "stays": [
            {
                "step": one.stay.step + 1,
                "heat": one.stay.heat,
                "phase": one.stay.phase.value,
                "at_seconds": round(one.stay.began, 3),
                "cooling_factor": _rounded(one.factor, 3),
                "hammer_time_forecast_seconds": _rounded(one.forecast, 1),
                "hammer_time_measured_seconds": _rounded(one.happened, 1),
            }
            for one in learned.stays
        ],
    }


def _rounded(value: float | None, digits: int) -> float | None:
    return None if value is None else round(value, digits)


def _hammer_time(sitting: Sitting, stay: Stay) -> tuple[float | None, float | None]:
    """As forecast and as measured [s]."""
    if stay.keep_above is None:
        return None, None
    model = leaving(sitting, stay)
    if model.skin <= stay.keep_above:
        return None, None
    around = stay.around.scaled(sitting.shop.cooling_factor)
    return hammer_time(model, around, stay.keep_above), stay.fell_below(stay.keep_above)
