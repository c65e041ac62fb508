"""Where the reference values come from: every citation in one place.

`read` says how the value reached us: "read" (the data themselves), "abstract", "secondary" (quoted by
another work), "computed" (by a library or from the stated equation), or "from memory" (to be confirmed
against the work).
"""

from __future__ import annotations

from dataclasses import dataclass

STANDARD = "standard"
TEXTBOOK = "textbook"
HANDBOOK = "handbook"
LIBRARY = "reference library"
EXACT = "exact solution"
EXPERIMENT = "published experiment"
PRACTICE = "common practice"
OWN = "libcook itself"


@dataclass(frozen=True)
class Source:
    citation: str
    kind: str
    read: str

    @property
    def is_independent(self) -> bool:
        """Whether it counts as a source: common practice and libcook itself do not."""
        return self.kind not in (PRACTICE, OWN)


carslaw = Source(
    "Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959: series and error-function solutions, "
    "summed here "
    "with SciPy's roots and special functions",
    EXACT,
    "computed",
)
incropera_conduction = Source(
    "Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, ch. 5, worked examples 5.5 and 5.7",
    TEXTBOOK,
    "from memory",
)
incropera_convection = Source(
    "Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, worked examples 7.4 and 9.2, as held in the "
    "tests of a public heat-transfer library",
    TEXTBOOK,
    "secondary",
)
incropera_tables = Source(
    "Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, Table A.8 (diffusivity of water vapour in "
    "air)",
    TEXTBOOK,
    "secondary",
)
heat_library = Source(
    "Reference values in the tests of the open-source library ht (Bell, heat transfer correlations)",
    LIBRARY,
    "read",
)
cengel = Source(
    "Çengel & Ghajar, Heat and Mass Transfer, ch. 4, worked examples (brass plate, long shaft)",
    TEXTBOOK,
    "from memory",
)
nafems = Source(
    "The Standard NAFEMS Benchmarks, 1990, test T3 (1-D transient conduction)", STANDARD, "secondary"
)
nafems_t2 = Source(
    "The Standard NAFEMS Benchmarks, 1990, test T2 (1-D conduction with radiation)", STANDARD, "secondary"
)
nafems_t4 = Source(
    "The Standard NAFEMS Benchmarks, 1990, test T4 (2-D steady conduction with convection)",
    STANDARD,
    "from memory",
)
carslaw_product = Source(
    "Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, sec. 1.15: the product of two plane "
    "walls, summed here with SciPy's roots",
    EXACT,
    "computed",
)
coolprop = Source(
    "CoolProp 7.2: IAPWS-95 water, reference air, humid air by ASHRAE RP-1485", LIBRARY, "computed"
)
coolprop_food = Source(
    "CoolProp 7.2, incompressible food components, after ASHRAE Handbook - Refrigeration 2006",
    LIBRARY,
    "computed",
)
psychrolib = Source("PsychroLib 2.5: ASHRAE Handbook - Fundamentals 2017, ch. 1", LIBRARY, "computed")
ashrae_table = Source(
    "ASHRAE Handbook - Fundamentals 2017, ch. 1, Table 3 and worked example, as held in PsychroLib's tests",
    HANDBOOK,
    "secondary",
)
if97 = Source(
    "IAPWS-IF97 (revised 2007), verification values of the saturation line", STANDARD, "from memory"
)
us_atmosphere = Source(
    "U.S. Standard Atmosphere 1976, sea-level viscosity and conductivity", STANDARD, "from memory"
)
choi_okos = Source(
    "Choi & Okos 1986, component correlations, constants as printed in ASHRAE Handbook - Refrigeration and "
    "in an "
    "independent transcription (densities at 20 °C)",
    HANDBOOK,
    "secondary",
)
james = Source(
    "James & James, Meat Refrigeration, Table 13.2 (specific heat of beef, after Morley 1972)",
    HANDBOOK,
    "read",
)
ashrae_beef = Source(
    "ASHRAE Handbook - Refrigeration, conductivity of lean beef, after Lentz 1961", HANDBOOK, "from memory"
)
chen = Source(
    "Chen 1985, specific heat of foods, as in ASHRAE Handbook - Refrigeration", HANDBOOK, "from memory"
)
usda = Source(
    "USDA ARS, National Nutrient Database for Standard Reference, brisket rows raw and braised",
    HANDBOOK,
    "read",
)
fsis = Source(
    "USDA FSIS, Appendix A, minimum times at temperature for roast beef, 6.5 log10", STANDARD, "read"
)
california = Source("3 CCR 910.11 (California), minimum times at temperature, 7 log10", STANDARD, "read")
wmo = Source(
    "WMO No. 8, Guide to Instruments: coefficient of the aspirated psychrometer", STANDARD, "from memory"
)
machlik = Source(
    "Machlik & Draudt, J. Food Sci. 28 (1963) 711: shear of beef half fallen in 11 min at 58 °C",
    EXPERIMENT,
    "abstract",
)
geileskey = Source(
    "Geileskey et al., 1998: denaturation of beef myoglobin, times quoted in the text", EXPERIMENT, "abstract"
)
baik = Source(
    "Baik et al., J. Food Sci. 64 (1999) 688: heat transfer in tunnel ovens", EXPERIMENT, "abstract"
)
lovett = Source(
    "Lovett, Int. J. Refrigeration 1 (1978) 225: evaporation from fat-covered slabs", EXPERIMENT, "abstract"
)
kerth = Source(
    "Kerth, Wall & Grayson-Holter, Meat and Muscle Biology: yield of 96 smoked whole briskets",
    EXPERIMENT,
    "abstract",
)
bengtsson = Source(
    "Bengtsson, Jakobsson & Dagerskog, J. Food Sci. 41 (1976) 1047: beef roasted at 175 and 225 °C",
    EXPERIMENT,
    "abstract",
)
lowe = Source(
    "Lowe, Experimental Cookery: table of average cooking losses, and the rise of rib roasts after the oven",
    EXPERIMENT,
    "read",
)
young = Source(
    "Young, oven roasting and oven braising of top round roasts, thesis, Virginia Polytechnic Institute 1972",
    EXPERIMENT,
    "abstract",
)
bayne = Source(
    "Bayne, small and large rib and round beef roasts at two rates of heat, thesis, University of Tennessee "
    "1968",
    EXPERIMENT,
    "abstract",
)
rodas = Source(
    "Rodas-González et al., Food Sci. Nutr. 3 (2015) 475: top round roasts of 0.5 to 2.5 kg at 135 °C",
    EXPERIMENT,
    "abstract",
)
stall_pair = Source(
    "Texas A&M University, meat science extension, 'Brisket Stall Demonstrated', 7 Feb 2013",
    EXPERIMENT,
    "read",
)
own_slab = Source("libcook's own slab, with the same spacing across", OWN, "computed")
practice = Source("common practice, no source", PRACTICE, "no source")
brick = Source(
    "our own third implementation of the equations, on a brick in three dimensions with SciPy's sparse "
    "solvers (validation/brick)",
    LIBRARY,
    "computed",
)
field_cooks = Source(
    "cooks, joints and rests measured by others, from public threads, books and abstracts; each row of "
    "validation/field names its own",
    EXPERIMENT,
    "read",
)
