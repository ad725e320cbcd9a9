"""HiGHS without its banner: one thread and a fixed seed, so that the same program gives the same answer."""

import highspy

OPTIONS: dict[str, bool | float | str] = {
    "output_flag": False,
    "threads": 1,
    "parallel": "off",
    "random_seed": 0,
    "mip_rel_gap": 0.0,
}


class Quiet(highspy.Highs):
    """A solver that says nothing."""

    def __init__(self) -> None:
        """With the options above."""
        super().__init__()  # type: ignore[no-untyped-call]
        for option, value in OPTIONS.items():
            self.setOptionValue(option, value)

    def enableCallbacks(self) -> None:  # noqa: N802 - the library's name
        """None are needed, and making them ready prints the banner."""
