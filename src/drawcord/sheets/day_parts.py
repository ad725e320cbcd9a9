"""What a sheet for the day is made of, as plain data: sections of a few kinds of block. Nothing here knows paper."""

from dataclasses import dataclass

from drawcord.sheets.tables import Rows


@dataclass(frozen=True)
class Words:
    """Paragraphs; `strong` where they must not be missed."""

    lines: tuple[str, ...]
    strong: bool = False


@dataclass(frozen=True)
class Steps:
    """Sentences in order, numbered, or each with a box to tick."""

    title: str
    lines: tuple[str, ...]
    tick: bool = False


@dataclass(frozen=True)
class Grid:
    """Rows under a header under a title; an empty cell is one to write in."""

    title: str
    rows: Rows


@dataclass(frozen=True)
class Picture:
    """A drawing as SVG, and its size on paper [mm]; where it `floats`, what follows may go on before it."""

    caption: str
    svg: bytes
    size: tuple[float, float]
    floats: bool = False


@dataclass(frozen=True)
class Beside:
    """A picture with steps beside it where the paper is wide enough, else under it."""

    picture: Picture
    steps: Steps


@dataclass(frozen=True)
class Blanks:
    """What is to be written down: each a name with a line behind it."""

    title: str
    names: tuple[str, ...]


@dataclass(frozen=True)
class Labels:
    """Texts to print and cut out, each of a few lines."""

    texts: tuple[tuple[str, ...], ...]


Block = Words | Steps | Grid | Picture | Beside | Blanks | Labels


@dataclass(frozen=True)
class Section:
    """Blocks under a heading; `fresh` starts a page of its own, `whole` keeps to one page if it fits there."""

    title: str
    blocks: tuple[Block, ...]
    fresh: bool = False
    whole: bool = False


@dataclass(frozen=True)
class Day:
    """The sheet of one job; what lies under `lines` stands under its title, `foot` on each page."""

    title: str
    lines: tuple[str, ...]
    foot: str
    sections: tuple[Section, ...]
