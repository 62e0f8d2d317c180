"""Sections of every form, for tests that hold of all of them."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from plans.shapes import BEVELLED, EDGED, REGULAR, Form, Section


def of(form: Form, thickness: float, wider: float, edge: float, bow: float = 0.0) -> Section:
    """A section of a form.

    Args:
        form: its form
        thickness: its thickness [m]
        wider: how many times as wide it is
        edge: thickness of its edge, as a share of the whole
        bow: 0 for bevels that are flat and as wide as they can be; else they are narrower, convex above 0 and hollow
            below, and this is the least radius over theirs
    """
    if form in REGULAR:
        return Section.regular(form, thickness)
    flat = Section(thickness * wider, thickness, form, edge * thickness if form in EDGED else None)
    if form not in BEVELLED or not bow:
        return flat
    narrow = replace(flat, bevel=0.7 * flat.room_for_bevel)
    return replace(narrow, radius=narrow.least_radius / bow)


SECTIONS = st.builds(
    of,
    st.sampled_from(Form),
    st.floats(0.002, 0.1),
    st.floats(1.0, 8.0),
    st.floats(0.1, 0.8),
    st.sampled_from((0.0, -0.8, 0.8)),
)
EVEN_SIDED = st.builds(
    of, st.sampled_from((Form.FLAT, Form.ROUND)), st.floats(0.002, 0.1), st.floats(1.0, 8.0), st.just(1.0)
)
"""Those whose meshes have right angles throughout."""
EXAMPLES = [
    Section(0.025, 0.025),
    Section(0.050, 0.006),
    Section.round(0.020),
    Section(0.040, 0.006, Form.WEDGE, 0.0015),
    Section(0.040, 0.008, Form.DIAMOND, 0.001),
    Section(0.040, 0.008, Form.LENS, 0.001),
    Section.regular(Form.OCTAGON, 0.020),
    Section.regular(Form.HEXAGON, 0.025),
    Section(0.040, 0.006, Form.WEDGE, 0.0015, 0.025, -0.150),
]
"""One of each form, a wide one, and a hollow one."""
