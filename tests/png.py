"""Pictures for tests: PNG files of a few bytes, as the PNG specification (W3C, third edition) has them."""

from __future__ import annotations

import struct
import zlib


def png(grey: int, side: int = 4) -> bytes:
    """A square of one grey.

    Args:
        grey: 0 for black to 255 for white
        side: of the square [pixels]
    """
    rows = b"".join(b"\0" + bytes([grey] * side) for _ in range(side))
    head = struct.pack(">IIBBBBB", side, side, 8, 0, 0, 0, 0)
    chunks = (b"IHDR", head), (b"IDAT", zlib.compress(rows)), (b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data)) for name, data in chunks
    )
