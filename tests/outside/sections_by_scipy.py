"""Cross-sections in fire, air, on the anvil and between dies, solved in two dimensions by scipy.

It shares nothing with the program but the steel of EN 1993-1-2 and the flux at the skin: a Delaunay triangulation of
the whole outline with some 600 points, linear elements, the enthalpy at the points as the state, and scipy's BDF with a
sparse Jacobian. How far it has converged is measured by `python -m tests.outside.sections_by_scipy --converged`; the
table beside this file is made by `python -m tests.outside.sections_by_scipy` and takes some ten minutes.
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Iterator
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
    rise = (t - e) / 2
    radius = (w * w / 4 + rise * rise) / (2 * rise)
    half = asin(w / 2 / radius)
    arc = [
        (w / 2 + radius * sin(a), e / 2 + radius * (cos(a) - cos(half))) for a in np.linspace(-half, half, points // 2)
    ]
    return [(x, -y) for x, y in arc] + [(x, y) for x, y in reversed(arc)]


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
            count = max(2 if case.form in ("round", "lens") else 3, round(1.6 * long / space))
            if case.form in ("round", "lens"):
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


def cases(count: int, seed: int = 7) -> Iterator[Case]:
    """So many cases at random, over what a smith has in the fire."""
    random = np.random.default_rng(seed)

    def between(low: float, high: float, digits: int = 1) -> float:
        return round(float(np.exp(random.uniform(np.log(low), np.log(high)))), digits)

    forms, exposures = ["flat", "flat", "round", "wedge", "diamond", "lens"], ["fire", "air", "anvil", "anvil", "dies"]
    for k in range(count):
        form, exposure = forms[k % len(forms)], exposures[(k // len(forms)) % len(exposures)]
        thickness = between(3, 50) if form in ("flat", "round") else between(4, 14)
        width = thickness if form == "round" else round(thickness * between(1, 6, 2) * (1 if form == "flat" else 2), 1)
        width = min(width, 90.0) if form != "round" else width
        edge = between(max(0.8, 0.12 * thickness), 0.6 * thickness) if form in ("wedge", "diamond", "lens") else 0.0
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
        for case in cases(30, seed=11):
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
        for case in cases(540):
            writer.writerow([*astuple(case), *astuple(solve(case))])
            file.flush()


if __name__ == "__main__":
    main(sys.argv[1:])
