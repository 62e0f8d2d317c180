"""One [[step]] of a plan file as it stands there: keys, types, quantities; what is absent stays None."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from plans.plan import USUAL_PHASES, PhaseKind, StepKind
from plans.reader.fields import Table
from plans.section import Section

MOST_HEATS: Final = 99
MOST_LAYERS: Final = 100_000
MOST_ITEMS: Final = 20
"""Of a checklist and of the cautions."""
LONGEST_TITLE: Final = 60
LONGEST_ITEM: Final = 160
LONGEST_TEXT: Final = 2000

PHASES: Final = tuple(kind for kind in PhaseKind if kind is not PhaseKind.READY)

STEP_KEYS: Final = (
    "title",
    "kind",
    "instruction",
    "phases",
    "fire",
    "heat_to",
    "keep_above",
    "burn_above",
    "soak",
    "soak_at_most",
    "even_within",
    "heats",
    "section",
    "length",
    "reach",
    "reach_length",
    "thin",
    "thin_name",
    "layers",
    "turn_every",
    "checklist",
    "cautions",
    "air",
    "quench",
    "oven",
    "dip",
)

PHASE_KEYS: Final[dict[PhaseKind, tuple[tuple[str, ...], tuple[str, ...]]]] = {
    PhaseKind.AIR: (("until", "for"), ()),
    PhaseKind.QUENCH: (("medium", "for", "within"), ("medium", "for")),
    PhaseKind.OVEN: (("at", "for", "within"), ("at", "for")),
    PhaseKind.DIP: (("medium", "for"), ("medium", "for")),
}
"""For each phase that has a table of its own: the keys it may have, and those that it must."""


@dataclass(frozen=True, slots=True)
class PhaseFields:
    """The table of an air, quench, oven or dip phase, in SI."""

    until: float | None = None
    seconds: float | None = None
    within: float | None = None
    at: float | None = None
    medium: str = ""


@dataclass(frozen=True, slots=True)
class StepFields:
    """A step as written, in SI; a single `fire` or `heat_to` stays single, since a list must agree with the heats."""

    title: str
    kind: StepKind
    instruction: str
    phases: tuple[PhaseKind, ...]
    fire: float | tuple[float, ...] | None
    heat_to: float | tuple[float, ...] | None
    keep_above: float | None
    burn_above: float | None
    soak: float | None
    """None: the warm model decides."""
    soak_at_most: float | None
    even_within: float | None
    heats: int | None
    """None: not said, or auto."""
    auto_heats: bool
    section: Section | None
    length: float | None
    reach: Section | None
    reach_length: float | None
    thin: Section | None
    thin_name: str | None
    layers: int | None
    turn_every: float | None
    checklist: tuple[str, ...]
    cautions: tuple[str, ...]
    tables: dict[PhaseKind, PhaseFields]


def read_step(table: Table) -> StepFields | None:
    """The step's fields; None where it lacks what a step can't be without. Faults go to the table's source."""
    title = table.line("title", LONGEST_TITLE)
    if title is not None:
        number = int(table.path[-1]) + 1
        table.source.titles[table.path] = f'step {number} "{title}"'
    table.check_keys(STEP_KEYS, ("title", "kind"))
    kind = table.choice("kind", tuple(StepKind))
    phases = table.choices("phases", PHASES)
    auto_heats = table.values.get("heats") == "auto"
    fields = StepFields(
        title=title or "",
        kind=kind or StepKind.BENCH,
        instruction=table.paragraphs("instruction", LONGEST_TEXT) or "",
        phases=USUAL_PHASES[kind or StepKind.BENCH] if phases is None else phases,
        fire=table.quantities("fire", "temperature", MOST_HEATS),
        heat_to=table.quantities("heat_to", "temperature", MOST_HEATS),
        keep_above=table.quantity("keep_above", "temperature"),
        burn_above=table.quantity("burn_above", "temperature"),
        soak=None if table.values.get("soak") == "auto" else table.quantity("soak", "time"),
        soak_at_most=table.quantity("soak_at_most", "time"),
        even_within=table.quantity("even_within", "temperature difference"),
        heats=None if auto_heats else table.count("heats", MOST_HEATS),
        auto_heats=auto_heats,
        section=table.section("section"),
        length=table.quantity("length", "length"),
        reach=table.section("reach"),
        reach_length=table.quantity("reach_length", "length"),
        thin=table.section("thin"),
        thin_name=table.line("thin_name", LONGEST_TITLE),
        layers=table.count("layers", MOST_LAYERS),
        turn_every=table.quantity("turn_every", "time"),
        checklist=table.texts("checklist", MOST_ITEMS, LONGEST_ITEM),
        cautions=table.texts("cautions", MOST_ITEMS, LONGEST_ITEM),
        tables={phase: _phase(part, phase) for phase in PHASE_KEYS if (part := table.table(phase.value)) is not None},
    )
    return None if title is None or kind is None else fields


def _phase(table: Table, phase: PhaseKind) -> PhaseFields:
    table.check_keys(*PHASE_KEYS[phase])
    known = PHASE_KEYS[phase][0]
    return PhaseFields(
        until=table.quantity("until", "temperature") if "until" in known else None,
        seconds=table.quantity("for", "time"),
        within=table.quantity("within", "time") if "within" in known else None,
        at=table.quantity("at", "temperature") if "at" in known else None,
        medium=(table.line("medium", LONGEST_TITLE) or "") if "medium" in known else "",
    )
