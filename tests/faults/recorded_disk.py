"""A folder whose writes are recorded, so that the power can be cut after each of them."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from io import BufferedWriter
from pathlib import Path
from typing import Any
from unittest.mock import patch

from tests.faults.power_cut import Disk, File, Folder

_Step = Callable[[Disk], None]


class Recorder:
    """What was done to a folder, step by step, by the calls to the system that the logbook makes.

    Args:
        root: the folder; it is there already, and empty
    """

    def __init__(self, root: Path) -> None:
        self.root = root
        self.steps: list[_Step] = []
        """Each does once more to a `Disk` what was done to the folder."""
        self._paths: dict[int, str] = {}

    def disk(self, steps: int) -> Disk:
        """The disk after so many steps."""
        disk = Disk(self.root)
        for step in self.steps[:steps]:
            step(disk)
        return disk

    @contextmanager
    def recording(self) -> Iterator[None]:
        """Record what the logbook does within this context."""
        with ExitStack() as stack:
            for name in ("open", "close", "write", "fdopen", "ftruncate", "fsync", "mkdir", "unlink"):
                stack.enter_context(patch.object(os, name, getattr(self, f"_{name}")(getattr(os, name))))
            for name in ("rename", "replace"):
                stack.enter_context(patch.object(os, name, self._moved(getattr(os, name))))
            # The journal looked its call up when it was imported.
            stack.enter_context(patch("plans.logbook.journal.appending._sync", self._fsync(os.fdatasync)))
            yield

    def _is_ours(self, path: object) -> bool:
        return str(path).startswith(str(self.root))

    def _open(self, real: Callable[..., int]) -> Callable[..., int]:
        def open_(path: Any, flags: int, *rest: Any, **named: Any) -> int:
            if not self._is_ours(path):
                return real(path, flags, *rest, **named)
            new = not os.path.lexists(path)
            descriptor = real(path, flags, *rest, **named)
            self._paths[descriptor] = os.fspath(path)
            if new:
                self.steps.append(lambda disk: disk.put(os.fspath(path), File()))
            return descriptor

        return open_

    def _close(self, real: Callable[[int], None]) -> Callable[[int], None]:
        def close(descriptor: int) -> None:
            self._paths.pop(descriptor, None)
            real(descriptor)

        return close

    def _fdopen(self, real: Callable[..., BufferedWriter]) -> Callable[..., Any]:
        def fdopen(descriptor: int, mode: str, *rest: Any) -> Any:
            path = self._paths.get(descriptor)
            return real(descriptor, mode, *rest) if "w" not in mode or path is None else Written(descriptor, path)

        recorder = self

        class Written(BufferedWriter):
            def __init__(self, descriptor: int, path: str) -> None:
                super().__init__(open(descriptor, "wb", buffering=0))  # noqa: SIM115
                self._path = path

            def write(self, data: Any) -> int:
                recorder._wrote(self._path, bytes(data))
                return super().write(data)

        return fdopen

    def _write(self, real: Callable[[int, Any], int]) -> Callable[[int, Any], int]:
        def write(descriptor: int, data: Any) -> int:
            written = real(descriptor, data)
            if descriptor in self._paths:
                self._wrote(self._paths[descriptor], bytes(data[:written]))
            return written

        return write

    def _wrote(self, path: str, data: bytes) -> None:
        def step(disk: Disk) -> None:
            disk.file(path).now += data

        self.steps.append(step)

    def _ftruncate(self, real: Callable[[int, int], None]) -> Callable[[int, int], None]:
        def ftruncate(descriptor: int, size: int) -> None:
            real(descriptor, size)
            if descriptor in self._paths:
                path = self._paths[descriptor]

                def step(disk: Disk) -> None:
                    disk.file(path).now = disk.file(path).now[:size]

                self.steps.append(step)

        return ftruncate

    def _fsync(self, real: Callable[[int], None]) -> Callable[[int], None]:
        def fsync(descriptor: int) -> None:
            real(descriptor)
            path = self._paths.get(descriptor)
            if path is not None:
                self.steps.append(_folder_synced(path) if os.path.isdir(path) else _file_synced(path))  # noqa: PTH112

        return fsync

    def _mkdir(self, real: Callable[..., None]) -> Callable[..., None]:
        def mkdir(path: Any, *rest: Any, **named: Any) -> None:
            real(path, *rest, **named)
            if self._is_ours(path):
                self.steps.append(lambda disk: disk.put(os.fspath(path), Folder()))

        return mkdir

    def _unlink(self, real: Callable[..., None]) -> Callable[..., None]:
        def unlink(path: Any, **named: Any) -> None:
            real(path, **named)
            if self._is_ours(path):
                self.steps.append(lambda disk: disk.put(os.fspath(path), None))

        return unlink

    def _moved(self, real: Callable[..., None]) -> Callable[..., None]:
        def move(path: Any, to: Any, **named: Any) -> None:
            real(path, to, **named)

            def step(disk: Disk) -> None:
                node = disk.node(os.fspath(path))
                disk.put(os.fspath(to), node)
                disk.put(os.fspath(path), None)

            if self._is_ours(path):
                self.steps.append(step)

        return move


def _file_synced(path: str) -> _Step:
    def step(disk: Disk) -> None:
        file = disk.file(path)
        file.synced = file.now

    return step


def _folder_synced(path: str) -> _Step:
    def step(disk: Disk) -> None:
        folder = disk.folder(path)
        folder.synced |= {name: nodes[-1] for name, nodes in folder.since.items()}
        folder.since.clear()

    return step
