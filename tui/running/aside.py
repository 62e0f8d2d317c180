"""What takes long is done in a thread that nobody waits for when the program ends."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from threading import Thread
from typing import ParamSpec, TypeVar

_Args = ParamSpec("_Args")
_Result = TypeVar("_Result")


class Aside(ThreadPoolExecutor):
    """Does each thing in a thread of its own; to be the default executor of an asyncio loop, which takes no other kind.

    Python ends only when the threads of its own executors have: whoever leaves while a long logbook is being read would
    wait for it.
    """

    def submit(self, fn: Callable[_Args, _Result], /, *args: _Args.args, **kwargs: _Args.kwargs) -> Future[_Result]:
        """Do it, beginning at once."""
        future: Future[_Result] = Future()

        def do() -> None:
            if future.set_running_or_notify_cancel():
                try:
                    future.set_result(fn(*args, **kwargs))
                except BaseException as error:
                    future.set_exception(error)

        Thread(target=do, name="aside", daemon=True).start()
        return future

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        """Wait for nothing."""
        del wait, cancel_futures
