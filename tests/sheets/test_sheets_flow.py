from itertools import pairwise

import pytest

from drawcord.sheets.flow import Table, follow, pour
from drawcord.sheets.labels import Patch
from drawcord.sheets.listing import Listing
from drawcord.sheets.page import new_page
from drawcord.sheets.style import house_style

ROWS = [["n", "what"], *([f"row {n}", f"what it is {n}"] for n in range(40))]


def listing():
    found = Listing(60, 6.0)
    for part in range(4):
        found.head(f"Part {part}")
        found.items([(f"t{part}{n}", f"name {part}{n}") for n in range(10)])
    return found


def poured(blocks, areas, least=0):
    """What is written into areas of an empty sheet, from the top of the first, and what is left."""
    with house_style():
        figure, page = new_page(upright=True)
        left = pour(page, blocks, areas, 1, least)
    texts = sorted(page.texts, key=lambda text: (text.get_position()[0] > 100, -text.get_position()[1]))
    return [(text.get_text(), text.get_position()) for text in texts], left, (figure, page)


def test_what_fits_leaves_nothing():
    _, left, _ = poured([Table("Rows", ROWS[:4])], [Patch(10, 90, 100, 200)])
    assert left == []


@pytest.mark.parametrize("room", range(5, 90, 3))
def test_no_row_of_a_table_is_lost_or_leaves_its_area(room):
    # Whatever the room, what is drawn and what is left make up the table, in order, under its header.
    said, left, _ = poured([Table("Rows", ROWS)], [Patch(10, 90, 100, 100 + room)])
    drawn = [text for text, _ in said if text.startswith("row ")]
    rest = [row[0] for table in left for row in table.rows[1:]]
    assert drawn + rest == [row[0] for row in ROWS[1:]]
    assert all(table.rows[0] == ROWS[0] for table in left)
    assert all(100 <= y <= 100 + room for _, (_, y) in said)
    assert not drawn or any(text == "… continued on sheet 2" for text, _ in said)


@pytest.mark.parametrize("room", range(5, 60, 3))
def test_no_line_of_a_key_is_lost_and_no_heading_stands_alone(room):
    said, left, sheet = poured([listing()], [Patch(10, 70, 100, 100 + room)])
    words = [text for text, _ in said]
    if "… continued on sheet 2" in words:
        assert not words[words.index("… continued on sheet 2") - 1].startswith("Part")
    with house_style():
        sheets = follow([sheet], left, "pv: a to b", ())
    whole = " ".join(text.get_text() for figure in sheets for ax in figure.axes for text in ax.texts)
    assert all(f"name {part}{n}" in whole for part in range(4) for n in range(10))
    assert all(whole.count(f"Part {part}") == 1 for part in range(4))


def test_areas_are_filled_in_order():
    said, left, _ = poured([Table("Rows", ROWS)], [Patch(10, 90, 100, 150), Patch(110, 190, 100, 150)])
    numbers = [int(text.removeprefix("row ")) for text, _ in said if text.startswith("row ")]
    assert numbers == list(range(len(numbers)))
    assert [text for text, _ in said if text.startswith("…")] == [
        "… continued in the next column",
        "… continued on sheet 2",
    ]
    assert left[0].title == "Rows, continued"


def test_several_sheets_are_numbered_and_one_is_not():
    with house_style():
        alone = follow([new_page(upright=True)], [], "pv: a to b", ())
        several = follow([new_page(upright=True)], [Table("Rows", [ROWS[0], *ROWS[1:] * 8])], "pv: a to b", ())
    assert not any(text.get_text().startswith("sheet ") for ax in alone[0].axes for text in ax.texts)
    said = [[text.get_text() for ax in figure.axes for text in ax.texts] for figure in several]
    assert all(f"sheet {n} of {len(several)}" in texts for n, texts in enumerate(said, start=1))
    assert all(len(one) > 3 for _, one in pairwise(said))
