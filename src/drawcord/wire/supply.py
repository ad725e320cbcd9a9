"""What mains come from and go to, as a job names the equipment."""

SHORE, GENERATOR, INVERTER, PANEL, OUTLET = (
    "shore inlet",
    "generator",
    "inverter",
    "distribution panel",
    "socket outlet",
)
OWN_SOURCES = (GENERATOR, INVERTER)
