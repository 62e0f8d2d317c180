"""What is told where something that was said of a sitting can't be read."""

from __future__ import annotations

from plans.logbook import KeptSitting, Logbook


def tell_damage(logbook: Logbook, kept: KeptSitting) -> None:
    """Put it among the messages of the logbook, where there is such a thing."""
    if kept.damage:
        name = kept.header.id
        logbook.messages.append(f"what was said of sitting {name} can't be read, and stays in its file: {kept.damage}")
