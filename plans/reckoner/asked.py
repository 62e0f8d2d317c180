"""Which figures of a reckoning are its answer: those that were asked for, which everybody shows first and largest."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Final

from plans.reckoner.figures import Fact, Figure
from plans.record import record

OneOf = tuple[str, ...]
"""Keys of a record, of which the first that has a figure is meant."""


@record
class AskedFor:
    """What one question asks for, in the order in which it is shown."""

    reckoning: str
    """Which reckoning answers it: "cooling", "soak" ..."""
    figures: tuple[OneOf, ...]
    """The figures of the answer, three at most."""
    where: OneOf = ()
    """Keys of what must have been given for this to be the question, such as the time of another temper."""


# Of one reckoning the question with the most particular wish stands first.
ASKED: Final = (
    AskedFor("cooling", (("coldest_seconds",), ("face_seconds",), ("seconds",)), ("struck_by",)),
    AskedFor("cooling", (("coldest_seconds",), ("seconds",), ("middle_celsius",))),
    AskedFor("soak", (("seconds",), ("skin_seconds",), ("skin_celsius",))),
    AskedFor(
        "steel",
        (
            ("hardened_martensite_fraction", "dissolved_carbon_percent"),
            ("hardened_ms_celsius",),
            ("hardening_celsius",),
        ),
        ("at_celsius",),
    ),
    AskedFor(
        "steel",
        (
            ("hardening_celsius",),
            ("tempering_celsius", "tempering_edge_celsius"),
            ("normalizing_first_heat_celsius", "normalizing_celsius"),
        ),
    ),
    AskedFor("carbon", (("agren_even_seconds",), ("agren_remaining_fraction",)), ("layer_mm", "carbon_percent")),
    AskedFor("carbon", (("even_seconds",), ("remaining_fraction",)), ("layer_mm",)),
    AskedFor("carbon", (("decarb_depth_mm",), ("grinding_allowance_mm",))),
    AskedFor("scale", (("loss_mm",), ("scale_mm",), ("mass_fraction",))),
    AskedFor("draw", (("length_mm",), ("stretch",), ("heats",))),
    AskedFor("stock", (("comes_out",), ("left_over_fraction",), ("length_mm",)), ("have_mm",)),
    AskedFor("stock", (("length_mm",), ("mass_kg",), ("finished_kg",)), ("piece",)),
    AskedFor("stock", (("out_cm3",), ("stock_cm3",), ("beside_cm3",)), ("plan",)),
    AskedFor("skin", (("decarb_depth_mm",), ("grinding_allowance_mm",), ("scale_loss_mm",))),
    AskedFor(
        "temper",
        (("instead_at_celsius",), ("instead_for_seconds",), ("hardness_hrc",)),
        ("instead_for_seconds", "instead_at_celsius"),
    ),
    AskedFor("temper", (("instead_at_celsius",), ("hardness_hrc",)), ("instead_for_seconds",)),
    AskedFor("temper", (("instead_for_seconds",), ("hardness_hrc",)), ("instead_at_celsius",)),
    AskedFor("temper", (("hardness_hrc",), ("one_hour_celsius",))),
    AskedFor("weight", (("mass_kg",), ("mass_per_metre_kg",), ("volume_cm3",))),
    AskedFor("glow", (("name",), ("name_spread_kelvin",))),
    AskedFor("layers", (("layers",), ("layer_mm",), ("carbon_left_fraction",)), ("at_celsius",)),
    AskedFor("layers", (("layers",), ("edge_layers",), ("band_mm",)), ("bevel_mm",)),
    AskedFor("layers", (("layers",), ("layer_mm",))),
    AskedFor("twist", (("angle_degrees",), ("turns",))),
    AskedFor("composite", (("core_mm", "core_bar_mm"), ("jacket_mm", "jacket_bar_mm"))),
    AskedFor("laminate", (("front_line_mm",), ("back_line_mm",)), ("off_mm",)),
    AskedFor("laminate", (("line_mm",), ("may_wander_mm",))),
    AskedFor("notch", (("depth_mm",), ("mouth_mm",))),
    AskedFor("wander", (("strike",), ("lean_degrees",))),
    AskedFor("thermocouple", (("celsius", "millivolts"), ("tolerance_class_2_kelvin",))),
    AskedFor("squeeze", (("force_needed_newton",), ("height_mm",)), ("force_newton",)),
    AskedFor("squeeze", (("force_needed_newton",), ("width_mm",))),
    AskedFor("heats", (("heats",), ("reduction_fraction",))),
    AskedFor("bevels", (("take_off_mm",), ("ridge_offset_mm",))),
    AskedFor("profile", (("take_off_mm",), ("width_then_mm",))),
    AskedFor("forged", (("width_mm",), ("elongation",))),
)
"""What each question asks for: the first that fits a reckoning counts."""


def answer_of(reckoning: str, given: Collection[str], found: Sequence[Figure | Fact]) -> tuple[Figure | Fact, ...]:
    """The figures that were asked for, among all that were found; empty for a reckoning that `ASKED` doesn't name.

    Args:
        reckoning: which one it is
        given: keys of what was given
        found: all that was found
    """
    asked = next((one for one in ASKED if one.reckoning == reckoning and set(one.where) <= set(given)), None)
    return () if asked is None else tuple(_chosen(asked, {one.key: one for one in found}))


def _chosen(asked: AskedFor, found: dict[str, Figure | Fact]) -> Iterator[Figure | Fact]:
    for keys in asked.figures:
        there = [found[key] for key in keys if key in found]
        if there:
            yield next((one for one in there if one.kept is not None), there[0])
