"""Spoken calls, with a real small program in place of a speech command."""

from __future__ import annotations

import os
import select
import sys
import threading
import wave
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, strategies as st

from devices.errors import DeviceError
from devices.speech_command import find_command
from devices.voice import LONGEST_TEXT, Voice, speakable
from plans.sitting.saying import Kind, Saying, Urgency

PATIENCE = 20.0
"""Longer than any wait should take, even on a busy machine [s]; reached only by a test that fails."""

TITLE = Saying("step one, weld", Urgency.ASIDE, Kind.STEP)
COUNT = Saying("heat one of two", Urgency.ASIDE, Kind.COUNT)
SOAK_DONE = Saying("soak done, take it out", Urgency.PROMPT, Kind.NOW)
TOO_HOT = Saying("too hot, out of the fire", Urgency.ALARM, Kind.LIMIT)


def countdown(seconds: str) -> Saying:
    return Saying(f"{seconds} seconds of hammer time", Urgency.COUNTDOWN, Kind.COUNTDOWN)


class Mouth:
    """A speech command that tells what it was told, and then speaks until it is let go."""

    def __init__(self, folder: Path) -> None:
        self.told, self.go = folder / "told", folder / "go"
        self.program = folder / "speak"
        for pipe in (self.told, self.go):
            os.mkfifo(pipe)
        # Open at both ends, so that neither side waits for the other one.
        self._told, self._go = (os.open(pipe, os.O_RDWR) for pipe in (self.told, self.go))
        self._rest = b""
        self.speaks(f"read _ <{self.go}")

    def speaks(self, script: str) -> None:
        """What it does after it has told its process number and its arguments."""
        lines = f'#!/bin/sh\nprintf "%s|" "$$" "$@" >>{self.told}; echo >>{self.told}\n{script}\n'
        self.program.write_text(lines)
        self.program.chmod(0o755)

    def hears(self) -> list[str]:
        """The next that it was told: its process number, then its arguments."""
        while b"\n" not in self._rest:
            assert select.select([self._told], [], [], PATIENCE)[0], "nothing was said"
            self._rest += os.read(self._told, 4096)
        line, _, self._rest = self._rest.partition(b"\n")
        return line.decode().split("|")[:-1]

    def says(self) -> str:
        return self.hears()[-1]

    def let_go(self) -> None:
        os.write(self._go, b"\n")

    def is_silent(self) -> bool:
        return not self._rest and not select.select([self._told], [], [], 0)[0]

    def close(self) -> None:
        os.close(self._told)
        os.close(self._go)


@pytest.fixture
def mouth(tmp_path: Path) -> Iterator[Mouth]:
    mouth = Mouth(tmp_path)
    yield mouth
    mouth.close()


@pytest.fixture
def voice(mouth: Mouth, clock: Any) -> Iterator[Voice]:
    voice = Voice([str(mouth.program)], clock)
    yield voice
    voice.close()
    assert not [thread for thread in threading.enumerate() if thread.name == "voice"]


def is_running(process: str) -> bool:
    try:
        return "State:\tZ" not in Path(f"/proc/{process}/status").read_text()
    except (FileNotFoundError, ProcessLookupError):
        return False


def until(true: Callable[[], bool]) -> None:
    """Look again and again, without the processor to itself."""
    for _ in range(int(PATIENCE * 100)):
        if true():
            return
        threading.Event().wait(0.01)
    raise AssertionError("it never came to be")


def test_it_says_what_it_is_told_as_the_last_argument(mouth: Mouth) -> None:
    voice = Voice([str(mouth.program), "-v", "en"])
    voice.say([SOAK_DONE])
    assert mouth.hears()[1:] == ["-v", "en", "soak done, take it out"]
    voice.close()


def test_never_two_at_once_and_the_most_urgent_first(mouth: Mouth, voice: Voice) -> None:
    voice.say([TITLE])
    assert mouth.says() == TITLE.text
    voice.say([COUNT, countdown("ten")])
    voice.say([SOAK_DONE])
    for expected in (SOAK_DONE, countdown("ten"), COUNT):
        assert mouth.is_silent()
        mouth.let_go()
        assert mouth.says() == expected.text
    mouth.let_go()


def test_the_newest_of_a_kind_takes_the_place_of_one_that_waits(mouth: Mouth, voice: Voice) -> None:
    voice.say([TITLE])
    mouth.says()
    voice.say([countdown("ten")])
    voice.say([countdown("five")])
    mouth.let_go()
    assert mouth.says() == countdown("five").text
    voice.say([COUNT])
    mouth.let_go()
    assert mouth.says() == COUNT.text


def test_what_has_waited_too_long_is_dropped(mouth: Mouth, voice: Voice, clock: Any) -> None:
    voice.say([TITLE])
    mouth.says()
    voice.say([countdown("ten"), SOAK_DONE])
    clock.now += 2.0
    mouth.let_go()
    assert mouth.says() == SOAK_DONE.text
    voice.say([COUNT])
    mouth.let_go()
    assert mouth.says() == COUNT.text


def test_an_alarm_cuts_off_what_is_less_urgent_with_all_that_it_started(mouth: Mouth, voice: Voice) -> None:
    mouth.speaks(f'sh -c \'printf "%s|\\n" "$$" >>{mouth.told}; read _ <{mouth.go}\' &\nwait')
    voice.say([SOAK_DONE])
    speaker, child = mouth.hears()[0], mouth.hears()[0]
    assert is_running(speaker)
    assert is_running(child)
    voice.say([TOO_HOT])
    assert mouth.says() == TOO_HOT.text
    assert not is_running(speaker)
    until(lambda: not is_running(child))


def test_an_alarm_lets_another_one_finish(mouth: Mouth, voice: Voice) -> None:
    voice.say([TOO_HOT])
    mouth.says()
    voice.say([Saying("quench now", Urgency.ALARM, Kind.QUENCH)])
    assert mouth.is_silent()
    mouth.let_go()
    assert mouth.says() == "quench now"


def test_muted_it_falls_silent_at_once_and_forgets_what_waits(mouth: Mouth, voice: Voice) -> None:
    voice.say([TITLE])
    speaker = mouth.hears()[0]
    voice.say([COUNT])
    voice.muted = True
    until(lambda: not is_running(speaker))
    voice.say([SOAK_DONE])
    voice.muted = False
    voice.say([TOO_HOT])
    assert mouth.says() == TOO_HOT.text
    assert mouth.is_silent()


def test_muted_it_says_what_goes_through_that_and_lets_it_finish(mouth: Mouth, voice: Voice) -> None:
    mouth.speaks(f'read _ <{mouth.go}; echo "to its end|" >>{mouth.told}')
    burns = replace(TOO_HOT, through_mute=True)
    voice.say([burns])
    assert mouth.says() == TOO_HOT.text
    voice.muted = True
    voice.say([SOAK_DONE, burns])
    mouth.let_go()
    assert mouth.says() == "to its end"
    assert mouth.says() == TOO_HOT.text
    assert mouth.is_silent()


def test_a_command_that_hangs_is_ended(mouth: Mouth) -> None:
    mouth.speaks("trap '' TERM INT HUP; while :; do sleep 60; done")
    voice = Voice([str(mouth.program)], patience=0.2)
    voice.say([TITLE, COUNT])
    hanging = mouth.hears()[0]
    assert mouth.says() == COUNT.text
    assert not is_running(hanging)
    voice.close()


def test_closing_leaves_no_process_and_may_be_done_twice(mouth: Mouth) -> None:
    voice = Voice([str(mouth.program)])
    voice.say([TITLE])
    speaker = mouth.hears()[0]
    voice.close()
    assert not is_running(speaker)
    voice.close()
    voice.say([TOO_HOT])
    assert mouth.is_silent()
    Voice([str(mouth.program)]).close()


def test_nothing_of_it_comes_to_the_terminal(mouth: Mouth, voice: Voice) -> None:
    links = " ".join(f'"$(readlink /proc/$$/fd/{number})"' for number in range(3))
    mouth.speaks(f'printf "%s|" {links} >>{mouth.told}; echo >>{mouth.told}')
    voice.say([TITLE])
    mouth.hears()
    assert mouth.hears() == ["/dev/null"] * 3


@pytest.mark.parametrize("script", ["exit 1", "kill -9 $$"])
def test_a_command_that_fails_is_no_error(mouth: Mouth, voice: Voice, script: str) -> None:
    mouth.speaks(script)
    voice.say([TITLE, COUNT])
    assert [mouth.says(), mouth.says()] == [TITLE.text, COUNT.text]


def test_a_command_that_can_not_be_started_is_no_error(mouth: Mouth, voice: Voice) -> None:
    mouth.program.rename(mouth.program.with_name("away"))
    voice.say([TITLE])
    voice.finish(PATIENCE)
    mouth.program.with_name("away").rename(mouth.program)
    voice.say([COUNT])
    assert mouth.says() == COUNT.text


def test_without_a_command_it_is_silent() -> None:
    voice = Voice(())
    voice.say([TOO_HOT])
    assert not voice.available
    assert not [thread for thread in threading.enumerate() if thread.name == "voice"]
    voice.close()


def test_words_that_are_none_are_not_said(mouth: Mouth, voice: Voice) -> None:
    voice.say([Saying("--[]", Urgency.PROMPT, Kind.NOW), COUNT])
    assert mouth.says() == COUNT.text


# The command


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Path]:
    """A folder of programs that is all there is."""
    folder = tmp_path / "bin"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))

    def install(*names: str) -> Path:
        for name in names:
            (folder / name).write_text("#!/bin/sh\n")
            (folder / name).chmod(0o755)
        return folder

    return install


@pytest.mark.parametrize(
    ("installed", "found"),
    [
        ((), ()),
        (("say", "espeak-ng", "spd-say"), ("espeak-ng", "-v", "en")),
        (("say", "espeak"), ("espeak", "-v", "en")),
        (("spd-say", "say"), ("say",)),
        (("spd-say",), ("spd-say", "--wait", "--language", "en")),
    ],
)
def test_the_best_command_that_is_there(
    path: Callable[..., Path], installed: tuple[str, ...], found: tuple[str, ...]
) -> None:
    folder = path(*installed)
    assert find_command() == ((str(folder / found[0]), *found[1:]) if found else ())


def test_a_command_of_the_smiths_own(path: Callable[..., Path]) -> None:
    folder = path("mouth", "espeak-ng")
    assert find_command("mouth -s 150 -v 'en us'") == (str(folder / "mouth"), "-s", "150", "-v", "en us")
    with pytest.raises(DeviceError, match=r"trumpet: there is no such speech command\. Install it"):
        find_command("trumpet --loud")
    with pytest.raises(DeviceError, match="quotation mark without its partner"):
        find_command("mouth 'en")


# The text


@pytest.mark.parametrize(
    ("text", "spoken"),
    [
        ("soak done, take it out", "soak done, take it out"),
        ("--version", "version"),
        ("-f /etc/passwd", "f /etc/passwd"),
        ("step two, Weld\x1b[2J\nthe <edge> [[volm 1]]", "step two, Weld 2J the edge volm 1"),
        ("step one, 80CrV2 at 0.8 %C", "step one, 80CrV2 at 0.8 %C"),
        ("step one, Schweißen, 鍛接", "step one, Schweißen, 鍛接"),
        ("\ud800\u202e\x00", ""),
        ("", ""),
    ],
)
def test_only_words_are_spoken(text: str, spoken: str) -> None:
    assert speakable(text) == spoken


@given(st.text(st.characters(), max_size=400))
def test_no_text_can_be_an_option_or_hold_a_control_character(text: str) -> None:
    spoken = speakable(text)
    assert len(spoken) <= LONGEST_TEXT
    assert spoken == "" or spoken[0].isalnum()
    assert spoken.isprintable()
    assert not set(spoken) & set('<>[]{}|&$`\\"-')


ESPEAK_NG = """
import ctypes, sys, wave
import espeakng_loader

flag, voice, text = sys.argv[1:]
assert flag == "-v"
engine = ctypes.CDLL(espeakng_loader.get_library_path())
synchronously, in_utf8 = 2, 1
rate = engine.espeak_Initialize(synchronously, 0, espeakng_loader.get_data_path().encode(), 0)
sound = bytearray()

@ctypes.CFUNCTYPE(ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.c_void_p)
def keep(samples, count, _):
    if samples:
        sound.extend(ctypes.string_at(samples, 2 * count))
    return 0

engine.espeak_SetSynthCallback(keep)
assert engine.espeak_SetVoiceByName(voice.encode()) == 0
spoken = text.encode()
assert engine.espeak_Synth(spoken, len(spoken) + 1, 0, 1, 0, in_utf8, None, None) == 0
with wave.open(WAV, "wb") as file:
    file.setparams((1, 2, rate, 0, "NONE", ""))
    file.writeframes(sound)
"""
"""The engine of eSpeak NG behind its own command line, as far as we use that, writing a file in place of sounding."""


@pytest.mark.slow
def test_a_real_speech_engine_makes_sound_of_it(
    path: Callable[..., Path], mouth: Mouth, tmp_path: Path, clock: Any
) -> None:
    program = path("espeak-ng") / "espeak-ng"
    engine, wav = tmp_path / "engine.py", tmp_path / "sound.wav"
    engine.write_text(f"WAV = {str(wav)!r}\n{ESPEAK_NG}")
    mouth.speaks(f'"{sys.executable}" "{engine}" "$@"; echo "done|" >>{mouth.told}')
    program.write_text(mouth.program.read_text())
    voice = Voice(find_command(), clock)
    voice.say([countdown("ten")])
    assert mouth.says() == "ten seconds of hammer time"
    assert mouth.says() == "done"
    voice.close()
    with wave.open(str(wav)) as sound:
        # More than a second of it, and not silence.
        frames = sound.readframes(sound.getnframes())
        assert sound.getnframes() > sound.getframerate()
        assert len(set(frames)) > 100
