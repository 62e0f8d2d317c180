"""Sections of every form, for tests that hold of all of them."""

from __future__ import annotations

from hypothesis import strategies as st

from plans.shapes import EDGED, Form, Section


def of(form: Form, thickness: float, wider: float, edge: float) -> Section:
    """A section by its thickness [m], how many times as wide it is, and its edge as a share of the thickness."""
    if form is Form.ROUND:
        return Section.round(thickness)
    return Section(thickness * wider, thickness, form, edge * thickness if form in EDGED else None)


SECTIONS = st.builds(of, st.sampled_from(Form), st.floats(0.002, 0.1), st.floats(1.0, 8.0), st.floats(0.1, 0.8))
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
]
"""One of each form, and a wide one."""
