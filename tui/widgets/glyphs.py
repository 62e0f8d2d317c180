"""The big letters: masks of five by seven, drawn for being read from across a smithy.

A mask says where ink is. Each of its rows and columns is either a *stroke* (it carries a bar of the letter and keeps
the pen's width) or *fill* (it takes what room is left), so that one mask serves every size.
"""

from __future__ import annotations

from plans.record import record

ROWS = 7


@record
class Glyph:
    """The mask of one big letter."""

    rows: tuple[str, ...]
    """Seven rows of `#` and `.`, all of the same length."""
    columns: str
    """One character a column: `s` for a stroke, `.` for fill."""

    @property
    def bars(self) -> str:
        """One character a row: `s` for a row with a bar of three, or a dot, in it; `d` for one that says the same as
        its neighbour nearer the middle and can be dropped first; `.` for the rest."""
        middle = ROWS // 2
        kinds = ""
        for index, row in enumerate(self.rows):
            inner = self.rows[index + 1 if index < middle else index - 1]
            if "###" in row or row == "#":
                kinds += "s"
            else:
                kinds += "d" if index != middle and row == inner else "."
        return kinds


_MASKS = {
    "0": "s...s .###. #...# #...# #...# #...# #...# .###.",
    "1": "..s.. ..#.. .##.. ..#.. ..#.. ..#.. ..#.. .###.",
    "2": "s...s .###. #...# ....# ..##. .#... #.... #####",
    "3": "s...s ####. ....# ....# .###. ....# ....# ####.",
    "4": "s..s. #..#. #..#. #..#. #..#. ##### ...#. ...#.",
    "5": "s...s ##### #.... ####. ....# ....# ....# ####.",
    "6": "s...s .###. #.... #.... ####. #...# #...# .###.",
    "7": "..s.s ##### ....# ...#. ...#. ..#.. ..#.. ..#..",
    "8": "s...s .###. #...# #...# .###. #...# #...# .###.",
    "9": "s...s .###. #...# #...# .#### ....# ....# .###.",
    "A": "s...s .###. #...# #...# ##### #...# #...# #...#",
    "B": "s...s ####. #...# #...# ####. #...# #...# ####.",
    "C": "s...s .###. #...# #.... #.... #.... #...# .###.",
    "D": "s...s ####. #...# #...# #...# #...# #...# ####.",
    "E": "s... #### #... #... ###. #... #... ####",
    "F": "s... #### #... #... ###. #... #... #...",
    "G": "s...s .###. #...# #.... #.### #...# #...# .###.",
    "H": "s...s #...# #...# #...# ##### #...# #...# #...#",
    "I": "s # # # # # # #",
    "J": "s..s ...# ...# ...# ...# #..# #..# .##.",
    "K": "s...s #...# #...# #..#. ###.. #..#. #...# #...#",
    "L": "s... #... #... #... #... #... #... ####",
    "M": "sssss #...# ##.## ##.## #.#.# #.#.# #...# #...#",
    "N": "s...s #...# ##..# ##..# #.#.# #..## #..## #...#",
    "O": "s...s .###. #...# #...# #...# #...# #...# .###.",
    "P": "s...s ####. #...# #...# ####. #.... #.... #....",
    "Q": "s...s .###. #...# #...# #...# #.#.# #..#. .##.#",
    "R": "s...s ####. #...# #...# ####. #..#. #...# #...#",
    "S": "s...s .#### #.... #.... .###. ....# ....# ####.",
    "T": "..s.. ##### ..#.. ..#.. ..#.. ..#.. ..#.. ..#..",
    "U": "s...s #...# #...# #...# #...# #...# #...# .###.",
    "V": "sssss #...# #...# #...# #...# .#.#. .#.#. ..#..",
    "W": "sssss #...# #...# #.#.# #.#.# ##.## ##.## #...#",
    "X": "sssss #...# #...# .#.#. ..#.. .#.#. #...# #...#",
    "Y": "sssss #...# #...# .#.#. ..#.. ..#.. ..#.. ..#..",
    "Z": "..... ##### ....# ...#. ..#.. .#... #.... #####",
    ":": "s . . # . # . .",
    ".": "s . . . . . . #",
    ",": ".s .. .. .. .. .. .# #.",
    "-": "... ... ... ... ### ... ... ...",
    "+": ".s. ... ... .#. ### .#. ... ...",
    "/": "... ..# ..# .#. .#. .#. #.. #..",
    "'": "s # # . . . . .",
    "!": "s # # # # # . #",
    "?": "s...s .###. #...# ....# ..##. ..... ..#.. ..#..",
    "°": "s.s ### #.# ### ... ... ... ...",
    " ": "... ... ... ... ... ... ... ...",
}


def _read(mask: str) -> Glyph:
    columns, *rows = mask.split()
    return Glyph(tuple(rows), columns)


GLYPHS: dict[str, Glyph] = {letter: _read(mask) for letter, mask in _MASKS.items()}


def glyph(character: str) -> Glyph:
    """The glyph of a character; small letters are drawn as capitals, and what has no mask as a question mark."""
    return GLYPHS.get(character) or GLYPHS.get(character.upper()) or GLYPHS["?"]
