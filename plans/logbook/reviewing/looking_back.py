"""A kept sitting looked back on: what stands out, what it comes to, and what was planned beside what was done.

Text, screen, page and JSON all take it from here.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from plans.logbook.figures import Finding, Toll
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.reviewing.beside import Beside, planned_beside_done
from plans.logbook.reviewing.standing_out import standing_out
from plans.logbook.reviewing.timeline import Timeline
from plans.logbook.reviewing.totals import Totals, totals
from plans.record import record
from plans.units import Units

STANDS_OUT_HEADING = "What stands out, the most costly first"
"""The heading above the findings."""
TOLLS = "; then ".join(toll.words for toll in Toll)
"""What that is, the dearest first: "steel damaged; then ..."."""
BESIDE_HEADING = "Planned beside done"
"""The heading above what each step was planned to be, beside what was done."""
TOTALS_HEADING = "All together"
"""The heading above the totals."""


@record
class LookingBack:
    """What is to be said of a sitting as a whole, besides its figures."""

    timeline: Timeline
    """The sitting, told again."""
    findings: tuple[Finding, ...]
    """What stands out, the most costly first."""
    totals: Totals | None
    """What its heats come to; None where no figures could be worked out."""
    beside: tuple[Beside, ...]
    """Each step in which a heat was begun, planned beside done."""

    @classmethod
    def of(cls, timeline: Timeline) -> LookingBack:
        """Look back on a sitting."""
        return cls(timeline, standing_out(timeline), totals(timeline), planned_beside_done(timeline))

    def with_said(self, kept: KeptSitting) -> LookingBack:
        """Look back on the same sitting, of which something else was said since."""
        timeline = replace(self.timeline, kept=kept)
        return replace(self, timeline=timeline, beside=planned_beside_done(timeline))

    def beside_of(self, step: int) -> Beside | None:
        """A step, by its number from 0, planned beside done; None where no heat of it was begun."""
        return next((one for one in self.beside if one.figures.step == step), None)


def outline(kept: KeptSitting) -> dict[str, Any]:
    """What `log show --json` prints: the sitting and its figures, and what looking back on it tells."""
    back = LookingBack.of(Timeline.of(kept))
    if back.totals is None:
        return kept.outline()
    return kept.outline() | {
        "totals": back.totals.to_record(),
        "planned_beside_done": [one.to_record() for one in back.beside],
        "stands_out": [_finding_record(one) for one in back.findings],
    }


def _finding_record(finding: Finding) -> dict[str, Any]:
    return {
        "what": finding.what.value,
        "costs": finding.toll.word,
        "step": finding.step + 1,
        "heat": finding.heat,
        "at_seconds": round(finding.at, 3),
        "basis": finding.basis.value,
        "text": finding.text(Units.METRIC),
    }
