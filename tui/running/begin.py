"""How every sitting begins, or is gone on with: on the screen, without one, from a recording, and as a rehearsal."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from plans.logbook import Logbook, LogbookError, LoggedSitting
from plans.phase import IDLE
from plans.shop import Shop
from plans.sitting import Hands, Said, Word
from tui.config import PedalSetting, Settings, read_shop
from tui.running.pedal import stand
from tui.running.requests import RunRequest
from tui.running.running_sitting import RunningSitting
from tui.running.sources import Deliver

Now = Callable[[], datetime]
"""Tells wall time with its offset."""


def begin_sitting(
    request: RunRequest,
    logbook: Logbook,
    settings: Settings,
    shop_file: Path,
    deliver: Deliver,
    now: Now,
    go_ahead: Callable[[], None] = lambda: None,
) -> RunningSitting:
    """Read the plan, open what feeds the sitting, and begin it or go on with it.

    Args:
        request: what is asked for
        logbook: where it is kept
        settings: what may end a phase by itself, where the request does not say it; and the pedal
        shop_file: the smith's own figures, read anew for each sitting; a rehearsal's forge has none
        deliver: where readings go, and what the foot says; called from other threads, before this returns as well
        now: tells wall time with its offset; asked when the sitting begins, since opening a port may take a while
        go_ahead: called before anything is written; raises where the sitting is not wanted any more

    Returns:
        the sitting, running; to be put away by whoever asked for it

    Raises:
        PlansError, DeviceError, OSError: it can't begin. All that was opened is closed again; no sitting was begun, and
            one that was to be gone on with is in the logbook, still unfinished. A rehearsal is not gone on with.
    """
    hands = replace(settings.hands, asks=request.attended)
    if request.hands_free is not None:
        hands = replace(hands, free=request.hands_free)
    pedal = settings.pedal if request.attended else None
    if request.go_on is not None:
        go_ahead()
        return _go_on(request, request.go_on, logbook, hands, pedal, deliver, now)
    assert request.plan is not None, "a request has a plan or a sitting to go on with"
    plan = request.plan()
    source = request.source(plan)
    with ExitStack() as undone:
        undone.callback(source.close)
        lift = stand(pedal, source, deliver)
        undone.callback(lift)
        # A port that can't be opened is found out before there is a sitting.
        source.start(deliver)
        go_ahead()
        logged = LoggedSitting.begin(
            logbook,
            plan,
            now(),
            request.probe_on,
            hands,
            read_shop(shop_file)[0] if request.seed is None else Shop(),
            profile=request.profile,
            port=request.port,
            seed=request.seed,
            lag=source.lag,
        )
        undone.pop_all()
    if request.seed is not None:
        _past_the_bench(logged)
    source.set_time(logged.sitting.now)
    return RunningSitting(logged, source, lift)


def _past_the_bench(logged: LoggedSitting) -> None:
    """A rehearsal begins where there is something to see: bench before the first fire, oven or bath counts as done."""
    said = [Said(0.0, Word.ACKNOWLEDGE)]
    steps = logged.sitting.plan.steps
    first = next((n for n, step in enumerate(steps) if any(phase.kind not in IDLE for phase in step.phases)), 0)
    said += [Said(0.0, Word.ON)] * first
    if first:
        skipped = "the bench step before it counts" if first == 1 else "the bench steps before it count"
        begins = f"it begins at step {first + 1} of {len(steps)}, the first that is not bench work"
        said.append(Said(0.0, Word.NOTE, f"a rehearsal: {begins}; {skipped} as done"))
    logged.begun_with = [event for one in said for event in logged.take(one)]


def _go_on(
    request: RunRequest,
    name: str,
    logbook: Logbook,
    hands: Hands,
    pedal: PedalSetting | None,
    deliver: Deliver,
    now: Now,
) -> RunningSitting:
    _refuse_rehearsal(name, logbook)
    asked_at = now()
    logged = LoggedSitting.go_on(logbook, name, asked_at, request.probe_on, hands)
    with ExitStack() as undone:
        undone.callback(logged.put_away)
        source = request.source(logged.sitting.plan)
        logged.sitting.lag = source.lag
        undone.callback(source.close)
        lift = stand(pedal, source, deliver)
        undone.callback(lift)
        # The clock first: to a link that is open already, the break would be a silence.
        source.set_time(logged.sitting.now + (now() - asked_at).total_seconds())
        source.start(deliver)
        undone.pop_all()
    return RunningSitting(logged, source, lift)


def _refuse_rehearsal(name: str, logbook: Logbook) -> None:
    found = logbook.resolve(name)
    if one := next((one for one in logbook.summaries() if one.id == found and one.rehearsal), None):
        raise LogbookError(
            f"sitting {found} is a rehearsal, and its simulated forge went with it; "
            f"begin it anew: heatbook demo --plan {one.plan}"
        )
