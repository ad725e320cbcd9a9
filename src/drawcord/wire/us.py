"""The rule set for the United States: the NEC, with boats' practice where it is stricter."""

from drawcord.wire.ampacity import Method, Sunlit
from drawcord.wire.mains import ByDevice, Mains, us_mains_rules
from drawcord.wire.published import Factor, Tables
from drawcord.wire.rules import us_rules
from drawcord.wire.rulesets import LeastSection, RuleSet, StringFusing, Touch

PRACTICE = "common practice, no source"
MARGIN = Factor(0.03, "3 % since the linear method reads low in the cold, by this program's tests with pvlib")
TOUCH = Touch(30.0, 60.0, "IEC 60364-4-41, 414.4.5 (from memory)")
# 310.15(B)(2) speaks of raceways and cables; free conductors on a sunlit roof take it here as well, beside their
# free-air table, since they lie on the same hot surface: the stricter reading.
SUNLIT = Sunlit(23.0, 33.0, "NEC 2023 310.15(B)(2): 33 K within 7/8 in (23 mm) of a sunlit roof")
BRIGHTER = Factor(1.25, "NEC 2023 690.8(A)(1)")
LONGER = Factor(1.25, "NEC 2023 690.8(B)(1) and 690.9(B)")
DROP_LIMITS = {
    "array": Factor(0.02, f"of hot Vmp at Imp: {PRACTICE}"),
    "controller to battery": Factor(0.01, f"more ends absorption early: {PRACTICE}"),
    "important load": Factor(0.03, "ABYC E-11, for boats (edition not named by the text seen)"),
    "other load": Factor(0.10, "ABYC E-11, for boats (edition not named by the text seen)"),
    "mains": Factor(
        0.03, "NEC 2023 210.19 and 215.2, informational notes; IEC 60364-5-52, annex G, lights (both from memory)"
    ),
}


def us(tables: Tables) -> RuleSet:
    """The rule set over the published tables."""
    return RuleSet(
        name="US",
        editions=(
            "NEC 2023 (NFPA 70) 690 for arrays, 310 for conductors, 240 for devices, 250 for bonding",
            "NEC 2020 551 for mains of recreational vehicles: interrupters and bonding; the rest of it from memory",
            "NEC 2008 and 2020 552, park trailers, since 551 leaves low voltage out: 18 in, chassis bond, batteries",
        ),
        added_practice=(
            "33 CFR 183 subpart I (public law), for boats: ampacity, bundles, distance from the source",
            "ABYC E-11 (edition not named by the texts seen), for boats: drop limits, distance from the source",
        ),
        not_covered=(
            "ANSI/RVIA LV: its 18 in, from memory; none of its ampacities, fuses and distances else is to hand",
            "NFPA 1192: no figure of its own is to hand; for wiring it points to the two others (from memory)",
            "mains: number and load of circuits, cords and inlets (NEC 551.42 to 551.46), energy management, reactance",
            "how fast a breaker opens on what an inverter gives",
            "what happens within inverters, generators and transfer switches",
            "batteries themselves: NEC 480 and 706, fastening",
            "what states and makers ask beyond this",
            "conductors of aluminium, and insulation above 90 °C, which counts as 90 °C",
        ),
        brighter=BRIGHTER,
        longer=LONGER,
        cold_factors=tables.nec_cold,
        cold_margin=MARGIN,
        touch=TOUCH,
        drop_limits=DROP_LIMITS,
        method=Method(
            "NEC 2023 310.15",
            tables.nec_enclosed,
            tables.nec_free_air,
            tables.nec_ambient,
            tables.nec_bundle,
            bundle_mm=609.6,  # 24 in
            together=1,
        ),
        added=(
            Method(
                "33 CFR 183.425",
                tables.cfr_ampacity,
                (),
                tables.cfr_ambient,
                tables.cfr_bundle,
                bundle_mm=0.0,
                together=1,
                note="whether it applies below 50 V is disputed (33 CFR 183.435(b)), so the stricter governs",
            ),
        ),
        sunlit=SUNLIT,
        terminal_celsius=Factor(60.0, "NEC 2023 110.14(C)(1): 60 °C where a terminal is not marked"),
        ratings=tables.nec_ratings,
        next_size_up="NEC 2023 240.4(B)",
        small=tables.nec_small,
        fusing=StringFusing(
            feedback=Factor(1.25, "NEC 2023 690.9(A) with 690.8(A)(1)"),
            least=Factor(1.5625, "1.25 · 1.25, NEC 2023 690.9(B) with 690.8(A)(1)"),
            most=None,
            strictly=False,
        ),
        fill=tables.us_fill,
        distances=tables.us_distances,
        grounding=tables.nec_grounding,
        enclosure_bond=LeastSection("8 AWG", "NEC 2020 551.20(C), voltage converters, and 551.56(C), metal parts"),
        chassis_bond=LeastSection("8 AWG", "NEC 2008 552.10(C)(4), park trailers"),
        rules=us_rules,
        mains=Mains(
            own_source=Factor(1.25, "NEC 2023 215.2(A)(1) and 215.3, loads of three hours or more (from memory)"),
            ratings=tables.nec_ratings,
            opens_neutral=None,
            at_once=None,
            protective=ByDevice(tables.nec_grounding),
            rules=us_mains_rules,
        ),
    )
