"""The colours of the screen: soot, chalk, and one warm accent. What glows is not here: it has its computed colour."""

from __future__ import annotations

from textual.theme import Theme

FORGE = Theme(
    name="forge",
    primary="#e8a33c",
    secondary="#b8a48c",
    accent="#f2b04c",
    warning="#d9b04c",
    error="#ff6a4d",
    success="#a3b18a",
    foreground="#e9e2d6",
    background="#12100e",
    surface="#1a1714",
    panel="#24201c",
    dark=True,
    variables={
        "text-muted": "#9c9183",
        "block-cursor-text-style": "none",
        "block-cursor-background": "#3a2c1e",
        "block-cursor-foreground": "#f6efe4",
        "input-cursor-background": "#f2b04c",
        "scrollbar": "#3a332c",
        "scrollbar-background": "#1a1714",
    },
)
