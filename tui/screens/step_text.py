"""What there is to read about a step: instruction, checklist, cautions, and where it stands in the plan."""

from __future__ import annotations

from textual.content import Content

from plans.plan import PhaseKind, Step
from plans.sitting.cautions import for_step
from plans.sitting.engine import Sitting
from tui.widgets.plain import plain
from tui.widgets.steps import StepLine


def instruction_text(step: Step) -> Content:
    """Instruction and checklist as one running text, for little room."""
    parts: list[Content] = []
    if step.instruction:
        parts.append(Content(plain(step.instruction)))
    parts += [Content.assemble(("□ ", "$accent"), plain(item)) for item in step.checklist]
    return Content("\n").join(parts)


def side_text(step: Step) -> Content:
    """Instruction, checklist and cautions, each under its heading."""
    parts = [
        *_part("What to do", [plain(step.instruction)] if step.instruction else []),
        *_part("Before you go on", [f"□ {plain(item)}" for item in step.checklist]),
        *_part("Take care", [plain(caution.text) for caution in for_step(step)]),
    ]
    return Content("\n").join(parts[:-1] if parts else parts)


def _part(heading: str, lines: list[str]) -> list[Content]:
    if not lines:
        return []
    return [Content.styled(heading, "bold $accent"), *map(Content, lines), Content("")]


def step_list(sitting: Sitting) -> tuple[list[StepLine], int, bool]:
    """The steps of the plan as a list shows them, the current one, and whether a heat of it is under way."""
    state = sitting.state
    lines = []
    for number, step in enumerate(sitting.plan.steps):
        planned = state.heats_planned(number)
        done = planned if number < state.step else state.heat - 1 if number == state.step else 0
        lines.append(StepLine(step.title, done, planned))
    if state.finished:
        return lines, len(lines), False
    return lines, state.step, state.phase is not PhaseKind.READY
