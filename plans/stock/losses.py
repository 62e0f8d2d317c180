"""What steel is lost to on its way from the bar to the finished piece: each loss with its name."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from plans.reckoned import Reckoned
from plans.record import record


class LossKind(StrEnum):
    """What steel goes to; its value is how it is written."""

    GRINDING = "grinding"
    """Ground off the forging's faces, down to sound steel."""
    ENDS = "ends"
    """Cut off the ends of what was drawn out: cold shuts, fishtails, layers that did not take."""
    SCALE = "scale"
    """Gone to scale in the heats."""
    SPARE = "spare"
    """Left over on purpose."""
    STUBS = "stubs"
    """Held by a tack weld, tongs or a handle, and cut off at last."""
    KERF = "kerf"
    """Gone to the saw."""
    TRIMMED = "trimmed"
    """Lost in a step besides what scale takes: ends and corners that are cut off."""


@record
class Loss:
    """One loss, by its name."""

    kind: LossKind
    """What the steel goes to."""
    volume: float
    """How much it is [m3]."""


@record
class ScaleLoss:
    """Share of the steel that a heat takes as scale, with its range."""

    likely: float
    """What is usual."""
    least: float
    """A short heat in a fire with little air."""
    most: float
    """A long welding heat in a fire with air to spare."""

    @classmethod
    def of(cls, known: Reckoned) -> ScaleLoss:
        """The loss of a share that is known, with its range where it has one."""
        least, most = (known.value if end is None else end for end in (known.least, known.most))
        return cls(known.value, least, most)

    def left(self, heats: int) -> tuple[float, float, float]:
        """Share of the steel that some heats leave: the likely one, the least and the most."""
        return (1 - self.likely) ** heats, (1 - self.most) ** heats, (1 - self.least) ** heats


USUAL_SCALE: Final = ScaleLoss(0.02, 0.01, 0.03)
"""Scale of one heat: common practice, no source. Reheating furnaces print 1.5 to 3 % (H. Abuluwefa, McGill 1992)."""
