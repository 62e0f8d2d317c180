"""From the text of a plan file to a plan."""

from __future__ import annotations

from typing import Final

from plans.errors import Fault, FaultKind, PlanError
from plans.plan import Bar, Plan, Step
from plans.reader.answer_file import MADE_FROM
from plans.reader.declaring import read_keys
from plans.reader.keys import BarKeys, PlanKeys
from plans.reader.step_builder import Work, build_step
from plans.reader.text_checks import check_texts
from plans.toml import TomlError, TomlFaults, TomlTable, TomlText, parse_toml

MOST_CHARACTERS: Final = 1_000_000
"""No plan is longer."""


def read_plan(text: str, name: str, file: str, *, kept: bool = False) -> Plan:
    """Read a plan from its text.

    Args:
        text: TOML, as `plans.reader` describes it
        name: how the plan is called on the command line
        file: what an error calls the text
        kept: whether it comes from the log: a brace in its texts that can't be read is then no fault, since they may
            be from before there were quantities in braces

    Raises:
        PlanError: the plan can't be used; it holds every fault that was found.
    """
    toml = _parsed(text, file)
    faults = TomlFaults(toml, ("bar", "step"))
    # what it was made from is for the maker: no wrong word in there keeps a plan from being followed
    table = TomlTable(faults, (), {key: value for key, value in toml.values.items() if key != MADE_FROM})
    keys = read_keys(table, PlanKeys)
    bars = [_bar(table) for table in keys.bar]
    steps = _steps(keys.step, bars)
    if not kept:
        check_texts(table, PlanKeys)
    if faults.found:
        raise PlanError(faults.found)
    sound_bars = tuple(bar for bar in bars if bar is not None)
    sound_steps = tuple(step for step in steps if step is not None)
    return Plan(name, keys.title, keys.about, sound_bars, sound_steps, text)


def _steps(tables: tuple[TomlTable, ...], bars: list[Bar | None]) -> list[Step | None]:
    only = bars[0] if len(bars) == 1 else None
    work = Work(only.section, only.length) if only else Work(known=None not in bars)
    steps = []
    for table in tables:
        step, work = build_step(table, work)
        steps.append(step)
    return steps


def _bar(table: TomlTable) -> Bar | None:
    before = len(table.faults.found)
    keys = read_keys(table, BarKeys)
    return Bar(keys.name, keys.steel, keys.section, keys.length) if len(table.faults.found) == before else None


def _parsed(text: str, file: str) -> TomlText:
    def refusal(what: str, hint: str) -> PlanError:
        return PlanError([Fault(file, None, "", "", what, hint, FaultKind.FILE)])

    if not text.removeprefix("\ufeff").strip():
        raise refusal("the file is empty", "begin with heatbook = 1, a title and a [[step]]")
    if len(text) > MOST_CHARACTERS:
        raise refusal(f"the plan has more than {MOST_CHARACTERS} characters", "that is no plan")
    try:
        return parse_toml(text, file)
    except TomlError as error:
        raise PlanError([error.fault]) from None
