"""From the text of a plan file to a plan."""

from __future__ import annotations

import re
import tomllib
from typing import Any, Final

from plans.errors import Fault, FaultKind, PlanError
from plans.plan import Bar, Plan, Step
from plans.reader.fields import Source, Table
from plans.reader.step_fields import LONGEST_TEXT, LONGEST_TITLE
from plans.reader.step_rules import check_length, check_section
from plans.reader.step_sense import Work, sensible_step
from plans.reader.toml_lines import key_lines

VERSION: Final = 1
"""The version of the format that this program reads, `heatbook` in the file."""
MOST_STEPS: Final = 99
MOST_BARS: Final = 50
LONGEST_STEEL: Final = 30

MOST_CHARACTERS: Final = 1_000_000
LONGEST_LINE: Final = 4_000
"""Keys of thousands of parts take tomllib minutes."""


def read_plan(text: str, name: str, file: str) -> Plan:
    """Read a plan from its text.

    Args:
        text: TOML, as `plans.reader` describes it
        name: how the plan is called on the command line
        file: what an error calls the text

    Raises:
        PlanError: the plan can't be used; it holds every fault that was found.
    """
    data, source = _toml(text, file)
    top = Table(source, (), data)
    top.check_keys(("heatbook", "title", "about", "bar", "step"), ("heatbook", "title", "step"))
    if "heatbook" in data and (isinstance(data["heatbook"], bool) or data["heatbook"] != VERSION):
        top.shape("heatbook", "is no version that this heatbook reads", f"write heatbook = {VERSION}")
    title = top.line("title", LONGEST_TITLE)
    about = top.paragraphs("about", LONGEST_TEXT)
    bars = [_bar(table) for table in top.tables("bar", MOST_BARS)]
    steps = _steps(top, bars)
    if source.faults:
        raise PlanError(source.faults)
    sound_bars = tuple(bar for bar in bars if bar is not None)
    sound_steps = tuple(step for step in steps if step is not None)
    return Plan(name, title or "", about or "", sound_bars, sound_steps, text)


def _steps(top: Table, bars: list[Bar | None]) -> list[Step | None]:
    only = bars[0] if len(bars) == 1 else None
    work = Work(only.section, only.length) if only else Work(known=None not in bars)
    steps = []
    for table in top.tables("step", MOST_STEPS):
        step, work = sensible_step(table, work)
        steps.append(step)
    return steps


def _bar(table: Table) -> Bar | None:
    name = table.line("name", LONGEST_TITLE)
    if name is not None:
        table.source.titles[table.path] = f'bar {int(table.path[-1]) + 1} "{name}"'
    keys = ("name", "steel", "section", "length")
    table.check_keys(keys, keys)
    steel = table.line("steel", LONGEST_STEEL)
    section, length = table.section("section"), table.quantity("length", "length")
    check_section(table, "section", section)
    check_length(table, "length", length)
    if name is None or steel is None or section is None or length is None:
        return None
    return Bar(name, steel, section, length)


def _toml(text: str, file: str) -> tuple[dict[str, Any], Source]:
    """The text as tomllib reads it, and where everything stands."""

    def refuse(line: int | None, what: str, hint: str) -> PlanError:
        return PlanError([Fault(file, line, "", "", what, hint, FaultKind.FILE)])

    text = text.removeprefix("\ufeff")
    if not text.strip():
        raise refuse(None, "the file is empty", "begin with heatbook = 1, a title and a [[step]]")
    if len(text) > MOST_CHARACTERS:
        raise refuse(None, f"the plan has more than {MOST_CHARACTERS} characters", "that is no plan")
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            raise refuse(number, f"the line has more than {LONGEST_LINE} characters", "break it up")
    try:
        data = tomllib.loads(text)
        return data, Source(file, key_lines(text))
    except RecursionError:
        raise refuse(None, "lists or tables stand too deep inside each other", "a plan needs two levels") from None
    except ValueError as error:
        raise refuse(*_syntax(str(error), text)) from None


def _syntax(message: str, text: str) -> tuple[int, str, str]:
    found = re.search(r" \(at (?:line ([0-9]+), column ([0-9]+)|end of document)\)$", message)
    hint = "mend the TOML there: a key, an equals sign, and text in quotes"
    if found is None:
        return 1, f"this is no TOML: {message}", hint
    what = f"this is no TOML: {message[: found.start()]}"
    if found.group(1) is None:
        return max(1, len(text.splitlines())), f"{what}, at the end", hint
    return int(found.group(1)), f"{what}, in column {found.group(2)}", hint
