"""The rule set for Europe, as far as figures are to hand."""

from math import inf

from drawcord.wire.ampacity import Method, Sunlit
from drawcord.wire.mains import Mains, iec_mains_rules, iec_protective
from drawcord.wire.published import Factor, GroundingConductor, Tables
from drawcord.wire.rules import europe_rules
from drawcord.wire.rulesets import LeastSection, RuleSet, StringFusing
from drawcord.wire.us import BRIGHTER, DROP_LIMITS, LONGER, MARGIN, SUNLIT, TOUCH

BOND = "IEC 60364-7-712:2017, bonding conductors of arrays: 6 mm² of copper"


def europe(tables: Tables) -> RuleSet:
    """The rule set over the published tables; what it takes over from the US set says so in its source."""
    return RuleSet(
        name="Europe",
        editions=(
            "IEC 62548:2016 for arrays and string fuses",
            "IEC 60364-7-712:2017 for bonding",
            "EN 50618:2014 for its cable in free air, the column for 60 °C (from memory)",
            "IEC 60364-5-52:2009 for every other conductor, method B1 (from memory)",
            "IEC 60364-7-721:2017 for mains of caravans: its main switch; 30 mA by way of BS 7671",
            "IEC 60364-5-54 for protective conductors, IEC 60898-1 for ratings of mains devices",
        ),
        added_practice=(
            "NEC 2023 690.8 and 310.15(B)(2), taken over: continuous current, sunlit roof",
            "NEC 2023 table 690.7(A), taken over: cold Voc without the maker's coefficient",
            "ISO 10133:2012 and ABYC E-11, for boats: distance from the source, drop limits",
        ),
        not_covered=(
            "EN 1648-1:2018 and EN 1648-2:2018, 12 V in caravans: only their scopes were seen, no figure of theirs",
            "IEC 62548-1:2023, which took the place of IEC 62548:2016 (from memory)",
            "EN 50618's columns for cables that touch a surface, and its own factors for hotter air",
            "mains: inlets and cords, cables past gas cylinders, disconnection times and loop impedance, reactance",
            "what happens within inverters, generators and transfer switches",
            "batteries themselves: ventilation, fastening",
            "what countries and makers ask beyond this",
        ),
        brighter=Factor(1.25, f"IEC 62548:2016 (from memory), as {BRIGHTER.source}"),
        longer=Factor(LONGER.value, f"taken over from {LONGER.source}; IEC 62548 does not ask for it"),
        cold_factors=tables.nec_cold,
        cold_margin=MARGIN,
        touch=TOUCH,
        drop_limits={
            **DROP_LIMITS,
            "important load": Factor(0.03, "ISO 10133:2012, for boats: circuits vital to safety"),
            "other load": Factor(0.10, "ISO 10133:2012, for boats (from memory)"),
        },
        method=Method(
            "IEC 60364-5-52 and EN 50618",
            tables.iec_enclosed,
            tables.iec_free_air,
            tables.iec_ambient,
            tables.iec_bundle,
            bundle_mm=0.0,
            together=2,
        ),
        added=(),
        sunlit=Sunlit(SUNLIT.gap_mm, SUNLIT.kelvin, f"taken over from {SUNLIT.source}"),
        terminal_celsius=Factor(70.0, "IEC 60947-1, terminals tested with conductors at 70 °C (from memory)"),
        ratings=tables.iec_ratings,
        next_size_up=None,
        small=(),
        fusing=StringFusing(
            feedback=Factor(1.0, "IEC 62548:2016, (Ns - 1) · Isc"),
            least=Factor(1.5, "IEC 62548:2016, 1.5 · Isc < In < 2.4 · Isc"),
            most=Factor(2.4, "IEC 62548:2016, 1.5 · Isc < In < 2.4 · Isc"),
            strictly=True,
        ),
        fill=tables.europe_fill,
        distances=tables.europe_distances,
        grounding=(GroundingConductor(inf, "6 mm2", BOND),),
        enclosure_bond=LeastSection("6 mm2", BOND),
        chassis_bond=LeastSection("6 mm2", BOND),
        rules=europe_rules,
        mains=Mains(
            own_source=Factor(1.0, "IEC 60364-4-43, 433.1: design current, rated current, ampacity (from memory)"),
            ratings=tables.iec_mains_ratings,
            opens_neutral="IEC 60364-7-721 (double-pole devices seen in a text on BS 7671, of an earlier edition)",
            at_once=Factor(5.0, "IEC 60898-1, type B: between 3 and 5 times its rating"),
            protective=iec_protective,
            rules=iec_mains_rules,
        ),
    )
