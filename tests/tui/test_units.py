"""With `units = "inch"` set, no figure that the program writes is metric, wherever it is shown or said.

Excepted is what a plan's author wrote in prose: title, about, the names of bars, instruction, checklist and cautions
are shown as they were written, and so is the source of a plan in an exported page. The plan that is followed here
(`draw.toml`) has no figures in its prose; the plans on the shelf, which do, are looked at with their author's texts
taken out of what is shown, and an exported page without the section that holds the plan's source.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from textual.widgets import Input, OptionList, Static, Tabs

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader import read_plan_file, shelf_plans
from plans.reading import Reading
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word
from plans.sitting.glance import glance_at
from plans.sitting.saying import Volume
from plans.sitting.spoken.talk import Talk
from plans.steel import all_grades
from plans.units import Units
from tui.reckoner.questions import QUESTIONS
from tui.running.requests import Reckoner, Shelf
from tui.screens.plan_text import plan_text
from tui.widgets.lines import SplitLine

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker

INCH = 'units = "inch"\n'
SIZES = [(80, 24), (120, 35)]
PLAN = Path(__file__).with_name("draw.toml")
_METRIC = re.compile(r"deg ?C\b|°C|\d ?[cm]m\b|\d ?K\b(?!/)")
_SOURCES = tuple(one.source.text for grade in all_grades() for one in grade.stated)
"""Published sources by name, one of which says at which rate its steels were heated, in K/h."""
_FORMULA = "in degC and mass %"
"""The units that a published formula is written in."""


def metric(text: str, *prose: str) -> list[str]:
    """What is metric in a text, each with the words around it; `prose` is what an author wrote, and is left out."""
    text = " ".join(text.split())
    for written in (*_SOURCES, _FORMULA, *prose):
        text = text.replace(" ".join(written.split()), " ")
    return [text[max(0, found.start() - 40) : found.end() + 10] for found in _METRIC.finditer(text)]


def screen(on: Stage) -> str:
    return "\n".join(on.rows())


# The screens


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_a_sitting_from_phase_to_phase(stage: StageMaker, size: tuple[int, int]) -> None:
    """Ready, fire, soak, strike, too cold, the step sheet, the help, the note, the summary, and the review."""
    seen: list[str] = []

    def look(on: Stage, phase: PhaseKind | None = None) -> None:
        if phase is not None:
            assert on.running.sitting.state.phase is phase
        seen.append(screen(on))
        assert metric(seen[-1]) == []

    async with stage(size=size, settings=INCH) as on:
        state = on.running.sitting.state
        look(on)
        await on.say(Word.NEXT)
        look(on, PhaseKind.READY)
        for key in ("enter", "question_mark"):
            await on.press(key)
            look(on)
            await on.press("escape")
        await on.press("space")
        await on.pass_time(3)
        look(on, PhaseKind.FIRE)
        await on.until(lambda: state.phase is PhaseKind.SOAK)
        look(on, PhaseKind.SOAK)
        await on.until(lambda: Call.SOAK_DONE in state.alarms)
        look(on)
        await on.press("space")
        await on.pass_time(3)
        look(on, PhaseKind.STRIKE)
        await on.until(lambda: Call.TOO_COLD in state.alarms)
        await on.pass_time(2)
        look(on)
        on.app.say(Word.NOTE, "left corner runs ahead")
        await on.say(Word.FINISH)
        look(on)
        await on.press("space")
        await on.opened()
        for _ in range(12):
            look(on)
            await on.press("down")
    assert any("degF" in text for text in seen)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_every_plan_on_the_shelf(stage: StageMaker, size: tuple[int, int]) -> None:
    async with stage(size=size, first=Shelf(), settings=INCH) as on:
        listed = on.app.screen.query_one(OptionList)
        for plan in shelf_plans(on.folders.plans):
            listed.highlighted = listed.get_option_index(f"plan {plan.name}")
            await on.pilot.pause()
            about = on.app.screen.query_one("#words", Static)
            assert "degF" in str(about.content)
            assert plan.plan is not None
            assert metric(str(about.content), *prose(plan.plan)) == []
            assert metric(plan_text(plan, Units.INCH).plain, *prose(plan.plan)) == []


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("name", [*QUESTIONS, "steels"])
async def test_the_reckoner(stage: StageMaker, size: tuple[int, int], name: str) -> None:
    """Each question with its example, and then with every field filled or emptied: answers, notes, hints, axes."""
    async with stage(size=size, first=Reckoner(), settings=INCH) as on:
        on.app.screen.query_one(Tabs).active = f"tab-{name}"
        await on.pilot.pause()
        await on.pilot.pause()
        assert metric(screen(on) + "\n" + answer(on)) == []
        for entry in on.app.screen.query(Input):
            entry.focus()
            await on.pilot.pause()
            assert metric(str(on.app.screen.query_one("#hint", SplitLine).render())) == []
            before, entry.value = entry.value, ""
            await on.pilot.pause()
            assert "is missing" not in answer(on) or metric(answer(on)) == []
            entry.value = before


def answer(on: Stage) -> str:
    return str(on.app.screen.query_one("#words", Static).content)


# The command line


RECORDING = (
    ["0,900,next", "1,1000,next"]
    + [f"{at},1200," for at in range(2, 10)]
    + ["10,1275,out", "11,1200,"]
    + [f"{at},1050," for at in range(12, 20)]
    + ["20,1000,next", "21,1000,finish"]
)
"""A weld heat: too cold while it is struck."""


@pytest.fixture
def sat(home: Path, tmp_path: Path, heatbook: Callable[..., Any]) -> str:
    """What a sitting without a screen said; it lies in the log then."""
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text(INCH)
    rows = tmp_path / "heat.csv"
    rows.write_text("\n".join(["seconds,celsius,word", *RECORDING]) + "\n")
    done = heatbook("run", str(PLAN), "--readings", str(rows), "--hands-free", "never")
    assert done.returncode == 0, done.stderr
    return str(done.stdout)


def test_the_lines_without_a_screen(sat: str) -> None:
    assert "TOO COLD" in sat
    assert "degF" in sat
    assert metric(sat) == []


@pytest.mark.usefixtures("sat")
def test_the_log_and_the_page(ask: Callable[..., Any], tmp_path: Path) -> None:
    shown = ask("log", "show", "last").stdout
    assert "degF" in shown
    assert " in (between" in shown
    assert metric(shown) == []
    page = tmp_path / "page.html"
    assert ask("log", "export", "last", "--to", "html", "--out", str(page)).returncode == 0
    text, _, source = page.read_text(encoding="utf-8").partition('<section class="plan">')
    assert "1300 degC" in source, "as its author wrote it"
    assert "°F" in text
    assert "1 1/4 x 23/32 in" in text
    assert metric(re.sub("<style>.*?</style>", "", text, flags=re.DOTALL)) == []
    ticks = [int(found) for found in re.findall(r'<text class="scale"[^>]*>(\d+)</text>', text)]
    assert ticks == list(range(0, max(ticks) + 1, 400))


@pytest.mark.usefixtures("sat")
def test_rows_and_documents_stay_metric(ask: Callable[..., Any], tmp_path: Path) -> None:
    texts: list[str] = []
    for settings in (INCH, ""):
        (tmp_path / "home" / "heatbook.toml").write_text(settings)
        for form in ("csv", "json"):
            out = tmp_path / f"{len(texts)}.{form}"
            assert ask("log", "export", "last", "--to", form, "--out", str(out)).returncode == 0
            texts.append(out.read_text(encoding="utf-8"))
    assert texts[:2] == texts[2:]


@pytest.mark.parametrize("name", QUESTIONS)
def test_the_help_of_the_reckoner(home: Path, ask: Callable[..., Any], name: str) -> None:
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text(INCH)
    assert metric(ask("reckon", name, "--help").stdout) == []


@pytest.mark.parametrize(
    "asked",
    [
        'steel 52100 --at "1550 degF"',
        'steel 1084 --at "1500 degF"',
        "steel --c 1.1 --v 0.2 --cr 1",
        "thermocouple --type K --mv 41.276",
        'thermocouple --type B --at "2800 degF"',
        'thermocouple --type S --at "3000 degF"',
        'glow --at "1800 degF"',
    ],
)
def test_the_footnotes_of_the_reckoner(home: Path, ask: Callable[..., Any], asked: str) -> None:
    """What is remarked of a figure: how far a formula reads low, how close a table was turned round."""
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text(INCH)
    said = ask("reckon", *shlex.split(asked))
    assert said.returncode == 0, said.stderr
    assert metric(said.stdout) == []


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ('thermocouple --type K --at "5000 degF"', "of 2760 degC (5000 degF) is out of its range"),
        ('thermocouple --type K --at "5000 degF"', "-270 to 1372 degC (-454 to 2501.6 degF)"),
        ('thermocouple --type K --at "500 degF" --cold-junction "5000 degF"', "2760 degC (5000 degF)"),
        ("thermocouple --type B --mv 0.1", "250 to 1820 degC (482 to 3308 degF)"),
        ('temper --carbon 0.8 --at "1652 degF" --for "1 h"', "900 degC (1652 degF): give a temperature from"),
        ('temper --carbon 0.8 --at "1652 degF" --for "1 h"', "727 degC (1340.6 degF)"),
        ('temper --carbon 0.8 --at "1292 degF" --for "9 h" --instead-at "212 degF"', "100 degC (212 degF)"),
        ('soak --section "round 1 in" --fire "2300 degF" --middle "2299 degF"', "10 K (18 degF) below the fire's"),
        ('cooling --section "1 x 1 in" --from "2300 degF" --to "70 degF"', "10 K (18 degF) above the air's"),
    ],
)
def test_errors_of_the_reckoner_name_both(home: Path, ask: Callable[..., Any], asked: str, said: str) -> None:
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text(INCH)
    refused = ask("reckon", *shlex.split(asked))
    assert refused.returncode != 0
    assert said in " ".join(refused.stderr.split())


# Aloud


def test_sentences() -> None:
    """The skin that ends the first weld heat is 1260 degC, which are 2300 degF."""
    plan, talk = read_plan_file(PLAN), Talk(Volume.ALL, Units.INCH)
    sitting = Sitting(plan)
    taken = [*sitting.open(), *sitting.take(Said(1.0, Word.NEXT)), *sitting.take(Said(3.0, Word.NEXT))]
    events = [entry for entry in taken if not isinstance(entry, Reading)]
    said = [saying.text for saying in talk.hear(events, glance_at(sitting, 3.0))]
    assert "heat to 2300 degrees" in said


def prose(plan: Plan) -> Iterator[str]:
    """What the author of a plan wrote in words."""
    yield plan.title
    yield from re.split(r"\n\s*\n", plan.about)
    yield from (bar.name for bar in plan.bars)
    yield from (step.title for step in plan.steps)
