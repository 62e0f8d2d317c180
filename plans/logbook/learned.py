"""What a sitting with a probe on the work tells of the shop: how fast work cools here, and how good forecasts were."""

from __future__ import annotations

from plans.logbook.figures import Learned, StayLearned
from plans.logbook.fitting import fit, piece_of
from plans.logbook.stays import Stay, leaving, stays
from plans.sitting import Sitting
from plans.warmth import hammer_time


def learn(sitting: Sitting) -> Learned | None:
    """Fit the cooling factor by least squares, and hold the forecasts against what happened.

    For each stay the warm model is started from what was measured as the work left the fire, and what it gives to air
    and anvil is multiplied by one factor, the same for all stays, so that the squares of what it misses by are least.
    When each stay began is left open: a late word, and the lag of a probe, then move no factor. Contact and radiation
    are not told apart.

    Returns:
        what it tells, rounded as the log keeps it; None without a probe on the work, or where the work was never felt
        outside the fire

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
        _rounded(factor, 3),
        _rounded(spread, 3),
        sitting.shop.cooling_factor,
        tuple(
            _learned(sitting, stay, None if piece is None else next(owns, None))
            for stay, piece in zip(found, pieces, strict=True)
        ),
    )


def _learned(sitting: Sitting, stay: Stay, factor: float | None) -> StayLearned:
    forecast, happened = _hammer_time(sitting, stay)
    return StayLearned(
        stay.step,
        stay.heat,
        stay.phase,
        round(stay.began, 3),
        _rounded(factor, 3),
        _rounded(forecast, 1),
        _rounded(happened, 1),
    )


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
