"""A folder whose writes are recorded, and what a power cut can leave of them.

What was synced stays. Of the rest any part may be there and any part not, in any order: of the bytes of a file the
first few, some blocks as zeros, or none; of the names of a folder each by itself the old one or a newer one.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from io import BufferedWriter
from pathlib import Path
from random import Random
from typing import Any
from unittest.mock import patch

_BLOCK = 512
"""Bytes that a disk writes whole or not at all."""


@dataclass(eq=False)
class _Folder:
    """A folder: what each name stood for when it was synced last, and what it has stood for since."""

    synced: dict[str, _Node | None] = field(default_factory=dict)
    since: dict[str, list[_Node | None]] = field(default_factory=dict)

    def now(self, name: str) -> _Node | None:
        return self.since[name][-1] if name in self.since else self.synced.get(name)

    def put(self, name: str, node: _Node | None) -> None:
        self.since.setdefault(name, []).append(node)


@dataclass(eq=False)
class _File:
    """A file: what it held when it was synced last, and what it holds now."""

    synced: bytes = b""
    now: bytes = b""


_Node = _Folder | _File
_Step = Callable[["Disk"], None]


class Disk:
    """What a folder is made of on the disk, after some of the steps that were recorded."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._top = _Folder()

    def folder(self, path: str) -> _Folder:
        """The folder of this path, as the program sees it."""
        found = self._top
        for name in Path(path).relative_to(self._root).parts:
            inner = found.now(name)
            assert isinstance(inner, _Folder)
            found = inner
        return found

    def put(self, path: str, node: _Node | None) -> None:
        """Have a name stand for something else from now on."""
        self.folder(os.path.dirname(path)).put(os.path.basename(path), node)  # noqa: PTH119, PTH120 - plain strings

    def node(self, path: str) -> _Node | None:
        """What a name stands for now."""
        return self.folder(os.path.dirname(path)).now(os.path.basename(path))  # noqa: PTH119, PTH120

    def file(self, path: str) -> _File:
        """The file of this path."""
        node = self.node(path)
        assert isinstance(node, _File)
        return node

    def left(self, folder: Path, random: Random) -> None:
        """Write into a folder what a power cut may leave of it now."""
        _leave(self._top, folder, random)


def _leave(folder: _Folder, into: Path, random: Random) -> None:
    into.mkdir()
    for name in folder.synced | folder.since:
        node = random.choice([folder.synced.get(name), *folder.since.get(name, [])])
        if isinstance(node, _Folder):
            _leave(node, into / name, random)
        elif node is not None:
            (into / name).write_bytes(_left_of(node, random))


def _left_of(file: _File, random: Random) -> bytes:
    if file.synced == file.now:
        return file.now
    if not file.now.startswith(file.synced):
        return random.choice([file.synced, file.now])
    fresh = file.now[len(file.synced) :]
    match random.choice(("none", "all", "some", "zeros", "blocks")):
        case "none":
            return file.synced
        case "all":
            return file.now
        case "some":
            return file.synced + fresh[: random.randrange(len(fresh))]
        case "zeros":
            return file.synced + bytes(len(fresh))
        case _:
            content = bytearray(file.now)
            for begin in range(0, len(content), _BLOCK):
                lost = range(max(begin, len(file.synced)), min(begin + _BLOCK, len(content)))
                if random.random() < 0.5 and lost:
                    content[lost.start : lost.stop] = bytes(len(lost))
            return bytes(content)


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
            stack.enter_context(patch("plans.logbook.journal._sync", self._fsync(os.fdatasync)))
            yield

    def _is_ours(self, path: object) -> bool:
        return str(path).startswith(str(self.root))

    def _open(self, real: Callable[..., int]) -> Callable[..., int]:
        def open_(path: Any, flags: int, *rest: Any, **named: Any) -> int:
            ours = self._is_ours(path)
            new = ours and not os.path.lexists(path)
            descriptor = real(path, flags, *rest, **named)
            if ours:
                self._paths[descriptor] = os.fspath(path)
                if new:
                    self.steps.append(lambda disk, path=os.fspath(path): disk.put(path, _File()))
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
                super().__init__(open(descriptor, "wb", buffering=0))  # type: ignore[arg-type] # noqa: PTH123, SIM115
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
                self.steps.append(lambda disk: disk.put(os.fspath(path), _Folder()))

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
