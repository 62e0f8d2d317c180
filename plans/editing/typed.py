"""What a person types for a key, as the value that TOML then holds; whether it makes sense is for the reader to say."""

from __future__ import annotations

from typing import Any

from plans.reader import Choices, Count, Lines, OrAuto, QuantityOrEach, Value


def typed_value(kind: Value | None, typed: str) -> Any:
    """What TOML holds for a text that was typed: a list of lines one a line, a list of words or quantities parted by
    commas, a whole number without quotes, and anything else as it stands.

    Args:
        kind: the type of value of the key; None for a key that is not known
        typed: what was typed
    """
    match kind:
        case Lines():
            return [line.strip() for line in typed.splitlines() if line.strip()]
        case Choices():
            return _parted(typed)
        case QuantityOrEach():
            parts = _parted(typed)
            return parts if len(parts) > 1 else typed.strip()
        case OrAuto(inner):
            return typed_value(inner, typed)
        case Count():
            return int(typed) if typed.strip().isdecimal() and len(typed) < 16 else typed.strip()
    return typed.strip()


def typed_text(kind: Value | None, value: Any) -> str:
    """A value of TOML as it would be typed; the inverse of `typed_value`.

    Args:
        kind: the type of value of the key
        value: as TOML holds it
    """
    if isinstance(value, list):
        return ("\n" if isinstance(kind, Lines) else ", ").join(str(item) for item in value)
    return str(value)


def _parted(typed: str) -> list[str]:
    return [part.strip() for part in typed.split(",") if part.strip()]
