"""What happens when something goes wrong: a line that says what, where, and what to do; never a traceback."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from threading import current_thread, main_thread

from devices import DeviceError
from plans.errors import PlansError
from plans.text import printable
from tui.cli import streams
from tui.config import UsageError
from tui.running import report_of


def guarded(work: Callable[[], int]) -> int:
    """Do the work of a command; whatever goes wrong is said in a line on standard error.

    Args:
        work: does it, and returns its exit status

    Returns:
        the exit status: 0 done, 1 failed, 2 wrong usage; what was printed has gone out by then
    """
    streams.ready()
    status = _status(work)
    return _status(sys.stdout.flush) or status


@contextmanager
def interrupted_at_once() -> Iterator[None]:
    """Within this context, in which nothing begins and much may be loaded, end without more when interrupted.

    Raised in the midst of an import, KeyboardInterrupt can be lost: Python itself cleans up there in calls out of which
    no exception comes, and goes on.
    """
    if current_thread() is not main_thread():
        yield  # it hears no signals
        return
    before = signal.signal(signal.SIGINT, _end)
    try:
        yield
    finally:
        if signal.getsignal(signal.SIGINT) is _end:  # else whoever hears of it now goes on doing so
            signal.signal(signal.SIGINT, before)


def _end(*_: object) -> None:
    with suppress(OSError):  # not by print: whoever was interrupted may have been printing
        os.write(2, b"heatbook: interrupted\n")
    os._exit(1)


def _status(work: Callable[[], int | None]) -> int:
    try:
        return work() or 0
    except SystemExit as error:  # argparse has said already what there was to say
        return error.code if isinstance(error.code, int) else int(error.code is not None)
    except UsageError as error:
        return _say(str(error), 2)
    except (PlansError, DeviceError) as error:
        return _say(str(error), 1)
    except KeyboardInterrupt:
        return _say("interrupted", 1)
    except BrokenPipeError:
        streams.silence()
        return 1
    except OSError as error:
        if error.filename == streams.OUTPUT:
            streams.silence()
        where = f"{error.filename}: " if error.filename else ""
        return _say(f"{where}{error.strerror or error}", 1)
    except Exception as error:
        return _say(report_of(error), 1)


def _say(text: str, status: int) -> int:
    lines = [printable(line) for line in text.splitlines()]
    with suppress(OSError):  # where nobody hears it, the status still tells
        print("heatbook: " + "\n".join(lines), file=sys.stderr, flush=True)
    return status
