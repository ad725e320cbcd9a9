"""The name that was probably meant, or none."""

import pytest

from drawcord.words.nearest import nearest


@pytest.mark.parametrize(
    ("name", "known", "hint"),
    [
        ("linnen", ["galley", "linen"], " (did you mean `linen`?)"),
        ("bay_c3", ["bay_c1", "bay_s3"], " (did you mean `bay_s3`?)"),
        ("attic", ["galley", "linen"], ""),
        ("linen", [], ""),
        ("", ["linen"], ""),
    ],
)
def test_the_nearest_name_is_asked_for_if_any_is_near(name, known, hint):
    assert nearest(name, known) == hint


def test_the_order_of_the_known_names_does_not_matter():
    # All three are one letter away.
    known = ["bay_a", "bay_b", "bay_c"]
    assert len({nearest("bay_x", order) for order in (known, known[::-1], set(known))}) == 1
