"""What a reckoning looks like, where people would rather look: one picture for each question."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence

from devices.thermocouple import emf, reference_range
from plans.reckoner import Figure, Reckoning
from plans.record import record
from plans.steel import (
    SteelError,
    carbon_difference_left,
    content_at,
    hold,
    martensite,
    scale_loss,
    spread_over,
    tempered_hardness,
)
from plans.units import Units, kelvin
from tui.reckoner.question import Answers
from tui.widgets import Axis, Curve, GlowData, ScaleDrawing, TraceData, length, temperature

_POINTS = 120
"""Of a curve that is computed for its picture alone."""
_PER_CENT = Axis("%", factor=100.0)
_CARBON = Axis("% C")
_HRC = Axis("HRC")
_MILLIVOLTS = Axis("mV", factor=1000.0)


@record
class Picture:
    """A curve, steel in its colours, or both, or a drawing to scale; and a line that says what is seen."""

    said: str
    """A line that says what is seen."""
    curve: TraceData | None = None
    """The curve; None for a picture without one."""
    glow: GlowData | None = None
    """Steel in its own colours; None for a picture without it."""
    drawing: ScaleDrawing | None = None
    """A drawing to scale; None for a picture without one."""


def picture(name: str, answers: Answers, found: Reckoning, units: Units) -> Picture | None:
    """What to draw beside an answer.

    Args:
        name: of the question
        answers: what was given
        found: the answer
        units: of the axes
    """
    if found.drawing is not None:
        return Picture(units.text(found.drawing.said), drawing=ScaleDrawing(found.drawing, units))
    draw = _PICTURES.get(name)
    return draw(answers, found, units) if draw else None


def _warming(answers: Answers, found: Reckoning, units: Units) -> Picture:
    """The skin and the middle of a bar, and all between them."""
    at = [point.seconds for point in found.curve]
    skin, middle = [point.skin for point in found.curve], [point.middle for point in found.curve]
    aim = (answers["to"] if "to" in answers else answers["middle"], "to")

    def within(seconds: float, height: float) -> float:
        # Between middle and skin the temperature is close to a parabola once the first seconds are over.
        outer, inner = _between(at, skin, seconds), _between(at, middle, seconds)
        return inner + (outer - inner) * height * height

    return Picture(
        "the skin; dotted, the middle; and the bar cut across, as it glows",
        TraceData(
            end=max(at[-1], 1.0),
            measured=Curve(at, skin),
            modelled=Curve(at, middle),
            limits=(aim,),
            up=temperature(units),
        ),
        GlowData(end=max(at[-1], 1.0), at=within, rows=("skin", "middle", "skin")),
    )


def _between(at: Sequence[float], values: Sequence[float], when: float) -> float:
    """The value at a time, on the straight line between two points."""
    right = min(max(1, bisect_left(at, when)), len(at) - 1)
    (begin, end), (low, high) = at[right - 1 : right + 1], values[right - 1 : right + 1]
    return low + (high - low) * min(1.0, max(0.0, (when - begin) / (end - begin)))


def _martensite(answers: Answers, found: Reckoning, units: Units) -> Picture | None:
    """How much martensite there is, the deeper the quench."""
    whole, then = _value(found, "ms_celsius"), _value(found, "hardened_ms_celsius")
    first = then if then is not None else whole
    if first is None:
        return None
    end = answers.get("down-to", martensite.ROOM)
    warm = max(value for value in (whole, then) if value is not None) + 20.0
    cold = min(end, first - 200.0)

    def curve(ms: float | None) -> Curve:
        return Curve() if ms is None else _curve(lambda at: martensite.fraction(ms, at), cold, warm)

    at_end = martensite.fraction(first, end)
    said = "martensite, the deeper the quench"
    if then is not None and whole is not None and abs(then - whole) > 1.0:
        said += "; dotted, were all carbon dissolved"
    return Picture(
        said,
        TraceData(
            begin=cold,
            end=warm,
            measured=curve(first),
            modelled=curve(whole) if then is not None else Curve(),
            flags=((end, at_end, "♦"),),
            spans=((cold, first, "below Ms"),),
            low=0.0,
            high=1.0,
            across=temperature(units),
            up=_PER_CENT,
        ),
    )


def _carbon(answers: Answers, found: Reckoning, units: Units) -> Picture | None:
    at, seconds = answers["at"], answers["for"]
    if "layer" in answers:
        return _layers(answers["layer"], at, seconds, answers.get("carbon"))
    core = answers["carbon"]
    depth = _value(found, "decarb_depth_mm")
    if depth is None or depth <= 0:
        return None
    spread = spread_over(hold(at, seconds), core).value
    return _below_the_skin(
        _curve(lambda below: content_at(below, spread, 0.0, core), 0.0, 2 * depth), depth, core, units
    )


def _skin(answers: Answers, found: Reckoning, units: Units) -> Picture | None:
    depth = _value(found, "decarb_depth_mm")
    if depth is None or depth <= 0:
        return None
    below, contents = zip(*(point for point in found.profile if point[0] <= 2 * depth), strict=True)
    return _below_the_skin(Curve(below, contents), depth, answers["carbon"], units)


def _below_the_skin(curve: Curve, depth: float, core: float, units: Units) -> Picture:
    return Picture(
        "carbon below the skin, as modelled",
        TraceData(
            end=2 * depth,
            measured=curve,
            spans=((0.0, depth, "decarb"),),
            limits=((core, "core"),),
            low=0.0,
            high=1.1 * core,
            across=length(units),
            up=_CARBON,
        ),
    )


def _layers(layer: float, at: float, seconds: float, carbon: float | None) -> Picture:
    def left(after: float) -> float:
        return carbon_difference_left([(hold(at, after), layer)], carbon).value if after > 0 else 1.0

    return Picture(
        "how much of the difference between the layers is left",
        TraceData(
            end=2 * seconds,
            measured=_curve(left, 0.0, 2 * seconds),
            flags=((seconds, left(seconds), "♦"),),
            low=0.0,
            high=1.0,
            up=_PER_CENT,
        ),
    )


def _scale(answers: Answers, found: Reckoning, units: Units) -> Picture | None:
    at, seconds = answers["at"], answers["for"]
    if (_value(found, "loss_mm") or 0.0) <= 0:
        return None

    def lost(after: float) -> float:
        return scale_loss(hold(at, after)).value if after > 0 else 0.0

    return Picture(
        "metal lost a face; it slows down while the scale stays on",
        TraceData(
            end=2 * seconds,
            measured=_curve(lost, 0.0, 2 * seconds),
            flags=((seconds, lost(seconds), "♦"),),
            low=0.0,
            high=1.1 * lost(2 * seconds),
            up=length(units),
        ),
    )


def _temper(answers: Answers, found: Reckoning, units: Units) -> Picture | None:
    """The hardness over the temperature, for the same time."""
    carbon, seconds, holds = answers.get("carbon"), answers["for"], answers.get("holds", 1)
    hardness = _value(found, "hardness_hrc")
    if carbon is None or hardness is None:
        return None

    def after(at: float) -> float | None:
        try:
            return tempered_hardness(carbon, [(at, seconds)] * holds).value
        except SteelError:
            return None

    curve = _curve(after, kelvin(100.0), kelvin(700.0))
    known = [at for at, value in zip(curve.at, curve.values, strict=True) if value is not None]
    return Picture(
        "hardness over the temperature, for the same time",
        TraceData(
            begin=min(known),
            end=max(known),
            measured=curve,
            flags=((answers["at"], hardness, "♦"),),
            limits=((hardness, ""),),
            across=temperature(units),
            up=_HRC,
            low=min(value for value in curve.values if value is not None) - 2.0,
            high=max(value for value in curve.values if value is not None) + 2.0,
        ),
    )


def _glow(answers: Answers, found: Reckoning, units: Units) -> Picture:
    del found
    return Picture(
        "the colours of heat, as near as this terminal comes to them",
        glow=GlowData(
            begin=kelvin(450.0),
            end=kelvin(1400.0),
            across=temperature(units),
            at=lambda at, height: at,  # noqa: ARG005
            mark=answers["at"],
        ),
    )


def _thermocouple(answers: Answers, found: Reckoning, units: Units) -> Picture:
    kind, cold = answers["type"], answers.get("cold-junction", kelvin(0.0))
    ends = reference_range(kind)
    at = answers["at"] if "at" in answers else _value(found, "celsius")
    low = max(ends.lowest, kelvin(0.0))
    assert at is not None
    volts = emf(kind, at, cold)
    return Picture(
        f"type {kind.value}: millivolts over the temperature of the warm end",
        TraceData(
            begin=low,
            end=ends.highest,
            measured=_curve(lambda warm: emf(kind, warm, cold), low, ends.highest),
            flags=((at, volts, "♦"),),
            limits=((volts, ""),),
            low=min(0.0, emf(kind, low, cold)),
            high=1.05 * emf(kind, ends.highest, cold),
            across=temperature(units),
            up=_MILLIVOLTS,
        ),
    )


_PICTURES: dict[str, Callable[[Answers, Reckoning, Units], Picture | None]] = {
    "cooling": _warming,
    "soak": _warming,
    "steel": _martensite,
    "carbon": _carbon,
    "scale": _scale,
    "skin": _skin,
    "temper": _temper,
    "glow": _glow,
    "thermocouple": _thermocouple,
}


def _curve(value: Callable[[float], float | None], begin: float, end: float) -> Curve:
    at: Sequence[float] = [begin + (end - begin) * place / _POINTS for place in range(_POINTS + 1)]
    return Curve(at, [value(place) for place in at])


def _value(found: Reckoning, key: str) -> float | None:
    """A figure in SI, where there is one."""
    figure = next((one for one in found.found if isinstance(one, Figure) and one.key == key), None)
    return None if figure is None or figure.reckoned is None else figure.reckoned.value
