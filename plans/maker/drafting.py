"""From a proposal to the text of a plan's file, with where each figure comes from beside it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from plans.editing import Draft, DraftTable, toml_of
from plans.maker.proposal import Proposal
from plans.maker.why import Why, sentence
from plans.reader import PlanKeys
from plans.units import Units

_HEAD = """Made from the answers at the end, in [made_from]: change them, and the maker makes it anew. Whatever you \
change by hand stays as you have it."""


_PLAIN: Final = frozenset({"asked", "arithmetic"})
"""What needs no comment in the file: it follows from what stands there."""


def draft_of_proposal(proposal: Proposal, units: Units = Units.METRIC) -> Draft:
    """A proposal as the keys of a plan's file, each reason said where it comes first.

    Args:
        proposal: the plan
        units: in which the reasons say their figures
    """
    told: set[tuple[str, str]] = set()

    def comments(whys: Mapping[str, Why]) -> dict[str, str]:
        found = {}
        for name, why in whys.items():
            said = comment_of(why, units)
            if why.basis not in _PLAIN and (name, said) not in told:
                told.add((name, said))
                found[name] = said
        return found

    return Draft(
        PlanKeys(heatbook=1, title=proposal.title, about=proposal.about),
        tuple(DraftTable(keys, comments(whys)) for keys, whys in zip(proposal.bars, proposal.bar_whys, strict=True)),
        tuple(DraftTable(step.keys, comments(step.why), step.part.value) for step in proposal.steps),
        proposal.answers,
    )


def text_of(proposal: Proposal, units: Units = Units.METRIC) -> str:
    """The text of a proposal's plan file.

    Args:
        proposal: the plan
        units: in which its quantities are written
    """
    return toml_of(draft_of_proposal(proposal, units), units, _HEAD)


def comment_of(why: Why, units: Units) -> str:
    """A reason as a comment, by its first sentence: "common practice: One heat sets the weld"."""
    said = sentence(why.said, units).partition(". ")[0].rstrip(".")
    return f"{why.basis}: {' '.join(said.split())}" if said else why.basis
