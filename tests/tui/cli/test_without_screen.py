"""Sittings without a screen: words in, calls out, and a log that is whole whatever happens."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.speaking import speaking

Heatbook = Callable[..., Any]
Ask = Callable[..., Any]


class Running:
    """The program while it runs, its lines read one by one."""

    def __init__(self, home: Path, *arguments: str) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tui.cli", *arguments],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env=os.environ | {"HEATBOOK_HOME": str(home)},
        )

    def say(self, word: str) -> None:
        assert self.process.stdin
        self.process.stdin.write(word + "\n")
        self.process.stdin.flush()

    def until(self, **wanted: object) -> dict[str, Any]:
        """Read on to the line that has these values."""
        assert self.process.stdout
        for line in self.process.stdout:
            record: dict[str, Any] = json.loads(line)
            if wanted.items() <= record.items():
                return record
        raise AssertionError(f"no line with {wanted}: {self.process.communicate()[1]}")


@pytest.fixture
def start(home: Path) -> Iterator[Callable[..., Running]]:
    """Start the program; it is ended with the test."""
    started: list[Running] = []

    def begin(*arguments: str) -> Running:
        started.append(Running(home, *arguments))
        return started[-1]

    yield begin
    for running in started:
        running.process.kill()
        running.process.communicate()


def shown(ask: Ask) -> dict[str, Any]:
    record: dict[str, Any] = json.loads(ask("log", "show", "last", "--json").stdout)
    return record


def test_words_come_in_and_events_go_out(ask: Ask) -> None:
    done = ask(
        "run", "normalize", "--no-screen", "--json", input="next\nnonsense\nnote too windy\nundo\nredo\nfinish\n"
    )
    assert (done.returncode, done.stderr) == (0, "")
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    words = [line["word"] for line in lines if line["event"] == "word"]
    assert words == ["acknowledge", "next", "note", "undo", "redo", "finish"]
    back, again = (next(line for line in lines if line.get("word") == word) for word in ("undo", "redo"))
    assert (back["what"], back["step"]) == (again["what"], 1) == ("make ready", 1)
    assert again["step"] == 2
    assert [line["text"] for line in lines if line["event"] == "refused"] == ["nonsense"]
    assert all("step" in line and "heat" in line for line in lines if line["event"] in ("word", "phase", "call"))
    assert lines[-1]["state"] == "finished"


def test_the_cautions_are_said_before_anything_else_and_read_with_the_first_word(ask: Ask) -> None:
    done = ask("run", "drawknife", "--no-screen", "--json", input="next\n")
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    cautions = [line for line in lines if line["event"] == "caution"]
    assert "Local codes" in cautions[0]["text"]
    assert any("carbon monoxide" in line["text"] for line in cautions)
    assert lines.index(cautions[-1]) < next(i for i, line in enumerate(lines) if line["event"] == "word")
    assert [line["word"] for line in lines if line["event"] == "word"] == ["acknowledge", "next"]


def test_a_sitting_left_is_unfinished_and_can_be_gone_on_with(ask: Ask) -> None:
    ask("run", "normalize", "--no-screen", input="next\nnext\n")
    left = shown(ask)
    assert left["state"] == "unfinished"
    anew = ask("run", "normalize", "--no-screen", input="").stdout
    assert f"left unfinished: {left['id']}; go on with it: heatbook run --go-on {left['id']}" in anew
    done = ask("run", "--go-on", "last", "--no-screen", "--json", input="note back again\nfinish\n")
    assert done.returncode == 0, done.stderr
    after = shown(ask)
    assert (after["id"], after["state"]) == (left["id"], "finished")
    assert [note["text"] for note in after["notes"]] == ["back again"]
    again = ask("run", "--go-on", left["id"], "--no-screen")
    assert (again.returncode, "finished" in again.stderr) == (1, True)


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_told_to_end_it_puts_the_log_away(start: Any, ask: Ask, number: signal.Signals) -> None:
    running = start("run", "normalize", "--no-screen", "--json")
    running.say("next")
    running.until(event="phase", phase="ready", step=2)
    running.process.send_signal(number)
    assert running.until(event="put away")["state"] == "unfinished"
    assert running.process.wait(20) == 0
    assert shown(ask)["state"] == "unfinished"
    assert not list(Path(os.environ["HEATBOOK_HOME"]).rglob("*.jsonl"))


def test_a_second_program_is_told_who_has_the_logbook(start: Any, ask: Ask) -> None:
    running = start("run", "normalize", "--no-screen", "--json")
    running.until(event="sitting")
    done = ask("run", "normalize", "--no-screen")
    assert done.returncode == 1
    assert str(running.process.pid) in done.stderr
    assert json.loads(ask("log", "list", "--json").stdout)[0]["state"] == "running"


def test_a_probe_is_read_lost_and_found_again(start: Any, ask: Ask, probe: tuple[int, str]) -> None:
    master, port = probe
    running = start("run", "normalize", "--no-screen", "--json", "--port", port)
    running.until(event="sitting")
    os.write(master, b"half a li\n" + b"\x1b[2Jjunk\n" + b"20.5\n" * 8)
    # Silence: nothing is written for as long as it takes.
    assert running.until(event="call", call="probe lost")["at_seconds"] > 4
    with speaking(master, b"21.5\n"):
        running.until(event="call", call="probe back")
    running.say("finish")
    assert running.process.wait(20) == 0
    assert [call["call"] for call in shown(ask)["calls"]] == ["probe lost", "probe back"]


def test_a_port_that_is_taken_leaves_no_sitting(
    start: Any, ask: Ask, probe: tuple[int, str], home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _, port = probe
    start("run", "normalize", "--no-screen", "--json", "--port", port).until(event="sitting")
    monkeypatch.setenv("HEATBOOK_HOME", f"{home}2")
    done = ask("run", "drawknife", "--no-screen", "--port", port)
    assert done.returncode == 1
    assert port in done.stderr
    assert "Traceback" not in done.stderr
    listed = ask("log", "list", "--json")
    assert json.loads(listed.stdout) == []


def test_a_folder_that_cannot_be_written_is_told_and_the_sitting_goes_on(
    ask: Ask, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    in_the_way = tmp_path / "file"
    in_the_way.write_text("not a folder")
    monkeypatch.setenv("HEATBOOK_HOME", str(in_the_way))
    done = ask("run", "normalize", "--no-screen", input="next\nfinish\n")
    assert "Traceback" not in done.stderr
    assert "trouble" in done.stdout
    assert "word: finish" in done.stdout
    assert done.returncode == 1
    assert "can't be" in done.stderr


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "name a plan"),
        (("normalize", "--go-on", "last"), "normalize and --go-on last: "),
        (("normalize", "--probe", "labelled"), "need --port"),
        (("normalize", "--port", "x", "--readings", "y.csv"), "not from both"),
        (("normalize", "--json"), "--no-screen"),
    ],
)
def test_options_that_do_not_go_together(ask: Ask, arguments: tuple[str, ...], said: str) -> None:
    done = ask("run", *arguments)
    assert done.returncode == 2
    assert said in done.stderr


def test_going_on_says_where_the_sitting_stands(ask: Ask) -> None:
    ask("run", "normalize", "--no-screen", input="next\nnext\n")
    done = ask("run", "--go-on", "last", "--no-screen", "--json", input="")
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    assert [(line["step"], line["phase"]) for line in lines if line["event"] == "phase"] == [(2, "fire")]


def test_a_probe_is_taken_up_when_a_sitting_is_gone_on_with(start: Any, ask: Ask, probe: tuple[int, str]) -> None:
    ask("run", "normalize", "--no-screen", input="next\nnext\n")
    master, port = probe
    running = start("run", "--go-on", "last", "--no-screen", "--json", "--port", port)
    # The port is open by then; what was written before would be flushed.
    running.until(event="call", call="probe lost")
    with speaking(master, b"905.0\n"):
        # Measured at heat: the soak begins by itself.
        assert running.until(event="phase", phase="soak")["by"] == "temperature"
    running.say("finish")
    assert running.process.wait(20) == 0
    assert [call["call"] for call in shown(ask)["calls"]] == ["probe lost", "probe back"]


def test_a_sitting_that_was_cut_off_is_told(start: Any, ask: Ask) -> None:
    running = start("run", "normalize", "--no-screen", "--json")
    name = running.until(event="sitting")["id"]
    running.process.kill()
    running.process.wait()
    done = ask("run", "drawknife", "--no-screen", "--json", input="finish\n")
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    assert [line["id"] for line in lines if line["event"] == "recovered"] == [name]


def test_with_a_probe_it_goes_on_when_standard_input_ends(start: Any, probe: tuple[int, str]) -> None:
    master, port = probe
    running = start("run", "normalize", "--no-screen", "--json", "--port", port)
    running.say("next")
    running.process.stdin.close()
    running.until(event="phase", phase="ready")
    os.write(master, b"20.0\n" * 20)
    assert running.until(event="call", call="probe lost")["at_seconds"] > 4
    running.process.stdin = None
    running.process.send_signal(signal.SIGTERM)
    assert running.process.wait(20) == 0


def test_calls_are_spoken_by_the_command_that_is_set(start: Callable[..., Running], home: Path) -> None:
    home.mkdir(exist_ok=True)
    heard = home / "heard.txt"
    script = home / "speak"
    script.write_text(f'#!/bin/sh\nprintf "%s\\n" "$*" >> "{heard}"\n')
    script.chmod(0o755)
    os.mkfifo(heard)  # reading it waits for what is said
    (home / "heatbook.toml").write_text(f'speech = "{script}"\n')
    running = start("run", "normalize", "--no-screen", "--json", "--aloud")
    running.say("next")
    running.until(event="word", word="next")
    # Open to write as well, so that no later sentence waits for a reader that is gone.
    with os.fdopen(os.open(heard, os.O_RDWR), encoding="utf-8") as said:
        assert said.readline().startswith("step ")
        running.say("finish")
        running.process.communicate()
    assert running.process.returncode == 0


def test_a_voice_that_is_not_there_is_told_before_there_is_a_sitting(ask: Ask, home: Path) -> None:
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text('speech = "no-such-command"\n')
    done = ask("run", "normalize", "--no-screen", "--aloud", input="next\n")
    assert done.returncode == 1
    assert "no-such-command: there is no such speech command" in done.stderr
    assert ask("run", "normalize", "--aloud").returncode == 2
    assert json.loads(ask("log", "list", "--json").stdout) == []


def test_the_last_words_are_said_to_their_end(heatbook: Heatbook, home: Path) -> None:
    home.mkdir(exist_ok=True)
    script = home / "speak"
    script.write_text(f'#!/bin/sh\nsleep 0.3; printf "%s\\n" "$*" >> "{home}/heard.txt"\n')
    script.chmod(0o755)
    (home / "heatbook.toml").write_text(f'speech = "{script}"\n')
    assert heatbook("run", "normalize", "--no-screen", "--aloud", input="next\nfinish\n").returncode == 0
    assert (home / "heard.txt").read_text().splitlines()[-1] == "finished"


def test_what_is_wrong_in_the_settings_reaches_the_terminal_without_controls(ask: Ask, home: Path) -> None:
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text('"a\\u001b]0;x\\u0007b" = 1\n')
    (home / "shop.toml").write_text('"c\\u001b]0;x\\u0007d" = 1\n')
    done = ask("run", "normalize", "--no-screen", input="finish\n")
    assert "there is no setting a" in done.stderr
    assert "there is no c" in done.stderr
    assert "\x1b" not in done.stderr
    assert "\x07" not in done.stderr


def test_what_is_said_is_in_the_units_that_are_set(ask: Ask, home: Path, tmp_path: Path) -> None:
    """A draw heat that goes too cold: 840 degC is 1544 degF."""
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text('units = "inch"\n')
    recording = tmp_path / "cold.csv"
    rows = ["0,1100,next", *(f"{at},1100," for at in range(1, 10)), "10,1100,out"]
    rows += [*(f"{at},840," for at in range(11, 20)), "20,,"]
    recording.write_text("seconds,celsius,word\n" + "\n".join(rows) + "\n")
    plan = tmp_path / "draw.toml"
    plan.write_text(
        'heatbook = 1\ntitle = "Draw"\n[[step]]\ntitle = "Draw"\nkind = "draw"\ninstruction = "Draw it."\n'
        'fire = "1200 degC"\nheat_to = "1050 degC"\nkeep_above = "900 degC"\nsection = "20 x 10 mm"\n'
    )
    done = ask("run", str(plan), "--readings", str(recording), "--hands-free", "never")
    assert done.returncode == 0, done.stderr
    assert "TOO COLD: stop striking, back in the fire (15" in done.stdout
    assert "degF" in done.stdout
    assert "degC, measured" not in done.stdout
    assert "cold.csv: 1 of 21 readings is no temperature (1 missing), the first at 0:20" in done.stdout
