"""The published tables that come with the package: how to read one, and the conductors."""

import csv
from pathlib import Path

from drawcord.wire.conductor import Conductor, Metal, awg_area_mm2, awg_number

TABLES = Path(__file__).parents[1] / "tables"
KM_PER_KFT = 0.3048  # exact, by the definition of the foot
METALS: tuple[Metal, ...] = ("plain", "tinned")


def conductors() -> tuple[Conductor, ...]:
    """Every conductor of the resistance tables, plain and tinned; SOURCES.md beside them says whose word."""
    return (*_awg(), *_mm2())


def _awg() -> tuple[Conductor, ...]:
    return tuple(
        Conductor(
            f"{row['size_awg']} AWG",
            awg_area_mm2(awg_number(row["size_awg"])),
            float(row[f"{metal}_ohm_per_kft_at_75_c"]) / KM_PER_KFT,
            75.0,
            metal,
            "AWG",
            row["source"],
        )
        for row in rows("resistance_awg.csv")
        for metal in METALS
    )


def _mm2() -> tuple[Conductor, ...]:
    return tuple(
        Conductor(
            f"{row['area_mm2']} mm2",
            float(row["area_mm2"]),
            float(row[f"{metal}_ohm_per_km_at_20_c"]),
            20.0,
            metal,
            "mm2",
            row["source"],
        )
        for row in rows("resistance_mm2.csv")
        for metal in METALS
    )


def rows(name: str) -> list[dict[str, str]]:
    """The rows of a table, by its header."""
    text = (TABLES / name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))
