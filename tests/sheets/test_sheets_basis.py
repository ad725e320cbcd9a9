"""What circuits stand on: which sources are said to rest on memory."""

from drawcord.sheets.basis import remembered
from drawcord.words.figure import Figure


def test_sources_are_told_apart_but_not_within_brackets():
    # A semicolon parts two sources; within brackets it belongs to what is said of one of them.
    source = "Table 1 (its end from memory; its start seen); Table 2; Table 3 (from memory)"
    figure = Figure("ampacity", 1.0, "A", "1 A", source)
    assert remembered([figure, figure], []) == [
        "Table 1 (its end from memory; its start seen)",
        "Table 3 (from memory)",
    ]


def test_sources_of_findings_and_rules_count_as_well():
    # What is neither figure nor finding is handed over by its source.
    assert remembered([], [], ["a law", "a rule (from memory)"]) == ["a rule (from memory)"]
