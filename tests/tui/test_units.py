"""With `units = "inch"` set, no figure that the program writes is metric, wherever it is shown or said.

The plan that is followed (`figures.toml`) has every phase, and a quantity in each of its texts. Excepted are the source
of a plan in an exported page, which stands there as its author wrote it, and forms for other programs: CSV below its
head, and JSON.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from textual.widgets import OptionList, Static

from plans.phase import PhaseKind
from plans.prose import in_units
from plans.reader import SHELF, ShelfPlan, read_plan_file
from plans.reading import Reading
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word
from plans.sitting.glance import glance_at
from plans.sitting.saying import Volume
from plans.sitting.spoken.talk import Talk
from plans.units import Units
from tests.inches import metric
from tests.shelf_plans import shelf_plans
from tui.reckoner.answer_pane import AnswerPane
from tui.reckoner.fields import QuestionFields
from tui.reckoner.questions import QUESTIONS
from tui.running.requests import LogList, Reckoner, Shelf
from tui.shelf.plan_text import plan_text
from tui.widgets.lines import SplitLine
from tui.widgets.question_row import QuestionRow

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker

INCH = 'units = "inch"\n'
SIZES = [(80, 24), (120, 35)]
PLAN = Path(__file__).with_name("figures.toml")


def screen(on: Stage) -> str:
    """What stands on the screen, and what of its texts and lists would have to be scrolled to."""
    shown = on.app.screen
    texts = [str(text.content) for text in shown.query(Static)]
    texts += [str(option.prompt) for listed in shown.query(OptionList) for option in listed.options]
    return "\n".join([*on.rows(), *texts])


# The screens


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_a_sitting_from_phase_to_phase(stage: StageMaker, size: tuple[int, int]) -> None:
    """Cautions, every phase, the sheets over them, the summary, the review, and then the lists that it stands in."""
    seen: dict[str, str] = {}

    def look(on: Stage, name: str) -> None:
        seen[name] = screen(on)
        assert metric(seen[name]) == [], name

    async with stage(size=size, settings=INCH, plan=PLAN, acknowledged=False) as on:
        state = on.running.sitting.state
        on.skin = 1450.0  # nearly at heat, so that little time need pass
        look(on, "cautions")
        await on.read_cautions()
        met: dict[str, Callable[[], bool]] = {
            "weld fire": lambda: state.phase is PhaseKind.SOAK,
            "weld soak": lambda: Call.SOAK_DONE in state.alarms,
            "weld strike": lambda: Call.TOO_COLD in state.alarms,
        }
        while not state.finished:
            name = f"{on.running.sitting.current_step.kind} {state.phase}"
            look(on, name)
            if name == "weld ready":
                for key in ("c", "question_mark", "n", "f"):
                    await on.press(key)
                    look(on, key)
                    await on.press("f" if key == "f" else "escape")
                assert state.phase.value == name.split()[1], "none of these keys is a word"
            if name in met:
                await on.until(met[name])
                look(on, f"{name}, at its end")
            if name != "weld fire":
                await on.say(Word.NEXT)
        assert {PhaseKind(name.split()[1]) for name in seen if " " in name and "," not in name} == set(PhaseKind)
        look(on, "summary")
        await on.press("space")
        await on.opened()
        look(on, "review")
    assert "The fire (1706 degF) is hotter than the burn limit (1688 degF)" in " ".join(seen["cautions"].split())
    assert "heat to 2300 degF" in seen["weld fire"]
    assert "Calipers set to 23/32 and 1 1/4 in" in seen["c"]
    assert "Drawknife of 9 1/16 in" in seen["review"]


async def test_the_lists_that_a_sitting_stands_in(stage: StageMaker) -> None:
    """What is said on leaving it, the shelf that offers to go on with it, and the log."""
    async with stage(settings=INCH, plan=PLAN) as on:
        await on.say(Word.NEXT)
        await on.press("q")
        assert metric(screen(on)) == []
        on.app.close_sitting()
        (said,) = on.app.outcome.said
        assert said.startswith("Drawknife of 9 1/16 in: kept as ")
    for first in (Shelf(), LogList()):
        async with stage(settings=INCH, first=first) as on:
            assert "Drawknife of 9 1/16 in" in screen(on)
            assert metric(screen(on)) == []


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_every_plan_on_the_shelf(stage: StageMaker, size: tuple[int, int]) -> None:
    own = {"figures": PLAN.read_text("utf-8")}
    async with stage(size=size, first=Shelf(), settings=INCH, plans=own) as on:
        assert metric(screen(on)) == []
        listed = on.app.screen.query_one(OptionList)
        for plan in shelf_plans(on.folders.plans):
            listed.highlighted = listed.get_option_index(f"plan {plan.name}")
            await on.pilot.pause()
            about = str(on.app.screen.query_one("#words", Static).content)
            # nothing is hot in an etch
            assert ("degF" in about) == (plan.name != "etch")
            assert metric(about) == []


def test_every_text_of_the_plans_that_ship() -> None:
    plans = [read_plan_file(path) for path in sorted(SHELF.glob("*.toml"))]
    steps = [step for plan in plans for step in plan.steps]
    texts = [text for step in steps for text in (step.instruction, *step.checklist, *step.cautions)]
    assert [found for text in texts for found in metric(in_units(text, Units.INCH))] == []


def test_the_shelf_tells_how_hot_the_work_gets() -> None:
    """Heats to 900 and 800 degC, from fires of 930 and 830: 1652 and 1472 degF, not 1706 and 1526."""
    plan = ShelfPlan("figures", PLAN, True, read_plan_file(PLAN), None)
    said = plan_text(plan, Units.INCH).plain
    assert "1 cycle, 1652 degF" in said
    assert "1 heat, 1472 degF" in said
    assert "1706" not in said
    assert "1526" not in said


async def test_the_reckoner(stage: StageMaker) -> None:
    """Each question with its example, and then with every field filled or emptied: answers, notes, hints, axes."""
    async with stage(size=SIZES[0], first=Reckoner(), settings=INCH) as on:
        for name in (*QUESTIONS, "steels"):
            on.app.screen.query_one(QuestionRow).post_message(QuestionRow.Turned(name))
            await on.pilot.pause()
            await on.pilot.pause()
            assert metric(screen(on) + "\n" + answer(on)) == [], name
            fields = on.app.screen.query_one(QuestionFields)
            for place in range(fields.count if name != "steels" else 0):
                entry = await fields.go_to(place)
                await on.pilot.pause()
                assert metric(str(on.app.screen.query_one("#hint", SplitLine).render())) == [], name
                before, entry.value = entry.value, ""
                await on.pilot.pause()
                assert "is missing" not in answer(on) or metric(answer(on)) == [], name
                entry.value = before


def answer(on: Stage) -> str:
    return on.app.screen.query_one(AnswerPane).words.plain


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
def sat(home: Path, tmp_path: Path, ask: Callable[..., Any]) -> str:
    """What a sitting without a screen said; it lies in the log then."""
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text(INCH)
    rows = tmp_path / "heat.csv"
    rows.write_text("\n".join(["seconds,celsius,word", *RECORDING]) + "\n")
    done = ask("run", str(PLAN), "--readings", str(rows), "--hands-free", "never")
    assert done.returncode == 0, done.stderr
    return str(done.stdout)


def test_the_lines_without_a_screen(sat: str) -> None:
    assert "TOO COLD" in sat
    assert "degF" in sat
    assert metric(sat) == []


@pytest.mark.usefixtures("sat")
def test_the_log_and_the_page(ask: Callable[..., Any], tmp_path: Path) -> None:
    listed = ask("log", "list").stdout
    assert "Drawknife of 9 1/16 in" in listed
    assert metric(listed) == []
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


def test_the_plans_that_are_listed_and_checked(home: Path, ask: Callable[..., Any]) -> None:
    (home / "plans").mkdir(parents=True)
    (home / "plans" / "figures.toml").write_text(PLAN.read_text("utf-8"))
    (home / "heatbook.toml").write_text(INCH)
    listed, checked = ask("plan", "list").stdout, ask("plan", "check", str(PLAN)).stdout
    assert "Drawknife of 9 1/16 in (own)" in listed
    assert checked.startswith("Drawknife of 9 1/16 in: good")
    assert "Cut to 5 7/8 in" in checked
    assert metric(listed + checked) == []


@pytest.mark.usefixtures("sat")
def test_rows_and_documents_stay_metric(ask: Callable[..., Any], home: Path, tmp_path: Path) -> None:
    texts: list[str] = []
    for settings in (INCH, ""):
        (home / "heatbook.toml").write_text(settings)
        for form in ("csv", "json"):
            out = tmp_path / f"{len(texts)}.{form}"
            assert ask("log", "export", "last", "--to", form, "--out", str(out)).returncode == 0
            head, rows = _split(out.read_text(encoding="utf-8"))
            assert metric(head) == [] or not settings, "the lines at the head of a CSV file are for people"
            texts.append(rows)
    assert texts[:2] == texts[2:]


def _split(text: str) -> tuple[str, str]:
    """The lines at the head of a file that begin with a hash, without it, and all others."""
    lines = text.splitlines()
    head = [line for line in lines if line.startswith("#")]
    return "\n".join(head), "\n".join(line for line in lines if line not in head)


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
    assert "step two, Weld at 2300 degF" in said
