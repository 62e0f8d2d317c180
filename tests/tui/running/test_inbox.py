"""What comes from outside: bounded, and in order."""

from __future__ import annotations

import signal
from threading import Event, Thread, main_thread

from devices.errors import DeviceError
from plans.reading import Reading
from plans.sitting.events import Tick, Word
from tui.running.inbox import HELD, Inbox
from tui.running.sources import Delivered


def all_of(inbox: Inbox[str]) -> list[object]:
    found: list[object] = []
    while (entry := inbox.take()[0]) is not None:
        found.append(entry)
    return found


def test_the_newest_readings_wait_and_those_that_are_dropped_are_counted() -> None:
    inbox: Inbox[str] = Inbox()
    readings = [Reading(float(n), 900.0) for n in range(HELD + 7)]
    for one in readings:
        inbox.put(one)
    told: list[str] = []
    inbox.tell_missed(told.append)
    inbox.tell_missed(told.append)
    assert [text.split()[:2] for text in told] == [["7", "readings"]]
    assert all_of(inbox) == readings[7:]


def test_words_and_what_is_wrong_are_never_dropped_and_all_comes_out_in_order() -> None:
    inbox: Inbox[str] = Inbox()
    wrong = DeviceError("pedal", "it is gone", "Plug it in.")
    said: list[Delivered | str] = [Word.NEXT, Reading(0.0, 900.0), "note", wrong]
    said += [Tick(float(n)) if n % 2 else Reading(float(n), 900.0) for n in range(1, HELD)]
    late: list[Delivered | str] = [Word.NEXT, *(Reading(float(n), 900.0) for n in range(9000, 9007))]
    for one in said + late:
        if isinstance(one, str):
            inbox.put_line(one)
        else:
            inbox.put(one)
    told: list[str] = []
    inbox.tell_missed(told.append)
    assert told[0].startswith("4 readings "), "time that is dropped is nothing that was missed"
    assert all_of(inbox) == [Word.NEXT, "note", wrong, *said[10:], *late]
    assert len(inbox) == 0


def test_after_it_was_cleared_as_many_have_room_as_before() -> None:
    inbox: Inbox[str] = Inbox()
    for _ in range(2):
        for n in range(HELD):
            inbox.put(Reading(float(n), 900.0))
        inbox.clear()
    told: list[str] = []
    inbox.tell_missed(told.append)
    assert (told, all_of(inbox)) == ([], [])


def test_leaving_goes_past_everything() -> None:
    inbox: Inbox[str] = Inbox()
    inbox.put(Reading(1.0, 900.0))
    inbox.put_line("next")
    inbox.take()
    inbox.put_first("leave")
    assert inbox.take()[0] == "leave"


def test_it_is_told_once_that_something_waits_and_with_each_whether_more_does() -> None:
    told: list[None] = []
    inbox: Inbox[str] = Inbox(lambda: told.append(None))
    for n in range(3):
        inbox.put(Reading(float(n), 900.0))
    assert len(told) == 1
    assert [inbox.take()[1] for _ in range(4)] == [True, True, False, False]
    inbox.put(Word.NEXT)
    assert len(told) == 2


def test_whoever_waits_is_woken_and_whoever_says_too_much_is_held_up() -> None:
    inbox: Inbox[str] = Inbox()
    done = Event()

    def talk() -> None:
        for n in range(3000):
            inbox.put_line(str(n))
        done.set()

    thread = Thread(target=talk)
    thread.start()
    assert [inbox.take(20.0)[0] for _ in range(1500)] == [str(n) for n in range(1500)]
    assert not done.is_set(), "at most a thousand wait"
    assert [inbox.take(20.0)[0] for _ in range(1500)] == [str(n) for n in range(1500, 3000)]
    thread.join()


def test_a_signal_while_it_is_waited_in_reaches_it() -> None:
    inbox: Inbox[str] = Inbox()
    before = signal.signal(signal.SIGUSR1, lambda *_: inbox.put_first("leave"))
    try:
        thread = Thread(target=lambda: signal.pthread_kill(main_thread().ident or 0, signal.SIGUSR1))
        thread.start()
        assert inbox.take(20.0)[0] == "leave"
        thread.join()
    finally:
        signal.signal(signal.SIGUSR1, before)
