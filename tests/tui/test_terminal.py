"""The real program in a real terminal: keys go in, and what a terminal would show is read back."""

from __future__ import annotations

import os
import re
import signal
import sys
import tty
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from plans.logbook.book import Logbook
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.logged_sitting import LoggedSitting
from plans.logbook.summary import Progress
from plans.reader import read_plan_file
from plans.reading import ProbeOn
from plans.sitting.events import Called, Said, Word
from tests.speaking import speaking
from tests.terminal import PAGE_DOWN, PATIENCE, Terminal, environment as with_colours

pytestmark = pytest.mark.slow

PLAN = Path(__file__).with_name("draw.toml")


Open = Callable[..., Terminal]


@pytest.fixture
def terminal() -> Iterator[Open]:
    """Opens a terminal: `terminal("run", "drawknife", size=(80, 24))`."""
    opened: list[Terminal] = []

    def open_one(*arguments: str, size: tuple[int, int] = (80, 24), **environment: str) -> Terminal:
        command = [sys.executable, "-m", "tui.cli", *arguments]
        opened.append(Terminal(command, size, with_colours(**environment)))
        return opened[-1]

    yield open_one
    for one in opened:
        one.close()


def kept(home: Path, folder: str = "logbook") -> KeptSitting:
    """The one sitting in the logbook of that folder, which no journal lies beside."""
    (path,) = (home / folder / "sittings").iterdir()
    assert path.suffix == ".json"
    return Logbook(home / folder).load(path.stem)


def rehearse(terminal: Open, **environment: str) -> Terminal:
    """A rehearsal, past what stands before it."""
    one = terminal("demo", "--speed", "1500", **environment)
    one.until("Nothing here is hot")
    one.press(" ")
    return one


def words(sitting: KeptSitting) -> list[str]:
    return [event.word.value for event in sitting.log.events if isinstance(event, Said)]


def calls(sitting: KeptSitting) -> list[str]:
    return [event.call.value for event in sitting.log.events if isinstance(event, Called)]


def test_a_sitting_by_its_keys(terminal: Open, home: Path) -> None:
    """Space, undo, note and leave, each when the screen says that the one before has arrived."""
    one = terminal("run", str(PLAN))
    one.until("Before the first fire", "program advises")
    one.read_cautions()
    one.until("done, next step")
    one.press_anew(" ")
    one.until("fire wanted, planned", "no probe: modelled", large="2/5")
    one.press_anew(" ")
    one.until("until at heat, ", ", modelled ")
    one.press("u")
    one.until("fire wanted, planned", "taken back")
    one.press("n")
    one.until("enter keeps it")
    one.press("left corner [/x] runs ahead\r")
    one.until("noted")
    one.press("q")
    one.until("leave it, to be gone on with later")
    one.press("l")
    assert one.end() == 0
    one.assert_restored()
    sitting = kept(home)
    assert words(sitting) == ["acknowledge", "next", "next", "undo", "note"]
    assert sitting.figures is not None
    assert sitting.figures.notes[0].text == "left corner [/x] runs ahead"
    assert sitting.state is Progress.UNFINISHED
    assert f"heatbook run --go-on {sitting.header.id}" in one.said
    assert str(home / "logbook") in one.said


def test_a_signal_leaves_the_log_whole_and_the_terminal_restored(terminal: Open, home: Path) -> None:
    one = terminal("run", str(PLAN))
    one.until("Before the first fire")
    one.read_cautions()
    one.until("done, next step")
    one.press_anew(" ")
    one.until("fire wanted")
    os.kill(one.pid, signal.SIGTERM)
    assert one.end() == 0
    one.assert_restored()
    assert words(kept(home)) == ["acknowledge", "next"]


def test_a_terminal_that_is_closed_leaves_the_log_whole(terminal: Open, home: Path) -> None:
    one = terminal("run", str(PLAN))
    one.until("Before the first fire")
    one.read_cautions()
    one.until("done, next step")
    one.hang_up()
    one.process.wait(PATIENCE)
    assert words(kept(home)) == ["acknowledge"]


def test_a_sitting_that_nothing_was_said_to_is_not_kept(terminal: Open, home: Path) -> None:
    one = terminal("run", str(PLAN))
    one.until("Before the first fire")
    one.press("\x11")
    one.until("The sitting is still running.")
    one.press("\x03")
    assert one.end() == 0
    one.assert_restored()
    assert "nothing was said" in one.said
    assert not list((home / "logbook" / "sittings").glob("*"))


def test_a_rehearsal_answers_for_itself_and_is_left(terminal: Open, home: Path) -> None:
    """Without colours: each says what it is made of, where there are true ones."""
    one = rehearse(terminal, NO_COLOR="1", COLORTERM="truecolor")
    one.until(large="4/18")
    one.press("\x03")
    assert one.end() == 0
    one.assert_restored()
    assert not (home / "logbook").exists()
    sitting = kept(home, "rehearsals")
    assert sitting.header.rehearsal
    assert words(sitting).count("next") >= 2
    assert "heatbook log --rehearsals show" in one.said
    colours = re.findall(rb"[34]8;2;(\d+);(\d+);(\d+)", one.written)
    assert colours
    assert all(red == green == blue for red, green, blue in colours)


def test_a_tiny_terminal_and_one_that_grows_while_it_runs(terminal: Open, home: Path) -> None:
    one = terminal("run", str(PLAN), size=(20, 5))
    one.until("read on")
    one.read_cautions()
    one.until("BENCH", "space done")
    one.resize(100, 30)
    one.until("1/5  Grind and tack the faces", "Steel side marked")
    one.press_anew(" ")
    one.until("fire wanted, planned", large="2/5")
    one.resize(20, 5)
    one.until("READY", "1300 degC planned", "space in the fire")
    one.press("\x03")
    assert one.end() == 0
    assert words(kept(home)) == ["acknowledge", "next"]


def test_a_probe_on_a_port_is_shown_and_its_loss_told(terminal: Open, home: Path, tmp_path: Path) -> None:
    master, slave = os.openpty()
    tty.setraw(slave)
    # By a name of its own, which goes with it: another test's terminal may get the number that is free then, and the
    # program, which looks for its probe again and again, would read what is typed there.
    port = tmp_path / "probe"
    port.symlink_to(os.ttyname(slave))
    one = terminal("run", str(PLAN), "--port", str(port))
    one.until("Before the first fire")
    one.read_cautions()
    with speaking(master, b"801.5\r\n"):
        one.until("probe on work", "measured")
    port.unlink()
    os.close(master)
    os.close(slave)
    one.until("probe lost: unplugged")
    one.press("\x03")
    assert one.end() == 0
    sitting = kept(home)
    assert sitting.header.probe_on is ProbeOn.WORK
    assert calls(sitting) == ["probe lost"]


def test_killed_it_comes_back_and_can_be_gone_on_with(terminal: Open, home: Path) -> None:
    one = terminal("run", str(PLAN))
    one.until("Before the first fire")
    one.read_cautions()
    one.until("done, next step")
    one.press_anew(" ")
    one.until("fire wanted")
    one.close()
    two = terminal()
    two.until("Go on with", "Drawknife with a laid edge", "brought back")
    two.press("\r")
    two.until("fire wanted", large="2/5")
    two.press("q")
    two.until("finish it here")
    two.press("f")
    two.until("nothing struck too cold")
    two.press("q")
    two.until("1 sitting in the log")
    two.press("q")
    assert two.end() == 0
    two.assert_restored()
    assert kept(home).state is Progress.FINISHED


@pytest.mark.parametrize(
    ("key", "text", "step"), [("g", "fire wanted, planned", "2/5"), ("a", "Before the first fire", "")]
)
def test_the_plan_that_was_cut_off_is_gone_on_with_or_begun_anew(
    terminal: Open, home: Path, key: str, text: str, step: str
) -> None:
    book = Logbook(home / "logbook")
    logged = LoggedSitting.begin(book, read_plan_file(PLAN), datetime.now().astimezone() - timedelta(minutes=1))
    for word in (Word.ACKNOWLEDGE, Word.NEXT):
        logged.take(Said(1.0, word))
    book.close()  # as a kill leaves it: not put away
    two = terminal("run", str(PLAN))
    two.until("Drawknife with a laid edge", "was cut off", "begin anew")
    two.press(key)
    two.until(text, large=step)
    two.press("\x03")
    assert two.end() == 0
    two.assert_restored()
    assert words(kept(home)) == ["acknowledge", "next"]


def test_the_reckoner_needs_no_colours_and_on_the_linux_console_no_braille(terminal: Open) -> None:
    """That console has sixteen colours."""
    written = []
    for environment in ({"NO_COLOR": "1"}, {"TERM": "linux"}):
        one = terminal("reckon", **environment)
        one.until("skin cooled after")
        one.press(PAGE_DOWN)
        one.until("as it glows")
        one.press("\x1b")
        assert one.end() == 0
        written.append(one.written.decode())
    grey, console = written
    braille, sixteen = "[\u2800-\u28ff]", r"\x1b\[(\d+;)*(3|4|9|10)[1-7][;m]"
    assert re.search(braille, grey)
    assert not re.search(braille, console)
    assert re.search(sixteen, console)
    assert not re.search("[34]8;[25];", console)


def test_what_is_not_there_is_one_line_and_no_screen(terminal: Open, home: Path) -> None:
    for arguments, told in (
        (("run", "nosuch"), "there is no plan of this name"),
        (("run", str(PLAN), "--port", "/dev/nosuch"), "/dev/nosuch"),
        (("run", "--go-on", "nosuch"), "no sittings yet"),
    ):
        one = terminal(*arguments)
        assert one.end() == 1
        assert told in one.said
        assert one.said.startswith("heatbook: ")
        assert "Traceback" not in one.said
        one.assert_restored()
    assert not list((home / "logbook").glob("sittings/*"))


FAULT = """
import sys
from tui import app as program
from tui.cli.on_screen import show
from tui.running.requests import plan_called, sitting_of

class Faulty(program.HeatbookApp):
    def beat(self):
        if self.running is not None and self.running.sitting.state.step == 1:
            raise ZeroDivisionError("a fault of ours")
        super().beat()

program.HeatbookApp = Faulty
sys.exit(show(sitting_of(lambda: plan_called(sys.argv[1]), None)))
"""


def test_a_fault_of_ours_keeps_the_log_and_says_how_to_report_it(
    home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    one = Terminal([sys.executable, "-c", FAULT, str(PLAN)], environment=with_colours())
    one.until("Before the first fire")
    one.read_cautions()
    one.until("done, next step")
    one.press_anew(" ")
    assert one.end() == 1
    one.assert_restored()
    assert "Traceback" not in one.said
    assert "a fault of ours" in one.said
    assert "please report it" in one.said
    (report,) = tmp_path.glob("heatbook-fault-*.txt")
    assert "ZeroDivisionError" in report.read_text()
    assert words(kept(home)) == ["acknowledge", "next"]


def test_without_a_terminal_it_says_what_to_do(heatbook: Callable[..., Any]) -> None:
    done = heatbook("demo")
    assert done.returncode == 1
    assert "--no-screen" in done.stderr
