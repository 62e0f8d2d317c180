"""From a path to the text of a TOML file, and from that text to its values."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Any, Final

from plans.errors import Fault, FaultKind, PlansError
from plans.record import record
from plans.regular import NoOrdinaryFileError, open_regular
from plans.text import printable

LONGEST_LINE: Final = 4_000
"""Most characters of one line: keys of thousands of parts take tomllib minutes."""


class TomlError(PlansError):
    """A file or a text can't be read as TOML at all; its text says which file and line, what is wrong, what to do."""

    def __init__(self, file: str, line: int | None, what: str, hint: str) -> None:
        self.fault = Fault(file, line, "", "", what, hint, FaultKind.FILE)
        """What is wrong, as a fault of the kind `FaultKind.FILE`."""
        super().__init__(str(self.fault))


class NoTomlFileError(TomlError):
    """There is no file at that path."""


@record
class TomlText:
    """A text that is TOML, and what it says."""

    file: str
    """What an error calls the text: the path of its file, as it is shown."""
    text: str
    """The text itself, without a byte order mark; line ends as they were."""
    values: dict[str, Any]
    """Keys and values of the top table, as tomllib gives them."""


def read_toml(path: Path, most_bytes: int) -> TomlText:
    """Read a TOML file.

    Args:
        path: of the file
        most_bytes: a larger file is refused, and not read to its end

    Raises:
        NoTomlFileError: there is none.
        TomlError: it can't be read, or is no TOML.
    """
    return parse_toml(read_text(path, most_bytes), shown_path(path))


def read_text(path: Path, most_bytes: int) -> str:
    """The text of a TOML file, without a byte order mark; arguments and errors are those of `read_toml`.

    Only an ordinary file is opened.
    """
    file = shown_path(path)
    try:
        with open_regular(path) as opened:
            content = opened.read(most_bytes + 1)
    except NoOrdinaryFileError as error:
        raise TomlError(file, None, f"can't be read: {error.strerror}", "give the path of a TOML file") from None
    except FileNotFoundError:
        raise NoTomlFileError(file, None, "can't be read: there is no such file", "check the path") from None
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise TomlError(file, None, f"can't be read: {why}", "check the path and its permissions") from None
    if len(content) > most_bytes:
        size = f"{most_bytes // 1_000_000} MB" if most_bytes >= 1_000_000 else f"{most_bytes // 1_000} kB"
        raise TomlError(file, None, f"it is larger than {size}, far too large", "give the path of another file")
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise TomlError(file, None, "it is written in UTF-16", "save it as UTF-8")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise TomlError(file, line, "it is not written in UTF-8", "save it as UTF-8") from None


def parse_toml(text: str, file: str) -> TomlText:
    """What a TOML text says.

    Args:
        text: TOML; a byte order mark before it is no fault
        file: what an error calls it

    Raises:
        TomlError: it is no TOML, or such as would take for ever to read.
    """
    text = text.removeprefix("\ufeff")
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            raise TomlError(file, number, f"the line has more than {LONGEST_LINE} characters", "break it up")
    import tomllib  # loaded for whoever reads a file, and with datetime it takes 3 ms

    try:
        return TomlText(file, text, tomllib.loads(text))
    except RecursionError:
        what = "lists or tables stand too deep inside each other"
        raise TomlError(file, None, what, "write them flatter") from None
    except ValueError as error:
        raise _no_toml(str(error), text, file) from None


def _no_toml(message: str, text: str, file: str) -> TomlError:
    found = re.search(r" \(at (?:line ([0-9]+), column ([0-9]+)|end of document)\)$", message)
    hint = "mend the TOML there: a key, an equals sign, and text in quotes"
    if found is None:
        return TomlError(file, 1, f"this is no TOML: {message}", hint)
    if message.startswith("Cannot overwrite a value") and found.group(1) is not None:
        key = printable(text.split("\n")[int(found.group(1)) - 1].partition("=")[0].strip()[:40])
        return TomlError(file, int(found.group(1)), f"{key} stands twice", "keep one of the two")
    what = f"this is no TOML: {message[: found.start()]}"
    if found.group(1) is None:
        return TomlError(file, max(1, len(text.splitlines())), f"{what}, at the end", hint)
    return TomlError(file, int(found.group(1)), f"{what}, in column {found.group(2)}", hint)


def shown_path(path: Path) -> str:
    """The path as short as it goes, from the working folder where it lies in it, and fit for a terminal."""
    text = str(path)
    try:
        short = os.path.relpath(path)
    except ValueError:
        short = text
    text = text if short.startswith("..") or len(short) > len(text) else short
    return printable(text)
