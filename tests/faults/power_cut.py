"""What a power cut can leave of the files of a folder.

What was synced stays. Of the rest any part may be there and any part not, in any order: of the bytes of a file the
first few, some blocks as zeros, or none; of the names of a folder each by itself the old one or a newer one.
"""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

_BLOCK = 512
"""Bytes that a disk writes whole or not at all."""


@dataclass(eq=False)
class Folder:
    """A folder: what each name stood for when it was synced last, and what it has stood for since."""

    synced: dict[str, Node | None] = field(default_factory=dict)
    since: dict[str, list[Node | None]] = field(default_factory=dict)

    def now(self, name: str) -> Node | None:
        """What a name stands for now."""
        return self.since[name][-1] if name in self.since else self.synced.get(name)

    def put(self, name: str, node: Node | None) -> None:
        """Have a name stand for something else, not synced yet."""
        self.since.setdefault(name, []).append(node)


@dataclass(eq=False)
class File:
    """A file: what it held when it was synced last, and what it holds now."""

    synced: bytes = b""
    now: bytes = b""


Node = Folder | File


class Disk:
    """What a folder is made of on the disk; empty at first.

    Args:
        root: path of the folder, by which the paths within it are known
    """

    def __init__(self, root: Path) -> None:
        self._root = root
        self._top = Folder()

    def folder(self, path: str) -> Folder:
        """The folder of this path, as the program sees it."""
        found = self._top
        for name in Path(path).relative_to(self._root).parts:
            inner = found.now(name)
            assert isinstance(inner, Folder)
            found = inner
        return found

    def put(self, path: str, node: Node | None) -> None:
        """Have a name stand for something else from now on."""
        self.folder(os.path.dirname(path)).put(os.path.basename(path), node)  # noqa: PTH119, PTH120 - plain strings

    def node(self, path: str) -> Node | None:
        """What a name stands for now."""
        return self.folder(os.path.dirname(path)).now(os.path.basename(path))  # noqa: PTH119, PTH120

    def file(self, path: str) -> File:
        """The file of this path."""
        node = self.node(path)
        assert isinstance(node, File)
        return node

    def left(self, folder: Path, random: Random) -> None:
        """Write into a folder what a power cut may leave of it now."""
        _leave(self._top, folder, random)


def _leave(folder: Folder, into: Path, random: Random) -> None:
    into.mkdir()
    for name in folder.synced | folder.since:
        node = random.choice([folder.synced.get(name), *folder.since.get(name, [])])
        if isinstance(node, Folder):
            _leave(node, into / name, random)
        elif node is not None:
            (into / name).write_bytes(_left_of(node, random))


def _left_of(file: File, random: Random) -> bytes:
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
