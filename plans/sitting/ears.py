"""What a probe that is believed tells of its own accord: where the temperature turned, and where it paused."""

from __future__ import annotations

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.shapes import Section
from plans.sitting.arrest import ArrestWatch
from plans.sitting.events import Begun, Event, WentOn
from plans.sitting.pace import TRANSFORMS_BELOW, section_at
from plans.sitting.senses import Probe
from plans.sitting.turning import BRIGHTENING, RISE, Turn, TurningPoints, fall_within


class Ears:
    """Listens to what is believed of a probe, reading by reading, for what work or fire did."""

    def __init__(self) -> None:
        self._turns = TurningPoints()
        self._arrest = ArrestWatch()
        self._section: tuple[int, int, Section | None] = -1, 0, None
        """Step, heat and section that were asked for last."""

    def follow(self, event: Event) -> None:
        """Begin anew where an event says that what comes is not to be compared with what was before."""
        if isinstance(event, WentOn):
            self.forget()
        elif isinstance(event, Begun) and event.phase is PhaseKind.AIR:
            self._arrest = ArrestWatch()

    def forget(self) -> None:
        """The probe was lost, or nobody listened for a time: no turn is told from what was before."""
        self._turns.forget()

    def arrest_began(self, at: float, probe: Probe, probe_on: ProbeOn | None, begun: Begun, plan: Plan) -> float | None:
        """Hear whether work in the air pauses in its fall.

        Args:
            at: time of the newest reading, which is believed [s]
            probe: what is believed of it
            probe_on: where it sits
            begun: the phase that goes on
            plan: what is to be done

        Returns:
            when an arrest began [s], once it is borne out
        """
        if begun.phase is not PhaseKind.AIR or probe_on is not ProbeOn.WORK or probe.kelvin is None:
            return None
        return self._arrest.hear(at, probe.kelvin, self._section_in(begun, plan))

    def turn(self, at: float, probe: Probe, probe_on: ProbeOn | None, begun: Begun, plan: Plan) -> Turn | None:
        """Hear whether the temperature turned, as work does that goes into the fire or comes out.

        Args:
            at: time of the newest reading, which is believed [s]
            probe: what is believed of it
            probe_on: where it sits
            begun: the phase that goes on
            plan: what is to be done

        Returns:
            the turn that it bears out, if any
        """
        if probe.kelvin is None:
            return None
        if probe.anew:
            # What no steel can do was not done by the work: the probe slipped, or was set on anew.
            self._turns.forget()
        section = self._section_in(begun, plan) if probe_on is ProbeOn.WORK else None
        may_brighten = begun.phase is PhaseKind.AIR and probe.kelvin < TRANSFORMS_BELOW
        rise = BRIGHTENING if may_brighten else RISE
        return self._turns.hear(at, probe.kelvin, rise, fall_within(section, probe.kelvin))

    def _section_in(self, begun: Begun, plan: Plan) -> Section | None:
        """The section in the heat that goes on, which is asked for at every reading."""
        if self._section[:2] != (begun.step, begun.heat):
            self._section = begun.step, begun.heat, section_at(plan, begun.step, begun.heat)
        return self._section[2]
