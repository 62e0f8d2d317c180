"""The two ends of a billet: which becomes the point, what is cut off each, and when the rod comes off."""

from __future__ import annotations

from plans.maker.settled import Settled
from plans.making import Build, What
from plans.stock import Allowances
from plans.units import Units


def is_closed(of: Settled) -> bool:
    """Whether one end of the billet is a point that was welded shut or bent, of which no more is cut off."""
    return of.build in (Build.CORE, Build.WRAPPED)


def ends_cut(of: Settled) -> int:
    """How many ends of the drawn bar are cut off."""
    return 1 if is_closed(of) else 2


def has_rod(of: Settled) -> bool:
    """Whether a rod was welded on for a handle."""
    return of.build is not Build.ONE_STEEL


def cut_off(of: Settled) -> str:
    """What is cut off the drawn bar, as the beginning of a sentence."""
    much = f"{{{Units.METRIC.length(Allowances().ends)}}}"
    rod = " and the rod with it" if has_rod(of) and not _keeps_rod(of) else ""
    if is_closed(of):
        return f"Cut {much} off the {_far(of)}{rod}, and no more off the closed point than is unsound"
    return f"Cut {much} off each end{rod}"


def spare_off(of: Settled) -> str:
    """From which end what is spare is cut, as the end of a sentence."""
    return f"off the {_far(of)} too" if is_closed(of) else "off the end that looks worse"


def tang_end(of: Settled) -> str:
    """Where the tang is drawn, after "from"."""
    if is_closed(of):
        return "the end away from the closed point"
    if of.what is What.DRAWKNIFE:
        return "the end away from the rod" if has_rod(of) else "one end"
    return "one end, and keep the sounder one for the point"


def hold(of: Settled) -> str:
    """How the work is held while the tang, or the first of two, is drawn, as a sentence."""
    return "Hold it by the rod." if has_rod(of) and _keeps_rod(of) else "Hold it by the other end, in tongs that fit."


def _keeps_rod(of: Settled) -> bool:
    """Whether the rod stays on until a tang is drawn: a drawknife has one at the other end first."""
    return of.what is What.DRAWKNIFE and of.is_tanged


def _far(of: Settled) -> str:
    return "tang end" if of.is_tanged else "other end"
