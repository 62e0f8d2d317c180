"""The plan that a sitting followed, read from the text that the sitting keeps of it."""

from __future__ import annotations

from functools import lru_cache

from plans.errors import PlansError
from plans.logbook.header import Header
from plans.plan import Plan


def plan_if_known(header: Header) -> Plan | None:
    """The plan of a sitting; None where this version can't read it: whoever needs it says why."""
    return _known(header.source, header.plan)


def kept_plan(header: Header) -> Plan:
    """The plan of a sitting; whoever asks for the same one again need not wait.

    Raises:
        PlanError: this version can't read it.
    """
    return _read(header.source, header.plan)


@lru_cache(maxsize=4)
def _known(source: str, name: str) -> Plan | None:
    try:
        return _read(source, name)
    except PlansError:
        return None


@lru_cache(maxsize=4)
def _read(source: str, name: str) -> Plan:
    from plans.reader import read_plan  # for a list of sittings nobody needs it

    return read_plan(source, name, "the plan of this sitting", kept=True)
