"""What the program is asked to open, what makes such requests, and what is to be said at the end.

Read before the first paint: nothing heavy is imported before it is needed, in a thread.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from plans.record import record
from tui.config import user_folders

if TYPE_CHECKING:
    from plans.plan import Plan, StepKind
    from plans.reader import PlanFile
    from plans.reading import ProbeOn
    from plans.sitting import HandsFree
    from tui.config import ProbeSetting
    from tui.running.sources import RecordingSource, Source


@record
class Shelf:
    """Asks for the shelf: the plans at hand, and the sittings that can be gone on with."""


@record
class LogList:
    """Asks for the log: the list of the sittings that were kept."""

    rehearsals: bool = False
    """Whether the rehearsals are meant, which are kept apart."""


@record
class Reckoner:
    """Asks for the reckoner."""


@record
class Maker:
    """Asks for the maker: a new plan, or one to be changed."""

    file: PlanFile | None = None
    """The plan to be changed; None for a new one. One that is not the smith's own is copied."""
    written: Callable[[str], None] = lambda _: None
    """Called with the name of the plan each time that it has been written down."""


@record
class ReviewRequest:
    """Asks for the whole of one sitting that was kept."""

    id: str
    """The sitting's id, the beginning of it, or `last`."""
    rehearsal: bool = False
    """Whether it is among the rehearsals, which are kept apart."""


@record
class CompareRequest:
    """Asks for several sittings beside one another."""

    ids: tuple[str, ...]
    """Ids of the sittings, two to five; the others are held against the first."""
    rehearsal: bool = False
    """Whether they are among the rehearsals, which are kept apart."""


@record
class TrendsRequest:
    """Asks for how figures go over many sittings."""

    plan: str
    """Name of the plan whose sittings are shown first."""
    kind: StepKind | None = None
    """The kind of step that is shown first; None for all."""
    rehearsal: bool = False
    """Whether the rehearsals are meant, which are kept apart."""


@record
class TaughtList:
    """Asks for what the sittings of the shop teach together."""


@record
class RunRequest:
    """Asks for a sitting: a new one of `plan`, or the one called `go_on` to be gone on with.

    The two functions are called by `tui.running.begin`; on the screen in a thread, after the screen has shown itself,
    so that what they import and read keeps nobody waiting.
    """

    source: Callable[[Plan], Source]
    """Makes what feeds the sitting, not started yet. May raise DeviceError, as its `start` may."""
    plan: Callable[[], Plan] | None = None
    """Reads the plan of a new sitting; None to go on with one. May raise PlanError."""
    go_on: str | None = None
    """Id of an unfinished sitting to go on with; None for a new one."""
    probe_on: ProbeOn | None = None
    """Where the probe sits, on the work or in the fire; None without a probe."""
    profile: str = ""
    """Name of the profile by which the probe talks, for the log; empty without one."""
    port: str = ""
    """The port that the probe is on, or the recording that stands in for it, for the log; empty without one."""
    hands_free: HandsFree | None = None
    """What may end a phase by itself; None goes by the settings."""
    seed: int | None = None
    """Seed of a rehearsal; None for a real sitting."""
    attended: bool = True
    """Whether a smith stands by; without one, as of a recording, the shop's pedal is left alone."""
    speed: float | None = None
    """Rehearsal seconds in one second as it begins; None for as fast as it can, and for a real sitting."""


First = Shelf | LogList | Reckoner | Maker | ReviewRequest | CompareRequest | TrendsRequest | TaughtList | RunRequest
"""What the screen can be asked to open first."""


@record
class Outcome:
    """What is to be said when the screen has gone and the terminal is restored."""

    said: tuple[str, ...] = ()
    """Lines for standard output: where the sitting is kept, how to go on."""
    errors: tuple[str, ...] = ()
    """Lines for standard error."""
    status: int = 0
    """Exit status: 0 done, 1 failed."""


def plan_called(name: str) -> Plan:
    """Read the plan of a name, or at a path.

    Raises:
        PlanError: there is none, or it can't be used.
    """
    from plans.reader import find_plan

    return find_plan(name, user_folders().plans)


def probe_or_clock(probe: ProbeSetting | None) -> Source:
    """Make what feeds a real sitting, not started yet.

    Args:
        probe: which probe, on which port; None for only the clock

    Raises:
        DeviceError: there is no such profile, or it can't be used.
    """
    from devices import through_sleep
    from tui.running.sources import ClockSource, ProbeSource

    if probe is None:
        return ClockSource(through_sleep())
    from devices import find_profile

    return ProbeSource(through_sleep(), probe.port, find_profile(probe.profile, user_folders().probes))


def sitting_of(plan: Callable[[], Plan], probe: ProbeSetting | None, hands_free: HandsFree | None = None) -> RunRequest:
    """Ask for a new sitting of a plan.

    Args:
        plan: reads the plan; may raise PlanError
        probe: the probe that feeds it; None for only the clock
        hands_free: what may end a phase by itself; None goes by the settings
    """
    return RunRequest(
        source=lambda _: probe_or_clock(probe),
        plan=plan,
        probe_on=probe.on if probe else None,
        profile=probe.profile if probe else "",
        port=probe.port if probe else "",
        hands_free=hands_free,
    )


def going_on(name: str, probe: ProbeSetting | None, hands_free: HandsFree | None = None) -> RunRequest:
    """Ask to go on with an unfinished sitting.

    Args:
        name: the sitting's id, the beginning of it, or `last`
        probe: the probe that feeds it from now on; None for only the clock
        hands_free: what may end a phase by itself; None goes by the settings
    """
    return RunRequest(
        source=lambda _: probe_or_clock(probe), go_on=name, probe_on=probe.on if probe else None, hands_free=hands_free
    )


def rehearsal_of(plan: Callable[[], Plan], seed: int, speed: float | None, attended: bool = True) -> RunRequest:
    """Ask for a rehearsal of a plan, on a simulated forge and with a simulated smith.

    Args:
        plan: reads the plan; may raise PlanError
        seed: the same seed gives the same rehearsal
        speed: rehearsal seconds in one second; None for as fast as it can
        attended: whether somebody watches it, who may have a say by the pedal
    """
    from plans.reading import ProbeOn
    from plans.sitting import HandsFree

    def source(found: Plan) -> Source:
        from tui.running.sources import RehearsalSource

        return RehearsalSource(found, seed, speed)

    # Its smith says every word himself, on the screen and without one.
    return RunRequest(
        source=source,
        plan=plan,
        probe_on=ProbeOn.WORK,
        profile="rehearsal",
        hands_free=HandsFree.THERMAL,
        seed=seed,
        attended=attended,
        speed=speed,
    )


def recording_of(
    plan: Callable[[], Plan], recording: RecordingSource, probe_on: ProbeOn, hands_free: HandsFree | None = None
) -> RunRequest:
    """Ask for a sitting on a recording in place of a probe.

    Args:
        plan: reads the plan; may raise PlanError
        recording: the recording
        probe_on: where the recorded probe sat; of no account where the recording has only words
        hands_free: what may end a phase by itself; None goes by the settings

    Raises:
        DeviceError: the recording can't be read, or a row in it is wrong.
    """
    return RunRequest(
        source=lambda _: recording,
        plan=plan,
        probe_on=probe_on if recording.has_readings() else None,
        port=str(recording.path),
        hands_free=hands_free,
        attended=False,
    )
