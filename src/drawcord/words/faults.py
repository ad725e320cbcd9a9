"""What can go wrong, each with the exit status it ends in."""

from dataclasses import dataclass

Path = tuple[str | int, ...]


@dataclass(frozen=True)
class Problem:
    """One thing wrong with an input: where in the document, and a sentence that says what would be right.

    `path` leads to the value through the keys as written in the file, such as ("spaces", "linen", "curb").
    `file`, `line` and `column` (both from 1) are filled in by the code that read the file.
    `on_key` asks for the position of the last key itself instead of its value's (an unknown key).
    """

    path: Path
    sentence: str
    file: str = ""
    line: int = 0
    column: int = 0
    on_key: bool = False

    def __str__(self) -> str:
        where = ":".join(str(part) for part in (self.file, self.line, self.column) if part)
        return f"{where}: {self.sentence}" if where else self.sentence


class Fault(Exception):
    """Base of everything drawcord raises on purpose; `status` is the process's exit status."""

    status = 70


class BadInput(Fault):
    """The input cannot be used; carries every problem of the stage at once."""

    status = 2

    def __init__(self, problems: "list[Problem] | tuple[Problem, ...]") -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = tuple(problems)


class Surroundings(Fault):
    """The machine does not play along: a folder that cannot be written, a library that is missing."""

    status = 3
