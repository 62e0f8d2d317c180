"""From a finished piece back to the saw cut, and forward: whether bars are enough for it. Volume is held.

What is added on the way back is named (losses.py): the finished volume and all losses make up the stock, to the last.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from plans.record import record
from plans.shapes import Blade, Section
from plans.stock.losses import USUAL_SCALE, Loss, LossKind, ScaleLoss


@record
class Allowances:
    """What is lost between the bar and the finished piece. What it ships with is common practice, no source.

    Raises:
        ValueError: an allowance is below 0, or a share not below 1; the text begins with the attribute's name.
    """

    grinding: float = 0.0005
    """Ground off each face [m]; the carbon ledger tells what it takes to come to sound steel."""
    ends: float = 0.005
    """Cut off each end of what was forged, at its mean section [m]."""
    heats: int = 10
    """How many heats it takes."""
    scale: ScaleLoss = USUAL_SCALE
    """What each of them takes as scale."""
    spare: float = 0.05
    """Left over on purpose, as a share of the bar before the heats."""
    stub: float = 0.0
    """Length of the bar that tongs, a tack or a handle hold, and that is cut off at last [m]."""
    kerf: float = 0.0015
    """Width of the saw cut [m]."""

    def __post_init__(self) -> None:
        for name in ("grinding", "ends", "heats", "stub", "kerf"):
            if getattr(self, name) < 0:
                raise ValueError(f"{name}: it can't be below 0")
        if not 0 <= self.spare < 1:
            raise ValueError("spare: give a share of the bar from 0 to below 1")


@record
class Cut:
    """A length of bar to saw off, and where its steel goes."""

    length: float
    """Length to cut, the saw cut beside it [m]."""
    least: float
    """The same where the heats take little [m]."""
    most: float
    """The same where they take much [m]."""
    finished: float
    """Volume of the finished piece [m3]."""
    losses: tuple[Loss, ...]
    """What else the stock goes to, in the order from the piece back to the bar; together with the piece it is all that
    is taken from the bar, saw cut and all."""


def saw_cut(piece: Blade, bar: Section, allowances: Allowances) -> Cut:
    """How much of a bar makes a piece, by constant volume.

    Args:
        piece: as it shall be when it is finished
        bar: section of the bar
        allowances: what is lost on the way
    """
    left = allowances.scale.left(allowances.heats)
    likely, least_left, most_left = (_stock(piece, bar, allowances, share) for share in left)
    volumes = [piece.volume, *_forged(piece, allowances), *likely]
    kinds = (LossKind.GRINDING, LossKind.ENDS, LossKind.SCALE, LossKind.SPARE, LossKind.STUBS, LossKind.KERF)
    losses = (Loss(kind, more - less) for kind, (less, more) in zip(kinds, pairwise(volumes), strict=True))
    length, most, least = (held / bar.area for _, _, held, _ in (likely, least_left, most_left))
    return Cut(length, least, most, piece.volume, tuple(loss for loss in losses if loss.volume > 0))


def _forged(piece: Blade, allowances: Allowances) -> tuple[float, float]:
    """Volume of what leaves the anvil for the grinder, and before its ends are cut off [m3]."""
    ground = piece.volume + piece.skin * allowances.grinding
    return ground, ground + 2 * allowances.ends * ground / piece.length


def _stock(piece: Blade, bar: Section, allowances: Allowances, left: float) -> tuple[float, float, float, float]:
    """Volume before the heats, with what is spare, with the stub, and with the saw cut [m3].

    Args:
        left: share of the steel that the heats leave
    """
    _, forged = _forged(piece, allowances)
    heated = forged / left
    spared = heated / (1 - allowances.spare)
    held = spared + allowances.stub * bar.area
    return heated, spared, held, held + allowances.kerf * bar.area


@record
class ComesOut:
    """Whether bars are enough for a piece."""

    needed: float
    """Volume that the piece takes, with all its losses but what is spare [m3]."""
    there: float
    """Volume of the bars [m3]."""

    @property
    def spare(self) -> float:
        """What is left over, as a share of the bars; below 0 where they are not enough."""
        return 1 - self.needed / self.there


def comes_out(piece: Blade, bars: Iterable[tuple[Section, float]], allowances: Allowances) -> ComesOut:
    """Whether bars make a piece.

    Args:
        piece: as it shall be when it is finished
        bars: section and length of each [m]; one at least
        allowances: what is lost on the way; what is spare is what is asked, and the saw has cut already
    """
    pieces = list(bars)
    _, forged = _forged(piece, allowances)
    left, _, _ = allowances.scale.left(allowances.heats)
    stubs = sum(allowances.stub * section.area for section, _ in pieces)
    return ComesOut(forged / left + stubs, sum(section.area * length for section, length in pieces))
