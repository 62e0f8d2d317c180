"""A sitting as text: what `log show` prints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from plans.logbook import (
    BESIDE_HEADING,
    STANDS_OUT_HEADING,
    TOTALS_HEADING,
    HeatFigures,
    KeptSitting,
    LookingBack,
    Progress,
    Timeline,
    plan_if_known,
    went_on_lines,
)
from plans.logbook.lines import (
    CHECKLISTS_HEADING,
    COOLING_HEADING,
    COST_HEADING,
    LESSONS_HEADING,
    MEASURED_HEADING,
    OUTCOME_HEADING,
    PHOTOGRAPHS_HEADING,
    call_text,
    checklist_lines,
    cost_lines,
    factor_lines,
    lesson_line,
    measured_lines,
    outcome_lines,
    photograph_lines,
    stay_lines,
    used_columns,
)
from plans.prose import in_units
from plans.shop import Shop
from plans.shown import show_clock, show_duration
from plans.text import printable
from plans.units import Units


def sitting_text(kept: KeptSitting, units: Units, shop: Shop | None = None, photographs: Path | None = None) -> str:
    """What stands out, heats, planned beside done, calls and notes of one sitting, line by line.

    Args:
        kept: the sitting
        shop: what the shop file says, to stand beside what was learned; None where nobody asks it
        units: that every figure is shown in
        photographs: the folder of the copies of its photographs; None where they are not asked for
    """
    lines = [*_lines(kept, units, shop)]
    if photographs is not None:
        found = photograph_lines(kept.photographs, photographs)
        lines += _part(PHOTOGRAPHS_HEADING, [f"{line.when:>8}  {line.text}: {line.path}" for line in found])
    return "\n".join(map(printable, lines))


def table(heading: Sequence[str], rows: Sequence[Sequence[str]], left: int = 1) -> list[str]:
    """Columns lined up, the first `left` of them to the left and the others to the right."""
    widths = [max(len(row[column]) for row in (heading, *rows)) for column in range(len(heading))]
    return [
        "  ".join(
            cell.ljust(width) if column < left else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in (heading, *rows)
    ]


def _lines(kept: KeptSitting, units: Units, shop: Shop | None) -> Iterator[str]:
    timeline = Timeline.of(kept)
    head, state, back = kept.header, timeline.state, timeline.taken_back
    yield f"{head.id}  {in_units(kept.called, units)}"
    took = show_duration(timeline.seconds)
    yield f"{head.started:%Y-%m-%d %H:%M}, {kept.state.value}, {took}{', a rehearsal' if head.rehearsal else ''}"
    if kept.state is Progress.RUNNING:
        yield f"as far as it was logged at {kept.ended:%H:%M:%S}; what has happened since is not in these figures"
    for at, text in went_on_lines(head, state):
        yield f"at {show_clock(at)} {text}"
    yield from _said_afterwards(kept, units)
    figures = kept.figures
    if figures is None:
        return
    looked_back = LookingBack.of(timeline)
    yield from _part(
        STANDS_OUT_HEADING,
        [f"{show_clock(state.clock(one.at)):>8}  {one.text(units)}" for one in looked_back.findings],
    )
    for step in figures.steps:
        yield ""
        yield f"{step.step + 1} {in_units(step.title, units)}"
        if step.heats:
            yield from (f"  {line}" for line in _heat_table(step.heats, units))
    rows = [
        (str(one.figures.step + 1) if place == 0 else "", *row)
        for one in looked_back.beside
        for place, row in enumerate(one.rows(units))
    ]
    yield from _part(BESIDE_HEADING, table(("step", "", "planned", "done"), rows, left=4) if rows else [])
    if looked_back.totals is not None:
        yield from _part(TOTALS_HEADING, [f"{name} {value}" for name, value in looked_back.totals.named(units)])
    yield from _part(COST_HEADING, cost_lines(figures.cost, units))
    told = [line for _, line in stay_lines(figures.learned)]
    yield from _part(COOLING_HEADING, [*told, *factor_lines(figures.learned, shop)])
    yield from _part(
        "Calls",
        [
            f"{show_clock(state.clock(call.at)):>8}  {call_text(call, units, taken_back=place in back)}"
            for place, call in enumerate(state.calls)
        ],
    )
    measured = measured_lines(state, timeline.plan, units, kept.measured_later, kept.cost)
    yield from _part(MEASURED_HEADING, [f"{line.when:>8}  {line.text}" for line in measured])
    yield from _part(CHECKLISTS_HEADING, [line.text for line in checklist_lines(state, timeline.plan, units)])
    yield from _part("Notes", [f"{show_clock(state.clock(note.at)):>8}  {note.text}" for note in state.notes])


def _said_afterwards(kept: KeptSitting, units: Units) -> Iterator[str]:
    yield from _part(OUTCOME_HEADING, outcome_lines(kept.outcome, plan_if_known(kept.header), units))
    lessons = () if kept.lessons is None else kept.lessons.written
    yield from _part(LESSONS_HEADING, [f"{lesson.number}  {lesson_line(lesson, units)}" for lesson in lessons])


def _part(heading: str, lines: Sequence[str]) -> Iterator[str]:
    """Lines under a heading of their own; nothing where there are none."""
    if lines:
        yield ""
        yield heading
        yield from (f"  {line}" for line in lines)


def _heat_table(heats: Sequence[HeatFigures], units: Units) -> list[str]:
    columns = used_columns(heats)
    rows = [[column.text(heat, units) for column in columns] for heat in heats]
    return table([column.title for column in columns], rows)
