"""What requests to run a sitting are made of; each function imports what it needs when it is called, in a thread."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from tui.config.folders import folders
from tui.running.requests import RunRequest

if TYPE_CHECKING:
    from plans.plan import Plan
    from tui.config.settings import ProbeSetting
    from tui.running.sources import Source


def plan_called(name: str) -> Plan:
    """The plan of that name, or at that path.

    Raises:
        PlanError: there is none, or it can't be used.
    """
    from plans.reader import find_plan

    return find_plan(name, folders().plans)


def probe_or_clock(port: str | None = None, profile: str = "") -> Source:
    """What feeds a real sitting: the probe on a port, or only the clock.

    Raises:
        DeviceError: there is no such profile, or it can't be used.
    """
    from devices.clock import through_sleep
    from tui.running.sources import ClockSource, ProbeSource

    if port is None:
        return ClockSource(through_sleep())
    from devices.profile_reader import find_profile

    return ProbeSource(through_sleep(), port, find_profile(profile, folders().probes))


def sitting_of(plan: Plan, probe: ProbeSetting | None) -> RunRequest:
    """A sitting of a plan, with the probe that the settings name."""
    return RunRequest(
        source=lambda _: _source(probe),
        plan=lambda: plan,
        probe_on=probe.on if probe else None,
        profile=probe.profile if probe else "",
        port=probe.port if probe else "",
    )


def going_on(name: str, probe: ProbeSetting | None) -> RunRequest:
    """To go on with an unfinished sitting, with the probe that the settings name."""
    return RunRequest(source=lambda _: _source(probe), go_on=name, probe_on=probe.on if probe else None)


def _source(probe: ProbeSetting | None) -> Source:
    return probe_or_clock() if probe is None else probe_or_clock(probe.port, probe.profile)


def rehearsal_of(plan: Callable[[], Plan], seed: int, speed: float) -> RunRequest:
    """A rehearsal of a plan; `speed` is rehearsal seconds in one second."""
    from plans.reading import ProbeOn

    def source(found: Plan) -> Source:
        from tui.running.sources import RehearsalSource

        return RehearsalSource(found, seed, speed)

    # Its smith says every word himself, as he does where there is no screen.
    return RunRequest(
        source=source, plan=plan, probe_on=ProbeOn.WORK, profile="rehearsal", hands_free="thermal", seed=seed
    )
