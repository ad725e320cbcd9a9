"""The small choice that stands for the efficient set."""

from random_nets import seeded

from drawcord.routes.cover import cover


def test_the_best_in_each_criterion_comes_first_then_the_worst_covered():
    # Two ends of a front, then its knee, which both ends miss by most; then what is left.
    front = [(0, 100), (10, 60), (30, 30), (60, 10), (100, 0)]
    assert cover(front, 3) == [0, 4, 2]
    assert cover(front, 5) == [0, 4, 2, 1, 3]
    assert cover(front, 1) == [0]


def test_of_several_best_in_one_criterion_the_smallest_vector_is_taken():
    assert cover([(5, 1, 9), (5, 1, 2), (7, 0, 0)], 3) == [1, 2]


def test_criteria_count_by_their_range():
    # In metres the third is far from the first; as a share of the range it is the second that is missed.
    front = [(0, 1000, 0), (500, 0, 0), (400, 600, 1), (0, 1000, 1)]
    assert cover(front, 3) == [0, 1, 2]


def test_what_a_chosen_one_nowhere_exceeds_needs_no_cover():
    assert cover([(1, 1), (1, 1), (2, 3)], 3) == [0]
    assert cover([(4, 4)], 7) == [0]
    assert cover([], 7) == []


def test_each_choice_is_the_worst_covered_at_its_turn():
    # The rule in one line, on random fronts.
    rng = seeded(2)
    for _ in range(200):
        front = sorted({tuple(rng.randint(0, 20) for _ in range(3)) for _ in range(12)})
        ranges = [max(column) - min(column) or 1 for column in zip(*front, strict=True)]
        chosen = cover(front, 6)
        assert len(set(chosen)) == len(chosen) <= 6

        def gap(i, by, front=front, ranges=ranges):
            return min(max((a - b) / r for a, b, r in zip(front[c], front[i], ranges, strict=True)) for c in by)

        for turn in range(3, len(chosen)):
            gaps = [gap(i, chosen[:turn]) for i in range(len(front))]
            assert chosen[turn] == gaps.index(max(gaps))
