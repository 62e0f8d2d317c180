"""What a sitting cost the steel: carbon from its skin, metal to scale; and how far layers evened out. All modelled."""

from __future__ import annotations

from plans.logbook.figures.of_a_sitting import LayersLeft, Loss, SteelCost
from plans.logbook.hardness_there import richest
from plans.phase import IDLE, PhaseKind
from plans.plan import Plan
from plans.reckoned import Reckoned
from plans.sitting import Sitting, Skin, phase_spans, plan_as_measured, spans_by_model
from plans.steel import Ledger, Spell, carbon_difference_left, carbon_ledger, scale_share
from plans.units import Units

_EVERY = 2.0
"""The skin's history is taken at this spacing: the work changes no faster [s]."""
_COLD = 900.0
"""Below this nothing is lost that counts [K]."""

History = list[tuple[float, float]]
"""Times [s] and temperatures of the skin [K], rising in time."""


def cost(sitting: Sitting) -> SteelCost:
    """What a sitting cost the steel; figures that can't be had are None.

    Scale is taken as brushed off before each heat, and what is drawn out as drawn by the plan, from the
    sections that were measured. The carbon is that of
    the bar with most of it, as if its skin had been bare all through; nothing is taken as ground off in between.
    """
    skin = Skin(sitting.believed, sitting.warm, spans_by_model(sitting.state, sitting.now))
    spells: list[Spell] = []
    hottest = 0.0
    plan = plan_as_measured(sitting.plan, sitting.state)
    for part in phase_spans(sitting.state, sitting.now):
        step, phase = plan.steps[part.step], part.phase
        history = _history(skin, part.began, part.ended)
        drawn_to = step.section_at(part.heat + 1) if phase is PhaseKind.STRIKE else None
        spells.append(Spell(history, step.section_at(part.heat), drawn_to, is_cleaned=phase is PhaseKind.FIRE))
        hottest = max((hottest, *(kelvin for _, kelvin in history)))
    carbon = most_carbon(sitting.plan)
    ledger: Ledger | None = None
    if hottest > _COLD:
        ledger = carbon_ledger(spells, carbon or 0.0, scale_share(sitting.shop.fire, sitting.shop.scale_factor))
    return SteelCost(
        carbon=carbon,
        decarb=_loss(ledger.decarb) if ledger and carbon else None,
        scale=_loss(ledger.scale) if ledger else None,
        layers=_layers(sitting, skin) if ledger else None,
    )


def most_carbon(plan: Plan) -> float | None:
    """Carbon of the bar that has most, where its steel is known [mass %]."""
    found = richest(plan)
    return None if found is None else found[1].carbon


def _history(skin: Skin, began: float, ended: float) -> History:
    history: History = []
    at = began
    for seconds, kelvin, _ in skin.over(began, ended):
        if not history or at - history[-1][0] >= _EVERY:
            history.append((at, kelvin))
        at += seconds
    return history


def _layers(sitting: Sitting, skin: Skin) -> LayersLeft | None:
    """How much of the difference in carbon is left between layers, over all steps that say how many there are."""
    stages: list[tuple[History, float]] = []
    thinnest, plan = 0.0, plan_as_measured(sitting.plan, sitting.state)
    for part in phase_spans(sitting.state, sitting.now):
        step = plan.steps[part.step]
        section = step.section_at(part.heat)
        if step.layers is None or section is None or part.phase in IDLE:
            continue
        history = _history(skin, part.began, part.ended)
        if len(history) > 1:
            thinnest = section.thickness / step.layers
            stages.append((history, thinnest))
    if not stages:
        return None
    left = carbon_difference_left(stages)
    return LayersLeft(
        thickness=_kept(thinnest),
        difference_left=round(left.value, 4),
        least=None if left.least is None else round(left.least, 4),
        most=None if left.most is None else round(left.most, 4),
        validity=Units.METRIC.text(left.validity),
    )


def _loss(reckoned: Reckoned) -> Loss:
    least, most = reckoned.least, reckoned.most
    return Loss(_kept(reckoned.value), None if least is None else _kept(least), None if most is None else _kept(most))


def _kept(metres: float) -> float:
    """A depth as the log keeps it: to a ten-thousandth of a millimetre."""
    return round(metres * 1000, 4) / 1000
