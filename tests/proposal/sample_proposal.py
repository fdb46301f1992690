# ruff: noqa: E501
"""An invented proposal for the invented garden of the drawing tests."""

from dataclasses import replace

from quoting.proposal import (
    AreaLine,
    Company,
    Condition,
    Figure,
    OptionLine,
    PriceLine,
    ProposalData,
    Stage,
)
from tests.design_drawing.garden_plan import PARTS, garden_plan, garden_report

COMPANY = Company(
    name="Alderbrook Garden Water",
    address=("4 Kiln Lane", "Wendmoor 2217"),
    phone="0555 010 199",
    email="office@alderbrook.example",
    licence="Contractor licence W-20417",
    insurance="Public liability insured to 2 000 000",
)

SAMPLE = ProposalData(
    company=COMPANY,
    quote_number="Q-2031-0042",
    revision=2,
    issued_on="3 March 2031",
    valid_until="2 April 2031",
    customer_name="Maren Oduya",
    customer_address=("18 Fern Rise", "Wendmoor 2219"),
    site_name="House and gardens",
    site_address=("18 Fern Rise", "Wendmoor 2219"),
    promise="Three lawns and a herb bed watered evenly before breakfast, without a hose on the grass.",
    total="$6,350.40",
    total_note="tax included",
    subtotal="$5,880.00",
    scope=(
        "We lay buried pipe to both lawns and the herb bed, set nine pop-up heads level with the grass, and "
        "connect everything to a controller beside your back door that waters each part in turn.",
        "The pipe passes under your garden path without lifting it. The turf strip over each trench is taken off, "
        "kept, and put back the same day.",
    ),
    figures=(
        Figure("370 m²", "watered"),
        Figure("9", "heads"),
        Figure("3", "zones"),
        Figure("2", "valves, and one head with its own"),
    ),
    water_available="30 L/min",
    water_used="24 L/min",
    water_note="Measured at your garden tap on 24 February 2031. The design relies on these readings.",
    areas=(
        AreaLine("West lawn", "162 m²", "gear rotors"),
        AreaLine("East lawn", "181 m²", "one sweeping head"),
        AreaLine("Herb bed", "27 m²", "drip line"),
    ),
    not_watered=("The strip behind the greenhouse to come.",),
    sections=(
        PriceLine("Trenches, crossing and turf", "$2,410.00", "Machine and hand digging, one crossing under the path, turf put back."),
        PriceLine("Pipe, heads and drip line", "$1,905.00", "All heads, valves, pipe and fittings, laid, tested and set."),
        PriceLine("Controller and cable", "$697.50"),
        PriceLine("Licensed plumber", "$747.50", "Connection and backflow protection, tested."),
        PriceLine("Permit", "$120.00"),
    ),
    taxes=(PriceLine("Sales tax 8 %", "$470.40"),),
    options=(
        OptionLine("Rain sensor", "+ $185.00", "Skips watering after rain.", suggested=True),
        OptionLine("Without the herb bed", "− $640.00"),
    ),
    stages=(
        Stage("Deposit, 30 %", "on acceptance, before anything is ordered", "$1,905.12"),
        Stage("Main tested, 40 %", "when the main pipe has held its pressure test", "$2,540.16"),
        Stage("Handed over, 30 %", "when every zone runs and you have been shown how", "$1,905.12"),
    ),
    not_included=(
        "Digging in rock, and unmarked private lines.",
        "New turf beyond the trench strip.",
        "Winter draining in later years.",
    ),
    assumptions=(
        "The supply keeps the pressure that we measured.",
        "The gate beside the pond stays at least 0.9 m wide.",
    ),
    conditions=(
        Condition("Start of work", "Within three weeks of the deposit, once buried services have been located."),
        Condition("Lawn and paving", "We leave lawns rolled and paving swept, as they were before."),
        Condition("Warranty", "Two years on our work; makers' warranties on parts."),
        Condition("Right to cancel", "You may cancel within the time that the law of your place gives."),
    ),
    accept_link="https://quotes.alderbrook.example/p/7hQ2xk",
    plan=garden_plan(),
    report=garden_report(),
    parts=PARTS,
)  # fmt: skip


def sample(**changes) -> ProposalData:
    return replace(SAMPLE, **changes)
