"""What a sitting with a probe on the work tells of the shop: how fast work cools here, and how good forecasts were."""

from __future__ import annotations

from plans.blows import StruckBy
from plans.logbook.figures.fitting import Fitted, Piece, fit_air, fit_contact, piece_of
from plans.logbook.figures.of_a_sitting import Factor, Forecast, Learned, StayLearned
from plans.logbook.figures.stays import Stay, leaving, stays
from plans.reading import ProbeOn
from plans.sitting import Exposure, Sitting, WorkWarmth
from plans.warmth import Part, WarmModel


def learn(sitting: Sitting) -> Learned | None:
    """Fit the cooling factor and the contact factor by least squares, and hold the forecasts against what happened.

    For each stay the warm model is started from what was measured as the work left the fire, and what it gives to the
    air is multiplied by one factor, the same for all stays in the air, so that the squares of what it misses by are
    least. Then the contact conductance of the tools is multiplied by another, the same for all stays in which the work
    was struck, with the first one held: as these stays in the air told it, or else as the sitting went by. What is held
    against the probe is the mean of the skin.

    When each stay began is left open: a late word then moves no factor, nor does a probe that lags by 1 s. One that
    lags by 3 s takes nothing off either factor of a bar of 14 mm, but of a strip of 4 mm an eighth of the one and a
    third of the other, and no standard error tells of it.

    Returns:
        what it tells, rounded as the log keeps it; None without a probe on the work, or where the work was never felt
        outside the fire

    References:
        Gauss and Newton's method on the logarithm of the factor, each stay's own beginning projected out; the standard
        error is the jackknife's, leaving out one stay at a time (Efron and Tibshirani, An Introduction to the
        Bootstrap, 1993, chapter 11). To that of the contact factor is added what the cooling factor's makes of it.
    """
    found = stays(sitting)
    if not found:
        return None
    pieces = {stay: piece for stay in found if (piece := piece_of(sitting, stay)) is not None}
    in_air = {stay: piece for stay, piece in pieces.items() if not stay.is_struck}
    # Dies press harder than a hammer does on an anvil: what they let through is another matter, and is not learned.
    struck = {stay: piece for stay, piece in pieces.items() if stay.is_struck and stay.blows.by is StruckBy.HAND}
    shop = sitting.shop
    air = fit_air(list(in_air.values()))
    held = (shop.cooling_factor, shop.cooling_spread) if air.factor is None else (air.factor, air.spread)
    contact = fit_contact(list(struck.values()), *held)
    own = dict(zip(in_air, air.own, strict=False)) | dict(zip(struck, contact.own, strict=False))
    return Learned(
        _factor(air, shop.cooling_factor),
        _factor(contact, shop.contact_factor),
        tuple(_learned(sitting, stay, pieces.get(stay), own.get(stay)) for stay in found),
    )


def _factor(fitted: Fitted, went_by: float) -> Factor:
    return Factor(_rounded(fitted.factor, 3), _rounded(fitted.spread, 3), went_by, len(fitted.own))


def _learned(sitting: Sitting, stay: Stay, piece: Piece | None, factor: float | None) -> StayLearned:
    forecast = None
    if stay.keep_above is not None:
        forecast = _forecast(sitting, stay, stay.keep_above, leaving(sitting, stay) if piece is None else piece.model)
    happened = None if forecast is None or stay.keep_above is None else stay.fell_below(stay.keep_above)
    return StayLearned(
        stay.step, stay.heat, stay.phase, round(stay.began, 3), _rounded(factor, 3), forecast, _rounded(happened, 1)
    )


def _rounded(value: float | None, digits: int) -> float | None:
    return None if value is None else round(value, digits)


def _forecast(sitting: Sitting, stay: Stay, keep_above: float, model: WarmModel) -> Forecast | None:
    """Hammer time of the skin, as the sitting itself would have it from how the work left the fire."""
    if model.skin <= keep_above:
        return None
    warm = WorkWarmth(sitting.plan, ProbeOn.WORK, sitting.shop)
    exposure = Exposure(stay.step, stay.heat, stay.phase, in_the_air=False)
    warm.take(WarmModel.of(model.snapshot()))
    span = warm.until(exposure, model.skin, Part.SKIN, keep_above)
    return None if span is None else Forecast(round(span.likely, 1), round(span.least, 1), _rounded(span.most, 1))
