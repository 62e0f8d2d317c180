"""Plans that are hard to rehearse, generated ones, and what a rehearsal must have come to by its end."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader import find_plan
from plans.sitting.call_row import Role
from plans.sitting.events import Begun, Called, Eased, Ended, LeftFire

_ALL = ("fire", "soak", "strike", "air", "quench", "oven", "dip", "bench")
_ANSWERED_WITHIN = 330.0
"""The smith may leave a soak for five minutes once, and is a few seconds late else [s]."""

HARD = {
    "harden, temper twice, etch with three dips": """
[[bar]]
name = "blade"
steel = "1084"
section = "30 x 5 mm"
length = "250 mm"
[[step]]
title = "Clean it"
kind = "bench"
[[step]]
title = "Harden"
kind = "harden"
fire = "840 degC"
heat_to = "815 degC"
soak = "4 min"
quench = { medium = "oil at {55 degC}", for = "12 s", within = "3 s" }
[[step]]
title = "Temper twice"
kind = "temper"
heats = 2
oven = { at = "200 degC", for = "2 h", within = "2 h" }
air = { until = "60 degC" }
[[step]]
title = "Etch"
kind = "etch"
heats = 3
dip = { medium = "ferric chloride, 1 part to 4 of water", for = "12 min" }
""",
    "bench only": """
[[step]]
title = "File"
kind = "bench"
[[step]]
title = "Polish"
kind = "bench"
heats = 3
""",
    "no fire, no bar, no section": """
[[step]]
title = "Temper"
kind = "temper"
heats = 2
oven = { at = "200 degC", for = "1 h" }
[[step]]
title = "Etch"
kind = "etch"
dip = { medium = "acid", for = "0.5 s" }
""",
    "every phase in one step of a wire": f"""
[[step]]
title = "All at once"
kind = "forge"
phases = {list(_ALL)}
fire = ["900 degC", "850 degC"]
heat_to = ["890 degC", "845 degC"]
keep_above = "700 degC"
section = "0.5 x 0.5 mm"
air = {{ until = "40 degC" }}
quench = {{ medium = "brine", for = "1 s", within = "0.5 s" }}
oven = {{ at = "1300 degC", for = "5 min" }}
dip = {{ medium = "acid", for = "0.5 s" }}
""",
    "no soak, flux, a thin tip, a press, an end by the smith's word": """
[[step]]
title = "Weld"
kind = "weld"
phases = ["fire", "strike"]
fire = ["1300 degC", "1280 degC", "1260 degC"]
heat_to = ["1260 degC", "1240 degC", "1220 degC"]
flux_at = "850 degC"
keep_above = "1000 degC"
burn_above = "1270 degC"
section = "20 x 10 mm"
reach = "20 x 8 mm"
thin = "10 x 2 mm"
thin_length = "40 mm"
struck_by = "press"
[[step]]
title = "Let it cool"
kind = "anneal"
phases = ["fire", "air"]
fire = "800 degC"
[[step]]
title = "Look at the fire"
kind = "forge"
phases = ["fire"]
fire = "800 degC"
""",
    "a bar of 100 mm through and through, cooled for a night": """
[[step]]
title = "Anneal"
kind = "anneal"
fire = "850 degC"
section = "100 x 100 mm"
length = "400 mm"
air = { until = "60 degC", for = "12 h" }
""",
}
"""The text of each plan, without its head."""


def plan_of(text: str, folder: Path) -> Plan:
    """The plan of a text without its head, read from a file in a folder as the program reads it."""
    path = folder / "hard.toml"
    path.write_text(f'heatbook = 1\ntitle = "Hard"\n{text}')
    return find_plan(str(path), None)


@st.composite
def plans(draw: Any) -> str:
    """The texts of plans of up to three steps, with any phases in any order that a plan may have them in."""
    return "\n".join(draw(_steps()) for _ in range(draw(st.integers(1, 3))))


def _may_follow(phase: str, before: Sequence[str]) -> bool:
    """Whether a phase may stand there; as a smith would say it, not as the reader does."""
    last = before[-1] if before else ""
    match phase:
        case "soak":
            return last == "fire"
        case "strike":
            return last in ("fire", "soak")
        case "air" | "quench":
            return "fire" in before or "oven" in before
        case _:
            return True


@st.composite
def _steps(draw: Any) -> str:
    phases: list[str] = []
    for phase in draw(st.permutations(_ALL)):
        if _may_follow(phase, phases) and (not phases or draw(st.booleans())):
            phases.append(phase)
    heats, side = draw(st.integers(1, 2)), draw(st.sampled_from([2, 5, 12]))
    rows = [f"phases = {phases}", f"heats = {heats}", f'section = "{2 * side} x {side} mm"']
    hottest = draw(st.integers(760, 1200))
    oven = draw(st.integers(150, 900))
    if "fire" in phases:
        rows.append(f"fire = {[f'{hottest + 40 - 30 * heat} degC' for heat in range(heats)]}")
        rows.append(f"heat_to = {[f'{hottest - 30 * heat} degC' for heat in range(heats)]}")
    if "soak" in phases:
        rows.append(f"soak = {draw(st.sampled_from(['auto', '30 s', '3 min']))!r}")
    if "strike" in phases:
        rows.append(f'keep_above = "{hottest - draw(st.integers(60, 250))} degC"')
    if "air" in phases and draw(st.booleans()):
        came_from = [phase for phase in phases[: phases.index("air")] if phase in ("fire", "oven")][-1]
        cool_to = draw(st.integers(80, (oven if came_from == "oven" else hottest - 30) - 10))
        rows.append("air = { " + draw(st.sampled_from([f'until = "{cool_to} degC"', 'for = "2 min"'])) + " }")
    times = st.sampled_from(["1 s", "40 s", "20 min"])
    if "quench" in phases:
        medium = draw(st.sampled_from(["oil at {60 degC}", "water", "salt at {220 degC}", "still air"]))
        rows.append(f'quench = {{ medium = "{medium}", for = "{draw(times)}", within = "3 s" }}')
    if "oven" in phases:
        rows.append(f'oven = {{ at = "{oven} degC", for = "{draw(times)}", within = "1 h" }}')
    if "dip" in phases:
        rows.append(f'dip = {{ medium = "acid", for = "{draw(times)}" }}')
    kind = draw(st.sampled_from(["weld", "draw", "forge", "normalize", "anneal", "harden", "temper", "etch", "bench"]))
    return "\n".join(["[[step]]", 'title = "A step"', f'kind = "{kind}"', *rows])


def check(plan: Plan, played: Any) -> None:
    """Hold a rehearsal to this: it ended, each planned heat had each phase and no other, and no call was left hanging.

    Args:
        plan: what was rehearsed
        played: the rehearsal
    """
    assert played.sitting.state.finished
    for number, step in enumerate(plan.steps):
        kinds = {phase.kind for phase in step.phases}
        for heat in range(1, step.heats + 1):
            had = {begun.phase for begun, _ in played.begun if (begun.step, begun.heat) == (number, heat)}
            assert kinds <= had <= kinds | {PhaseKind.READY}, (number, heat)
    called: Called | None = None
    for entry in played.entries:
        if isinstance(entry, Called) and entry.call.row.role in (Role.PROMPT, Role.ALARM):
            called = called or entry
        elif isinstance(entry, Begun | Eased | LeftFire | Ended) or (
            isinstance(entry, Called) and entry.call.row.role is Role.SPELL
        ):
            assert called is None or entry.at - called.at < _ANSWERED_WITHIN, called
            called = None
    assert called is None
