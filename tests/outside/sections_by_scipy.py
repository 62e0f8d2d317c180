"""Cross-sections in fire, air, on the anvil and between dies, solved in two dimensions by scipy.

It shares nothing with the program but the steel of EN 1993-1-2 and the flux at the skin: a Delaunay triangulation of
the whole outline with some 600 points, linear elements, the enthalpy at the points as the state, and scipy's BDF with a
sparse Jacobian. How far it has converged is measured by `python -m tests.outside.sections_by_scipy --converged`; the
table beside this file is made by `python -m tests.outside.sections_by_scipy` and takes some ten minutes.
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Iterator, Sequence
from dataclasses import astuple, dataclass, fields
from math import asin, cos, hypot, pi, sin
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import coo_matrix, csc_matrix, diags
from scipy.spatial import Delaunay

from plans.warmth.steel import DENSITY, enthalpy, potential

TABLE = Path(__file__).with_name("sections_by_scipy.csv")
STEFAN_BOLTZMANN = 5.670374419e-8
ZERO = 273.15
_KELVIN = np.arange(200.0, 2000.0, 0.05)
_HEAT = np.array([enthalpy(kelvin) for kelvin in _KELVIN])
_POTENTIAL = np.array([potential(kelvin) for kelvin in _KELVIN])


@dataclass(frozen=True)
class Case:
    """One bar in one exposure: millimetres, degrees Celsius, W/(m2 K)."""

    form: str
    width: float
    thickness: float
    edge: float
    """0 for a form without an edge."""
    exposure: str
    """fire, air, anvil or dies."""
    start: float
    outside: float
    """The fire, or the air."""
    until: float
    emissivity: float
    convection: float
    contact: float
    """Conductance of the faces that tools touch, averaged over the time."""
    share: float
    """Share of the time for which they touch."""
    tool: float


@dataclass(frozen=True)
class Times:
    """Seconds until a place has come to the case's temperature."""

    skin: float
    coldest: float
    face: float
    middle: float


BEVELLED = {
    # form: one edge or two, bevel as a share of what there is room for, how it bows (below 0 is hollow)
    "narrow wedge": ("wedge", 0.5, 0),
    "hollow wedge": ("wedge", 0.7, -1),
    "convex wedge": ("wedge", 1.0, 1),
    "hollow diamond": ("diamond", 0.7, -1),
}
"""Forms whose bevels are narrow, hollow or convex."""
BOW = 1.25
"""Radius of a hollow or convex bevel over the least with which it nowhere falls back."""


def bevel_of(case: Case) -> tuple[float, float]:
    """How wide a bevel is, and its radius, below 0 for a hollow one and 0 for a flat one [m]."""
    kind, share, bow = BEVELLED[case.form]
    over, rise = share * case.width / 1000 / (1 if kind == "wedge" else 2), (case.thickness - case.edge) / 2000
    return over, bow * BOW * (over**2 + rise**2) / (2 * rise)


def _over_bevel(case: Case, x: float) -> float:
    """Half of the thickness at a distance from the edge, over the bevel [m]."""
    over, radius = bevel_of(case)
    low, high = case.edge / 2000, case.thickness / 2000
    straight = low + x / over * (high - low)
    if not radius:
        return straight
    # The circle through both ends of the chord, its centre below a convex bevel and above a hollow one.
    long, size, sign = hypot(over, high - low), abs(radius), 1 if radius > 0 else -1
    off = sign * (size**2 - long**2 / 4) ** 0.5 / long
    cx, cy = over / 2 + off * (high - low), (low + high) / 2 - off * over
    return cy + sign * (size**2 - (x - cx) ** 2) ** 0.5


def outline(case: Case, points: int) -> list[tuple[float, float]]:
    """The outline as a polygon, from the lower left corner round [m]."""
    w, t, e = case.width / 1000, case.thickness / 1000, case.edge / 1000
    if case.form == "flat":
        return [(0, -t / 2), (w, -t / 2), (w, t / 2), (0, t / 2)]
    if case.form == "wedge":
        return [(0, -e / 2), (w, -t / 2), (w, t / 2), (0, e / 2)]
    if case.form == "diamond":
        return [(0, -e / 2), (w / 2, -t / 2), (w, -e / 2), (w, e / 2), (w / 2, t / 2), (0, e / 2)]
    if case.form == "round":
        return [(w / 2 + w / 2 * cos(a), w / 2 * sin(a)) for a in np.linspace(0, 2 * pi, points, endpoint=False)]
    if case.form in CORNERS:
        n = CORNERS[case.form]
        angles = [-pi / 2 - pi / n + 2 * pi / n * k for k in range(n)]
        return [(w / 2 + t / 2 / cos(pi / n) * cos(a), t / 2 / cos(pi / n) * sin(a)) for a in angles]
    if case.form in BEVELLED:
        over, radius = bevel_of(case)
        shares = np.linspace(0, 1, points // 5) if radius else np.array([0.0, 1.0])
        upper = [(float(x), _over_bevel(case, x)) for x in shares * over]
        if BEVELLED[case.form][0] == "diamond":
            upper += [(w - x, y) for x, y in reversed(upper)]
        elif over < w:
            upper.append((w, t / 2))
        return [(x, -y) for x, y in upper] + list(reversed(upper))
    rise = (t - e) / 2
    radius = (w * w / 4 + rise * rise) / (2 * rise)
    half = asin(w / 2 / radius)
    arc = [
        (w / 2 + radius * sin(a), e / 2 + radius * (cos(a) - cos(half))) for a in np.linspace(-half, half, points // 2)
    ]
    return [(x, -y) for x, y in arc] + [(x, y) for x, y in reversed(arc)]


CORNERS = {"octagon": 8, "hexagon": 6}


class Piece:
    """A triangulated outline: its mass, its stiffness, and its sides."""

    def __init__(self, case: Case, fineness: float = 1.0) -> None:
        corners = outline(case, round(72 * fineness**0.5))
        xs, ys = np.array([x for x, _ in corners]), np.array([y for _, y in corners])
        w, t = case.width / 1000, case.thickness / 1000
        area = 0.5 * abs(np.dot(xs, np.roll(ys, -1)) - np.dot(ys, np.roll(xs, -1)))
        space = (area / (500 * fineness)) ** 0.5
        boundary: list[tuple[float, float]] = []
        for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
            long = hypot(bx - ax, by - ay)
            # Closer together towards the ends of a side: corners and edges are where it is steep.
            count = max(3, round(1.6 * long / space))
            if case.form in ("round", "lens") or (case.form in BEVELLED and bevel_of(case)[1]):
                count = max(1, round(long / space))
            shares = (
                [(1 - cos(pi * k / count)) / 2 for k in range(count)]
                if count > 2
                else [k / count for k in range(count)]
            )
            boundary += [(ax + s * (bx - ax), ay + s * (by - ay)) for s in shares]
        rows = max(5, round(t / space))
        inner = []
        columns = max(5, round(w / space))
        for i in range(1, columns):
            # The same crowding, so that thin edges have points inside.
            x = w * (1 - cos(pi * i / columns)) / 2
            top = _half_thickness(case, x / w)
            here = max(3, round(rows * (2 * top / t) ** 0.5))
            inner += [(x, top * (2 * (k + 0.5 * (i % 2) * 0.5) / here - 1)) for k in range(1, here)]
        self.points = np.array(boundary + inner)
        triangles = Delaunay(self.points).simplices
        a, b, c = (self.points[triangles[:, k]] for k in range(3))
        double = np.abs((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0])
        keep = double > 1e-6 * space**2
        if case.form.startswith("hollow"):
            # Delaunay fills the hollows too.
            xs, ys = self.points[triangles].mean(axis=1).T
            keep &= np.abs(ys) < np.array([_half_thickness(case, x / w) for x in xs])
        triangles, double = triangles[keep], double[keep]
        n = len(self.points)
        volume = np.zeros(n)
        for k in range(3):
            np.add.at(volume, triangles[:, k], double / 6)
        self.mass = DENSITY * volume
        rows_, columns_, entries = [], [], []
        for k in range(3):
            i, j, at = triangles[:, k], triangles[:, (k + 1) % 3], triangles[:, (k + 2) % 3]
            one, other = self.points[i] - self.points[at], self.points[j] - self.points[at]
            value = 0.5 * (one * other).sum(axis=1) / double
            rows_ += [i, j, i, j]
            columns_ += [j, i, i, j]
            entries += [value, value, -value, -value]
        self.stiffness = coo_matrix(
            (np.concatenate(entries), (np.concatenate(rows_), np.concatenate(columns_))), shape=(n, n)
        ).tocsc()
        count = len(boundary)
        self.skin, self.below, self.above = np.zeros(n), np.zeros(n), np.zeros(n)
        for k in range(count):
            other = (k + 1) % count
            (ax, ay), (bx, by) = self.points[k], self.points[other]
            long = hypot(bx - ax, by - ay)
            middle_y = (ay + by) / 2
            if case.form == "round":
                touched = abs(middle_y) > w / 2 * sin(pi / 4)
            elif case.form in CORNERS:
                touched = abs(by - ay) < 1e-9
            else:
                touched = abs(by - ay) < abs(bx - ax) * 1.2 and abs(bx - ax) > 1e-12
            for node in (k, other):
                self.skin[node] += long / 2
                if touched:
                    (self.below if middle_y < 0 else self.above)[node] += long / 2
        self.middle = int(np.argmax(_steady(self)))
        self.volume = volume


def _half_thickness(case: Case, share: float) -> float:
    t, e = case.thickness / 2000, case.edge / 2000
    aside = abs(2 * share - 1)
    if case.form == "flat":
        return t
    if case.form == "wedge":
        return e + share * (t - e)
    if case.form == "diamond":
        return t - aside * (t - e)
    if case.form == "round":
        return t * (1 - aside**2) ** 0.5
    if case.form in CORNERS:
        # Down a side from each corner of the flat on top.
        flat = t * sin(pi / CORNERS[case.form]) / cos(pi / CORNERS[case.form])
        down = max(aside * case.width / 2000 - flat, 0.0)
        return t - down * sin(2 * pi / CORNERS[case.form]) / cos(2 * pi / CORNERS[case.form])
    if case.form in BEVELLED:
        x = share * case.width / 1000
        if BEVELLED[case.form][0] == "diamond":
            x = min(x, case.width / 1000 - x)
        return _over_bevel(case, x) if x < bevel_of(case)[0] else t
    w = case.width / 1000
    radius = (w * w / 4 + (t - e) ** 2) / (2 * (t - e))
    return t - radius + (radius**2 - (aside * w / 2) ** 2) ** 0.5


def _steady(piece: Piece) -> np.ndarray:
    """Where it is deepest: the hottest place with even heating inside and even cooling of the skin."""
    from scipy.sparse.linalg import spsolve

    weak = csc_matrix(diags(piece.skin * 5.0)) - piece.stiffness
    return spsolve(weak, piece.mass)


def solve(case: Case, fineness: float = 1.0) -> Times:
    """The times of a case.

    Raises:
        AssertionError: a place never came to its temperature.
    """
    piece = Piece(case, fineness)
    start, outside, until, tool = (value + ZERO for value in (case.start, case.outside, case.until, case.tool))
    touched = piece.below + (piece.above if case.exposure == "dies" else 0.0)
    open_to_it = piece.skin - case.share * touched
    stiffness = piece.stiffness

    def flow(_: float, heat: np.ndarray) -> np.ndarray:
        kelvin = np.interp(heat, _HEAT, _KELVIN)
        gives = case.emissivity * STEFAN_BOLTZMANN * (outside**4 - kelvin**4) + case.convection * (outside - kelvin)
        lost = open_to_it * gives + touched * case.contact * (tool - kelvin)
        return (stiffness @ np.interp(kelvin, _KELVIN, _POTENTIAL) + lost) / piece.mass

    def jacobian(_: float, heat: np.ndarray) -> csc_matrix:
        kelvin = np.interp(heat, _HEAT, _KELVIN)
        ahead = np.interp(heat + 50.0, _HEAT, _KELVIN)
        slope = (ahead - kelvin) / 50.0
        conductivity = np.interp(ahead, _KELVIN, _POTENTIAL) - np.interp(kelvin, _KELVIN, _POTENTIAL)
        by_kelvin = 4 * case.emissivity * STEFAN_BOLTZMANN * kelvin**3 + case.convection
        lost = -(open_to_it * by_kelvin + touched * case.contact) * slope
        return csc_matrix(diags(1 / piece.mass) @ (stiffness @ diags(conductivity / 50.0) + diags(lost)))

    def places(heat: np.ndarray) -> tuple[float, float, float, float]:
        kelvin = np.interp(heat, _HEAT, _KELVIN)
        below = piece.below if piece.below.any() else piece.skin
        return (
            float(piece.skin @ kelvin / piece.skin.sum()),
            float(kelvin.min()),
            float(below @ kelvin / below.sum()),
            float(kelvin[piece.middle]),
        )

    sign = 1 if case.exposure == "fire" else -1
    heat, seconds, span = np.full(len(piece.points), enthalpy(start)), 0.0, 60.0
    found: dict[int, float] = {}
    while len(found) < 4:
        steps = solve_ivp(
            flow,
            (seconds, seconds + span),
            heat,
            method="BDF",
            jac=jacobian,
            rtol=2e-4,
            atol=60.0,
            dense_output=True,
            first_step=0.005,
        )
        assert steps.success
        missing = [[sign * (until - kelvin) for kelvin in places(state)] for state in steps.y.T]
        for place in range(4):
            k = next((k for k, row in enumerate(missing) if row[place] <= 0), None)
            if place in found or k is None:
                continue
            if k == 0:
                found[place] = float(steps.t[0])
                continue
            low, high = float(steps.t[k - 1]), float(steps.t[k])
            for _ in range(30):
                at = (low + high) / 2
                low, high = (at, high) if sign * (until - places(steps.sol(at))[place]) > 0 else (low, at)
            found[place] = high
        seconds, heat, span = seconds + span, steps.y[:, -1], 2 * span
        assert seconds < 6 * 3600, f"never reached: {case}"
    return Times(*(round(found[place], 3) for place in range(4)))


FORMS = ("flat", "flat", "round", "wedge", "diamond", "lens")
"""Forms of the first cases, in turn."""
MORE_FORMS = ("octagon", "hexagon", *BEVELLED)
"""Forms of those that follow."""


def cases(count: int, seed: int = 7, forms: Sequence[str] = FORMS) -> Iterator[Case]:
    """So many cases at random, over what a smith has in the fire."""
    random = np.random.default_rng(seed)

    def between(low: float, high: float, digits: int = 1) -> float:
        return round(float(np.exp(random.uniform(np.log(low), np.log(high)))), digits)

    exposures = ["fire", "air", "anvil", "anvil", "dies"]
    for k in range(count):
        form, exposure = forms[k % len(forms)], exposures[(k // len(forms)) % len(exposures)]
        even, edged = form == "round" or form in CORNERS, form not in ("flat", "round", *CORNERS)
        thickness = between(4, 14) if edged else between(3, 50)
        width = thickness if even else round(thickness * between(1, 6, 2) * (1 if form == "flat" else 2), 1)
        width = round(2 * thickness / 3**0.5, 4) if form == "hexagon" else width if even else min(width, 90.0)
        edge = between(max(0.8, 0.12 * thickness), 0.6 * thickness) if edged else 0.0
        emissivity, convection = round(float(random.uniform(0.7, 0.94)), 2), between(8, 40)
        if exposure == "fire":
            outside = round(float(random.uniform(850, 1320)))
            start = 20.0 if random.random() < 0.6 else round(float(random.uniform(500, 700)))
            until = outside - round(float(random.uniform(30, 90)))
            yield Case(form, width, thickness, edge, exposure, start, outside, until, emissivity, convection, 0, 0, 20)
            continue
        start = round(float(random.uniform(1020, 1300)))
        # Down to 900 degC: below it the steel of the standard is one that is heated, and not one that cools.
        until = max(start - round(float(random.uniform(100, 350))), 900)
        contact = share = 0.0
        tool = 80.0
        if exposure == "anvil":
            contact, share = between(50, 600, 0), round(float(random.uniform(0.05, 0.4)), 2)
        if exposure == "dies":
            contact, share, tool = between(200, 2500, 0), round(float(random.uniform(0.05, 0.5)), 2), 150.0
        yield Case(
            form, width, thickness, edge, exposure, start, 20.0, until, emissivity, convection, contact, share, tool
        )


def read() -> list[tuple[Case, Times]]:
    """The table: every case with its times."""
    with TABLE.open(encoding="utf-8") as file:
        rows = list(csv.reader(line for line in file if not line.startswith("#")))[1:]
    count = len(fields(Case))
    return [
        (Case(row[0], *_three(row[1:4]), row[4], *map(float, row[5:count])), Times(*map(float, row[count:])))
        for row in rows
    ]


def _three(cells: list[str]) -> tuple[float, float, float]:
    width, thickness, edge = map(float, cells)
    return width, thickness, edge


def main(words: list[str]) -> None:
    """Make the table, or measure how far it has converged."""
    if "--converged" in words:
        for case in (*cases(30, 11), *cases(30, 12, MORE_FORMS)):
            coarse, fine = solve(case), solve(case, 4.0)
            print(
                case.form,
                case.exposure,
                *(f"{100 * (a / b - 1):+.2f} %" for a, b in zip(astuple(coarse), astuple(fine), strict=True)),
                flush=True,
            )
        return
    with TABLE.open("w", encoding="utf-8", newline="") as file:
        file.write(
            "# Made by sections_by_scipy.py: mm, degC, W/(m2 K); seconds until each place has come to `until`.\n"
        )
        names = [one.name for one in fields(Case)] + [f"seconds_{one.name}" for one in fields(Times)]
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(names)
        for case in (*cases(540), *cases(60, 8, MORE_FORMS)):
            writer.writerow([*astuple(case), *astuple(solve(case))])
            file.flush()


if __name__ == "__main__":
    main(sys.argv[1:])
