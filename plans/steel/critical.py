"""Critical temperatures from the composition: Ac1, Ac3 and Acm on heating, Bs on cooling. Ms stands in `martensite`.

Each answer is a `Finding`: the temperature with its formula, source, error where it is known, and a note where the
composition lies outside what the formula is good for. Nothing is extrapolated in silence, and far outside there is no
figure at all.
"""

from __future__ import annotations

from math import exp, sqrt
from typing import Final

from plans.steel import equilibrium
from plans.steel.composition import Composition
from plans.steel.finding import Finding, Formula, FormulaLimits, Origin
from plans.units import Shown, Units, celsius, joined

ANDREWS: Final = "K. W. Andrews, JISI 203 (1965) 721-727"
"""The paper that Andrews' formulas for Ac1, Ac3 and Ms are from, as a source is cited."""

_ANDREWS_ALLOYS: Final = {
    "Mn": (0.0, 4.9),
    "Si": (0.0, 2.0),
    "Ni": (0.0, 5.0),
    "Cr": (0.0, 4.6),
    "Mo": (0.0, 5.4),
    "W": (0.0, 4.0),
}
"""About what Andrews' steels held (from memory)."""
_ANDREWS_LAST: Final = {
    "Mn": (0.0, 6.0),
    "Si": (0.0, 3.0),
    "Ni": (0.0, 7.0),
    "Cr": (0.0, 6.0),
    "Mo": (0.0, 6.0),
    "W": (0.0, 6.0),
}
ANDREWS_CARBON: Final = 0.60
"""Most carbon for which Andrews' formula for Ac3 means anything [mass %]."""


def _ac1(steel: Composition) -> float:
    return (
        723
        - 10.7 * steel.manganese
        - 16.9 * steel.nickel
        + 29.1 * steel.silicon
        + 16.9 * steel.chromium
        + 290 * steel.arsenic
        + 6.38 * steel.tungsten
    )


def _ac3_alloys(steel: Composition) -> float:
    return (
        44.7 * steel.silicon
        - 15.2 * steel.nickel
        + 104 * steel.vanadium
        + 31.5 * steel.molybdenum
        + 13.1 * steel.tungsten
    )


def _ac3(steel: Composition) -> float:
    return 910 - 203 * sqrt(steel.carbon) + _ac3_alloys(steel)


def _ac3_full(steel: Composition) -> float:
    return (
        _ac3(steel)
        - 30 * steel.manganese
        - 11 * steel.chromium
        - 20 * steel.copper
        + 700 * steel.phosphorus
        + 400 * steel.aluminium
        + 120 * steel.arsenic
        + 400 * steel.titanium
    )


_AC1: Final = Formula(
    name="Ac1",
    text="723 - 10.7 Mn - 16.9 Ni + 29.1 Si + 16.9 Cr + 290 As + 6.38 W",
    source=ANDREWS,
    celsius=_ac1,
    # Andrews' steels held up to 0.6 % carbon, but carbon is not in it, and makers' cards for 1 % agree within 15 K.
    limits=FormulaLimits(good={"C": (0.1, 1.1)} | _ANDREWS_ALLOYS, last={"C": (0.0, 1.6)} | _ANDREWS_LAST),
    error=lambda _: 15.0,
)

_AC3_LIMITS: Final = FormulaLimits(
    good={"C": (0.1, ANDREWS_CARBON)} | _ANDREWS_ALLOYS, last={"C": (0.0, ANDREWS_CARBON)} | _ANDREWS_LAST
)

_AC3: Final = Formula(
    name="Ac3",
    text="910 - 203 sqrt(C) - 15.2 Ni + 44.7 Si + 104 V + 31.5 Mo + 13.1 W",
    source=ANDREWS,
    celsius=_ac3,
    limits=_AC3_LIMITS,
    # Within 8 K of printed cards for common steels; a silicon spring steel reads 27 K high.
    error=lambda steel: 10.0 if steel.silicon <= 0.6 else 30.0,
)

_AC3_FULL: Final = Formula(
    name="Ac3",
    text=f"{_AC3.text} - 30 Mn - 11 Cr - 20 Cu + 700 P + 400 Al + 120 As + 400 Ti",
    source=ANDREWS,
    celsius=_ac3_full,
    limits=_AC3_LIMITS,
    error=lambda _: 20.0,
)

_AC3_HIGH_CARBON: Final = Formula(
    name="Ac3",
    text="A3 of Fe-C + Andrews' terms for Ni, Si, V, Mo, W",
    source=f"fit to computed Fe-C equilibria; alloy terms {ANDREWS}",
    celsius=lambda steel: celsius(equilibrium.a3(steel.carbon)) + _ac3_alloys(steel),
    limits=FormulaLimits(
        good={"C": (0.5, 0.85)} | _ANDREWS_ALLOYS,
        last={"C": (0.0, 0.95)} | _ANDREWS_LAST,
    ),
    origin=Origin.EQUILIBRIUM,
    error=lambda steel: 20.0 if steel.silicon <= 0.6 else 30.0,
)


def _overshoot(units: Units) -> str:
    return f"at equilibrium; heating overshoots it by {units.difference(10.0, unit=False)} to {units.difference(40.0)}"


def _chromium_spread(units: Units) -> str:
    return f"sources differ by {units.difference(15.0)} for 1.5 % Cr, and cards print less"


def _acm_remark(steel: Composition) -> Shown:
    binders = {"V": steel.vanadium, "W": steel.tungsten, "Mo": steel.molybdenum}
    there = [symbol for symbol, share in binders.items() if share >= 0.05]
    said: list[Shown] = [_overshoot]
    if steel.chromium >= 0.5:
        said.append(_chromium_spread)
    if there:
        said.append(f"what {', '.join(there)} holds in carbides of its own is not counted and dissolves later")
    return joined(said)


_ACM: Final = Formula(
    name="Acm",
    text="carbon dissolved = that of Fe-C (Acm 381.1 + 504.5 C - 66.36 C2), less for Cr; shifted for Si, Mn",
    source="fits to computed equilibria: Fe-C Gustafson 1985, Fe-C-Cr Khvan et al. 2014, and mc_fe 2.059",
    celsius=lambda steel: celsius(equilibrium.acm_of(steel)),
    limits=FormulaLimits(
        good={
            "C": (equilibrium.EUTECTOID_CARBON, equilibrium.MOST_CARBON),
            "Mn": (0.0, 1.5),
            "Si": (0.0, 1.0),
            "Cr": (0.0, 2.0),
            "Ni": (0.0, 0.5),
            "Mo": (0.0, 0.3),
            "V": (0.0, 0.3),
            "W": (0.0, 0.6),
        },
        # Beyond 2.5 % Cr another carbide takes over, and the line means nothing.
        last={
            "C": (0.5, 1.6),
            "Mn": (0.0, 2.5),
            "Si": (0.0, 2.0),
            "Cr": (0.0, 2.5),
            "Ni": (0.0, 3.0),
            "Mo": (0.0, 0.6),
            "V": (0.0, 0.5),
            "W": (0.0, 1.5),
        },
    ),
    origin=Origin.EQUILIBRIUM,
    error=lambda steel: 15.0 if steel.chromium >= 0.5 else 5.0,
    remark=_acm_remark,
)

_BS: Final = Formula(
    name="Bs",
    text="839 - 86 Mn - 23 Si - 67 Cr - 33 Ni - 75 Mo - 270 (1 - exp(-1.33 C))",
    source="S. M. C. van Bohemen, Mater. Sci. Technol. 28 (2012) 487-495, from memory",
    celsius=lambda steel: (
        839
        - 86 * steel.manganese
        - 23 * steel.silicon
        - 67 * steel.chromium
        - 33 * steel.nickel
        - 75 * steel.molybdenum
        - 270 * (1 - exp(-1.33 * steel.carbon))
    ),
    limits=FormulaLimits(
        good={"C": (0.1, 1.0), "Mn": (0, 2.0), "Si": (0, 2.0), "Cr": (0, 2.5), "Ni": (0, 4.0), "Mo": (0, 1.0)},
        last={"C": (0.0, 1.6), "Mn": (0, 3.0), "Si": (0, 3.0), "Cr": (0, 4.0), "Ni": (0, 5.0), "Mo": (0, 2.0)},
    ),
    error=lambda _: 25.0,
    remark=lambda _: "limits and error from memory",
)

_BS_STEVEN_HAYNES: Final = Formula(
    name="Bs",
    text="830 - 270 C - 90 Mn - 37 Ni - 70 Cr - 83 Mo",
    source="W. Steven and A. G. Haynes, JISI 183 (1956) 349-359, from memory",
    celsius=lambda steel: (
        830
        - 270 * steel.carbon
        - 90 * steel.manganese
        - 37 * steel.nickel
        - 70 * steel.chromium
        - 83 * steel.molybdenum
    ),
    limits=FormulaLimits(
        good={"C": (0.1, 0.55), "Mn": (0.2, 1.7), "Cr": (0, 3.5), "Ni": (0, 5.0), "Mo": (0, 1.0)},
        last={"C": (0.0, 0.8), "Mn": (0, 2.5), "Cr": (0, 4.5), "Ni": (0, 6.0), "Mo": (0, 2.0)},
    ),
    error=lambda _: 25.0,
    remark=lambda _: "limits and error from memory",
)


def ac1(steel: Composition) -> Finding:
    """Ac1, where austenite begins to form on heating, by Andrews 1965 [K].

    Beyond what the formula is good for the finding says so; far beyond it has no figure.
    """
    return _AC1.find(steel)


def ac3(steel: Composition) -> Finding:
    """Ac3, where the last ferrite is gone on heating, by the short form of Andrews 1965 [K].

    It has a figure up to 0.6 % carbon only; for steel with more carbon `upper` has one.
    """
    return _AC3.find(steel)


def ac3_full(steel: Composition) -> Finding:
    """Ac3, where the last ferrite is gone on heating, by all terms of Andrews 1965; for comparison with `ac3` [K].

    The short form, which `ac3` has, comes closer to makers' cards. It has a figure up to 0.6 % carbon only.
    """
    return _AC3_FULL.find(steel)


def acm(steel: Composition) -> Finding:
    """Acm, where the last cementite is dissolved, at equilibrium: see `equilibrium.acm_of` [K].

    Good for 0.76 to 1.4 % carbon and up to 2 % chromium. Beyond that the finding says so; far beyond it has no figure.
    """
    return _ACM.find(steel)


def upper(steel: Composition) -> Finding:
    """The upper critical temperature: Ac3, or Acm of a steel with more carbon than its eutectoid [K].

    Andrews' short form up to 0.6 % carbon. Above, ferrite and cementite have a line each, and the steel is through when
    the higher of them is: below the eutectoid that is the one of ferrite, named Ac3, above it the one of cementite,
    named Acm. Alloys move the eutectoid, so that carbon alone does not tell which it is.
    """
    if steel.carbon <= ANDREWS_CARBON:
        return ac3(steel)
    cementite = acm(steel)
    ferrite = _AC3_HIGH_CARBON.find(steel)
    if ferrite.value is not None and cementite.value is not None:
        return max(ferrite, cementite, key=lambda finding: finding.value or 0.0)
    return cementite


def bs(steel: Composition) -> Finding:
    """Bs, where bainite begins to form on cooling from austenite that holds all carbon, by van Bohemen 2012 [K].

    Beyond what the formula is good for the finding says so; far beyond it has no figure.
    """
    return _BS.find(steel)


def bs_steven_haynes(steel: Composition) -> Finding:
    """Bs, where bainite begins to form on cooling, by Steven and Haynes 1956; for comparison with `bs` [K].

    Good up to 0.55 % carbon. Beyond that the finding says so; far beyond it has no figure.
    """
    return _BS_STEVEN_HAYNES.find(steel)
