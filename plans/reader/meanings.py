"""Words that smiths write for keys, kinds and phases, and what a plan calls each: an error then suggests what is meant,
not what is spelt alike.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from plans.phase import PhaseKind
from plans.plan import StepKind


def _by_word(meanings: Mapping[str, str]) -> dict[str, tuple[str, ...]]:
    """For each word what it may mean; a word of several meanings has them in their order."""
    found: dict[str, tuple[str, ...]] = {}
    for meaning, words in meanings.items():
        for word in words.split(", "):
            found[word] = (*found.get(word, ()), meaning)
    return found


KINDS_MEANT: Final = _by_word(
    {
        StepKind.WELD: "welding, forge weld, forge welding, join, fold, laminate, set, fire weld",
        StepKind.DRAW: "drawing, draw out, drawing out, draw down, stretch, lengthen, taper, flatten, fuller",
        StepKind.FORGE: "forging, hammer, hammering, shape, shaping, bend, bending, upset, upsetting, twist, punch, "
        "bevel, point, cut hot, hot cut, straighten hot",
        StepKind.NORMALIZE: "normalise, normalising, normalizing, normalization, normalisation, refine, grain, cycle, "
        "thermal cycle, air cool",
        StepKind.ANNEAL: "annealing, soften, softening, spheroidize, stress relieve, stress relief",
        StepKind.HARDEN: "hardening, quench, quenching, heat treat, heat treating, heat treatment, ht, austenitize",
        StepKind.TEMPER: "tempering, draw temper, draw the temper, oven, bake",
        StepKind.ETCH: "etching, acid, ferric, ferric chloride, dip, pattern",
        StepKind.BENCH: "cold, cold work, grind, grinding, file, filing, saw, sawing, cut, cutting, drill, clean, "
        "polish, sand, stack, stacking, tack, check, inspect, measure, prepare, prep, finish, straighten, note",
    }
)
"""What the kind of a step is called besides."""
PHASES_MEANT: Final = _by_word(
    {
        PhaseKind.FIRE: "heat, heating, heat up, reheat, forge, warm, warm up",
        PhaseKind.SOAK: "soaking, hold, holding, equalize, even out",
        PhaseKind.STRIKE: "hammer, hammering, forging, work, hit, press, pressing, anvil, draw, weld, blows, bend",
        PhaseKind.AIR: "cool, cooling, air cool, air cooling, cool down, still air, normalize",
        PhaseKind.QUENCH: "quenching, oil, water, brine, harden, hardening",
        PhaseKind.OVEN: "temper, tempering, kiln, bake, furnace",
        PhaseKind.DIP: "etch, etching, acid, bath, ferric chloride",
        PhaseKind.BENCH: "cold, grind, grinding, file, clean, inspect, check, straighten",
    }
)
"""What a phase is called besides."""
_KEYS: Final = _by_word(
    {
        "title": "name, heading",
        "about": "description, summary, text, notes",
        "instruction": "instructions, description, text, what, how, details, do, notes, note",
        "kind": "type, operation",
        "phases": "phase, sequence",
        "bar": "bars, stock, material, billet, piece, pieces",
        "step": "steps, operation",
        "steel": "grade, alloy, material, metal",
        "fire": "fire temperature, forge temperature, forge, furnace, fire temp, forge temp",
        "heat_to": "heat, temperature, temp, target, target temperature, work temperature, austenitize, hot",
        "at": "temperature, temp, heat, oven",
        "keep_above": "cold, cold limit, min, minimum, min temperature, stop below, stop at, lower limit, not below",
        "burn_above": "burn, burn limit, max, maximum, max temperature, upper limit, not above",
        "soak": "hold, soaking, soak time, soak for, hold time, hold for",
        "soak_at_most": "soak max, max soak, soak limit, longest soak",
        "even_within": "even, tolerance",
        "heats": "cycles, passes, repeat, repeats, times, count, dips, holds, number of heats",
        "flux_at": "flux, borax, flux temperature, flux heat",
        "section": "size, dimensions, profile, cross section, thickness, start, from, start section, diameter",
        "length": "long, start length",
        "reach": "to, end section, final section, target section, finish section, end, final size, goal",
        "reach_length": "end length, final length, target length, finish length",
        "thin": "edge, tip, thin section, point",
        "turn_every": "cadence, turn, rotate",
        "struck_by": "hammer, tool, press, strike by, struck with",
        "checklist": "check, checks, inspect, list, todo",
        "cautions": "caution, warning, warnings, danger, safety",
        "cues": "cue, hint, hints, tip, tips, reminder",
        "medium": "oil, quenchant, in, what, bath, etchant, liquid, into",
        "for": "time, seconds, minutes, duration, how long, hold, soak",
        "until": "to, below, down to, stop at, temperature",
        "within": "transfer, transfer time, at most, max, by",
    }
)
KEYS_MEANT: Final = {word: _KEYS.get(word, ()) + PHASES_MEANT.get(word, ()) for word in _KEYS | PHASES_MEANT}
"""What a key is called besides, in whichever table; only what the table at hand has is suggested."""
