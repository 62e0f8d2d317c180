"""The reckoning of drawing out: how long a bar comes to be."""

from __future__ import annotations

from plans.blows import StruckBy
from plans.press import heats_needed, usual_reduction
from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.bars import of_the_bar
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Figure, Given, given
from plans.reckoner.kinds import LENGTH, NUMBER, SHARE
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Section
from plans.stock import USUAL_SCALE, ScaleLoss, drawn_length, drawn_out
from plans.units import Units

_SOURCE = "constant volume"


def reckon_draw(
    section: Section,
    length: float,
    to: Section,
    loss: float | None = None,
    reduction: Reckoned | None = None,
    scale: Reckoned | None = None,
) -> Reckoning:
    """How long a bar comes to be when it is drawn to a section, by constant volume.

    Args:
        section: of the bar
        length: of the bar [m]
        to: the section that it is drawn to
        loss: share of the steel that is lost meanwhile, from 0 to below 1; None for none, with what scale usually takes
            as the low end
        reduction: share of the area that a heat takes off, with its range; None for what a hand hammer usually does
        scale: share of the steel that a heat takes as scale in this shop, with its range; None for what is usual

    Raises:
        ReckonError: a section or the length is none that can be, or the loss is no share.
    """
    checks.bar(section, length, "from")
    checks.bar(to, None, "to")
    if loss is not None and not 0 <= loss < 1:
        raise ReckonError("loss", f"{loss:g}: give the share that is lost, e.g. 3 %")
    if to.area > section.area:
        raise ReckonError("to", "it is larger than the bar: drawing out makes a section smaller")
    by_heats = None
    if to.area < section.area * (1 - 1e-9):
        by_heats = heats_needed(section, to, reduction or usual_reduction(StruckBy.HAND))
    heats = 1 if by_heats is None else round(by_heats.value)
    full = drawn_length(section, length, to)
    if loss is not None:
        then = Reckoned(full * (1 - loss), "arithmetic", "with the loss that was given", _SOURCE)
    elif scale is not None:
        likely, least, most = ScaleLoss.of(scale).left(heats)
        taken = f"each heat takes {100 * scale.value:.1f} %"

        def by_the_shop(units: Units) -> str:
            return f"{taken}: {units.text(scale.validity)}"

        then = Reckoned(full * likely, scale.basis, by_the_shop, scale.source, full * least, full * most)
    else:
        least = full * USUAL_SCALE.left(heats)[1]
        each = f"{heats} heats that take {USUAL_SCALE.most:.0%} each" if heats > 1 else f"one of {USUAL_SCALE.most:.0%}"
        said = f"nothing lost; the low end is for scale: {each} (common practice, no source)"
        then = Reckoned(full, "arithmetic", said, _SOURCE, least, full)
    ratio = Reckoned(then.value / length, "arithmetic", "length then over length now", _SOURCE)
    asked: list[Given] = [
        *of_the_bar(section, length),
        Given("to", Units.METRIC.section(to), lambda units: f"drawn to {units.section(to)}"),
    ]
    if loss is not None:
        asked.append(given("loss", "loss", loss, SHARE))
    return Reckoning(
        "draw",
        tuple(asked),
        (
            Figure("length_mm", "length then", then, LENGTH),
            Figure("stretch", "times as long", ratio, NUMBER),
            Figure(
                "heats", "heats", by_heats, NUMBER, "the section is as large as the bar's: it only changes its shape"
            ),
        ),
        drawing=drawn_out(section, length, to, then.value),
    )
