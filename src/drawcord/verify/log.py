"""What other jobs found and used on this rig model, by the log beside it."""

from statistics import median

from drawcord.verify.read import Data, mm

FEWEST = 3  # jobs with measured cables, before lengths are corrected by them
PRIOR = 2  # findings that a stated chance counts for, beside those of the log


class Log:
    """The records of all jobs but one, of which nothing counts for itself."""

    def __init__(self, log: Data, job: str) -> None:
        self.others = [record for name, record in (log.get("jobs") or {}).items() if name != job]
        cables = ([*(record.get("cables") or {}).values()] for record in self.others)
        used = [[mm(one["used"], "") / mm(one["planned"], "") for one in some if one.get("used")] for some in cables]
        ratios = [median(each) for each in used if each]
        self.jobs = len(ratios)
        self.ratio = median(ratios) if self.jobs >= FEWEST else 1.0  # cable used over planned
        self.grown = max(self.ratio, 1.0)  # so many times as long as its allowances make it is a cable at the most

    def chance(self, name: str, otherwise: float) -> float | None:
        """How likely a space or passage is to be clear; None where nobody looked or all agree with what is known."""
        words = [(record.get("found") or {}).get(name) for record in self.others]
        clear, blocked = words.count("clear"), words.count("blocked")
        likely = (clear + PRIOR * otherwise) / (clear + blocked + PRIOR)
        return likely if clear + blocked and 0 < likely < 1 else None
