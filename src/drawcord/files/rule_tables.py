"""The published tables that rule sets stand on, and the rule sets."""

from math import inf

from drawcord.files.tables import rows
from drawcord.wire.europe import europe
from drawcord.wire.published import (
    Adjustment,
    Ampacity,
    ColdFactor,
    Correction,
    Distance,
    Fill,
    GroundingConductor,
    Rating,
    SmallConductor,
    Tables,
)
from drawcord.wire.rulesets import RuleSet
from drawcord.wire.us import us


def published() -> Tables:
    """Every table that the rule sets stand on."""
    return Tables(
        nec_enclosed=_ampacities("ampacity_nec_310_16.csv"),
        nec_free_air=_ampacities("ampacity_nec_310_17.csv"),
        nec_ambient=_corrections("ambient_nec_310_15_b_1.csv"),
        nec_bundle=_adjustments("bundle_nec_310_15_c_1.csv"),
        nec_small=tuple(
            SmallConductor(f"{row['size_awg']} AWG", float(row["device_a"]), row["source"])
            for row in rows("small_nec_240_4_d.csv")
        ),
        nec_ratings=_ratings("ratings_nec_240_6_a.csv"),
        nec_grounding=tuple(
            GroundingConductor(float(row["up_to_device_a"]), f"{row['size_awg']} AWG", row["source"])
            for row in rows("grounding_nec_250_122.csv")
        ),
        nec_cold=tuple(
            ColdFactor(float(row["down_to_c"]), float(row["factor"]), row["source"])
            for row in rows("cold_nec_690_7_a.csv")
        ),
        cfr_ampacity=_ampacities("ampacity_cfr_183_425.csv"),
        cfr_ambient=_corrections("ambient_cfr_183_425.csv"),
        cfr_bundle=_adjustments("bundle_cfr_183_425.csv"),
        iec_enclosed=_ampacities("ampacity_iec_60364_5_52.csv"),
        iec_free_air=_ampacities("ampacity_en_50618.csv"),
        iec_ambient=_corrections("ambient_iec_60364_5_52.csv") + _corrections("ambient_en_50618.csv"),
        iec_bundle=_adjustments("bundle_iec_60364_5_52.csv"),
        iec_ratings=_ratings("ratings_iec_60269.csv"),
        iec_mains_ratings=_ratings("ratings_iec_60898.csv"),
        us_fill=_fill("US"),
        europe_fill=_fill("Europe"),
        us_distances=_distances("US"),
        europe_distances=_distances("Europe"),
    )


def rule_sets() -> dict[str, RuleSet]:
    """The rule sets that a job may choose, by the word it chooses them with."""
    tables = published()
    return {made.name: made for made in (us(tables), europe(tables))}


def _ampacities(name: str) -> tuple[Ampacity, ...]:
    return tuple(
        Ampacity(_section(row), insulation, float(amperes), row["source"])
        for row in rows(name)
        for insulation, amperes in _columns(row, "a_at_")
    )


def _corrections(name: str) -> tuple[Correction, ...]:
    return tuple(
        Correction(insulation, float(row["up_to_c"]), float(factor), row["source"])
        for row in rows(name)
        for insulation, factor in _columns(row, "factor_at_")
    )


def _adjustments(name: str) -> tuple[Adjustment, ...]:
    """The first column says up to how many, the last row of some tables has no end."""
    return tuple(
        Adjustment(float(next(iter(row.values())) or inf), float(row["percent"]) / 100, row["source"])
        for row in rows(name)
    )


def _ratings(name: str) -> tuple[Rating, ...]:
    return tuple(
        Rating(float(row["rating_a"]), row["fuse_only"] == "yes", row["source"]) for row in rows(name)
    )


def _fill(rule_set: str) -> tuple[Fill, ...]:
    return tuple(
        Fill(float(row["cables_up_to"] or inf), float(row["percent"]) / 100, row["source"])
        for row in rows("fill.csv")
        if row["rule_set"] == rule_set
    )


def _distances(rule_set: str) -> tuple[Distance, ...]:
    return tuple(
        Distance(
            row["standard"],
            float(row["most_mm"]),
            row["sheathed"] == "yes",
            row["at_battery"] == "yes",
            row["source"],
        )
        for row in rows("distances.csv")
        if row["rule_set"] == rule_set
    )


def _section(row: dict[str, str]) -> str:
    return f"{row['size_awg']} AWG" if "size_awg" in row else f"{row['area_mm2']} mm2"


def _columns(row: dict[str, str], prefix: str) -> list[tuple[int, str]]:
    """The cells of a row by the temperature in their header, `a_at_75_c`; an empty cell is none."""
    return [
        (int(header.removeprefix(prefix).removesuffix("_c")), cell)
        for header, cell in row.items()
        if header.startswith(prefix) and cell
    ]
