"""Text of a plan, a probe or a smith made fit for a page: shown as it is, obeyed in nothing."""

from __future__ import annotations

from html import escape

_KEPT = frozenset("\n\t")


def in_markup(text: str) -> str:
    """The text as it stands between tags or in an attribute's quotes.

    What is no printable character, but newline and tab, becomes U+FFFD: control characters, halves of characters, and
    those that turn the direction of writing.
    """
    return escape("".join(char if char.isprintable() or char in _KEPT else "\ufffd" for char in text), quote=True)


def on_paper(text: str) -> str:
    """A text with its temperatures as a page writes them: "1250 °C" for "1250 degC", "°F" for "degF"."""
    return text.replace("degC", "°C").replace("degF", "°F")
