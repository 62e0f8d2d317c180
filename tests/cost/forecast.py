"""What a forecast costs, beside scipy's solve_ivp on the same section, and through the arrest beside a plain soak.

By processor time: of so few turns the clock tells as much of what else the machine does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from time import thread_time

from plans.shapes import Form, Section
from plans.warmth.course import Course, Part
from plans.warmth.forecast import hammer_time, soak_time
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import fire, still_air, striking
from tests.cost.row import Row, Timed, by_turns
from tests.outside.sections_by_scipy import Case, solve

COLD, FIRE, SOAKED, LIMIT, BLACK = (celsius + 273.15 for celsius in (20.0, 1250.0, 1200.0, 900.0, 400.0))
SECTIONS = [
    Section(0.0254, 0.0254),
    Section(0.040, 0.008),
    Section(0.050, 0.050),
    Section.round(0.025),
    Section(0.040, 0.006, Form.WEDGE, 0.0015),
    Section(0.040, 0.008, Form.LENS, 0.001),
]


def rows() -> Iterator[Row]:
    """Soak and hammer time of each section against scipy's, and the way through the arrest against its soak."""
    for section in SECTIONS:
        edge = 0.0 if section.edge is None else section.edge * 1000
        bar = str(section.form), section.width * 1000, section.thickness * 1000, edge
        soaking = Case(*bar, "fire", 20.0, 1250.0, 1200.0, 0.8, 20.0, 0.0, 0.0, 20.0)
        struck = Case(*bar, "anvil", 1250.0, 20.0, 900.0, 0.8, 10.0, 143.0, 0.15, 80.0)
        cold, hot = WarmModel(section, None, COLD), WarmModel(section, None, FIRE)
        yield _beside_scipy(f"soak, {_size(section)}", partial(soak_time, cold, fire(FIRE), SOAKED), soaking)
        yield _beside_scipy(f"hammer time, {_size(section)}", partial(_all_parts, hot), struck)
    for section in SECTIONS:
        through, soak = _through_the_arrest(section)
        yield Row(f"forecast through the arrest, {_size(section)}", through, "a soak of the same section", soak, 1.5)


def _beside_scipy(name: str, forecast: Callable[[], object], case: Case) -> Row:
    ours, theirs = by_turns(5, _timed(forecast), _timed(partial(solve, case)))
    return Row(f"forecast of a {name}", ours, "scipy's solve_ivp, BDF", theirs, 1 / 5)


def _all_parts(work: WarmModel) -> list[float | None]:
    course = Course(work.piece, work.heat, striking())
    return [course.time_until(part, LIMIT, falls=True) for part in Part]


def _size(section: Section) -> str:
    return f"{section.form} {section.width * 1000:g} x {section.thickness * 1000:g} mm"


def _through_the_arrest(section: Section) -> list[float]:
    cold, hot = WarmModel(section, None, COLD), WarmModel(section, None, FIRE)
    return by_turns(
        15,
        _timed(lambda: hammer_time(hot, still_air(COLD), BLACK)),
        _timed(lambda: soak_time(cold, fire(FIRE), SOAKED)),
    )


def _timed(forecast: Callable[[], object]) -> Timed:
    def once(_: int) -> float:
        begun = thread_time()
        forecast()
        return thread_time() - begun

    return once
