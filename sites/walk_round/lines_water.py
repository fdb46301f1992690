"""Lines of the walk up to the tap: owner, way in, meter, pressure and flow.

All ranges and needs: common practice, no source.
"""

from sites.plausible_ranges import Plausible
from sites.walk_round.line import NO, YES, Condition, Line, Place

SOURCES = (
    ("mains", "public main"), ("well", "well"), ("tank", "tank or cistern"), ("reclaimed", "reclaimed water"),
)  # fmt: skip
GATE = Plausible("narrowest way in", "length", 0.6, 4, 0.2, 30)
LAWN_SAID = Plausible("area to water", "area", 20, 3000, 1, 200_000)
REGULATOR_SET = Plausible("regulator's setting", "pressure", 150, 560, 20, 1600)
SECOND_STATIC = Plausible("static pressure", "pressure", 200, 800, 10, 1600)
DIAL = Plausible("volume in a minute", "volume", 10, 150, 0.5, 2000)
WELL_FLOW = Plausible("flow of a well", "flow", 10, 200, 0.5, 3000)
WELL_SWITCH = Plausible("switching pressure of a pump", "pressure", 140, 560, 20, 1600)
TANK = Plausible("usable volume of a tank", "volume", 500, 30_000, 50, 1_000_000)
REGULATED = Condition("regulator", (YES,), "with a regulator")
PROTECTED = Condition("backflow", (YES,), "where there is one")
FROM_WELL = Condition("water_source", ("well",), "with a well")
FROM_TANK = Condition("water_source", ("tank",), "with a tank")
FREEZING = Condition("freezes", (YES,), "where it freezes")

DESK = (
    Line(
        "who_when", Place.DESK, "Who measures, on which day and at what hour, in what weather?",
        "Pressure differs by the hour. Without the hour nobody can compare a second reading.", held="visit",
    ),
    Line(
        "decides", Place.DESK, "Who decides, do they own the place, and where does the bill go?",
        "An offer to somebody who may not order it is written for nothing.", is_told=True,
    ),
    Line(
        "wishes", Place.DESK, "What should be watered, by when, and for about how much?",
        "Without it the offer guesses: make it in three sizes.", required=False, is_told=True,
    ),
    Line(
        "area_said", Place.DESK, "How large is the area to water, in the owner's own figure?",
        "It is the cheapest check of your survey: a fifth more or less means that something was measured"
        " wrongly, or that you mean different ground.",
        kind="quantity", usual=LAWN_SAID, required=False, is_told=True, none_said="They do not know: I asked",
    ),
    Line(
        "future_works", Place.DESK, "What will be built or dug here in the next years?",
        "A deck or a pool over the main means digging it up again. Ask, even if nothing is planned.",
        none_said="Nothing planned: I asked", hint="Deck, pool, fence, drive, trees: where, and which year",
        is_told=True,
    ),
    Line(
        "water_source", Place.DESK, "Where does the water come from?",
        "Everything about pressure, flow and protection of drinking water hangs on it.",
        kind="choice", choices=SOURCES, is_told=True,
        says={"reclaimed": "Reclaimed water needs signs and pipes of its own kind; ask the authority.",
              "well": "Ask for the pump's papers; the lines on the well come at the tap."},
    ),
    Line(
        "water_rules", Place.DESK, "Which rules bind here: days and hours, permits, backflow protection?",
        "A permit found after the sale costs weeks. The water company and local code have the last word.",
        none_said="No rule known: I asked", is_told=True,
    ),
    Line(
        "gate", Place.DESK, "How wide is the narrowest place on the way in?",
        "Below 0.9 m (3 ft) no machine gets through, and digging is priced by hand.",
        kind="quantity", usual=GATE, photo="the gate with a tape across",
    ),
    Line(
        "way_in", Place.DESK, "Steps, parking, where can pipe and spoil lie?",
        "Each barrow over steps is time that nobody priced.", required=False,
    ),
)  # fmt: skip

METER = (
    Line(
        "meter", Place.METER, "Which meter is it, and what stands on it?",
        "An unknown meter counts as the smallest, which may cost a zone.",
        held="visit", photo="the meter's plate",
    ),
    Line(
        "meter_place", Place.METER, "Where is the meter, and can one get at it?",
        "The plumber needs to find it, and the main begins there.",
    ),
    Line(
        "meter_still", Place.METER, "With every tap shut, does the meter stand still?",
        "If it moves, water runs somewhere, and every reading below is wrong.",
        kind="yes_no",
        says={NO: "Water runs: a leak, or somebody uses it. Find it, then read pressure and flow again."},
    ),
    Line(
        "service_pipe", Place.METER, "Which pipe comes in: material, inside diameter, length?",
        "It limits the flow. Not known, it counts as one size smaller.",
        held="visit", photo="the service pipe", hint="Outside diameter: a string round it, divided by π",
    ),
    Line(
        "stop_valve", Place.METER, "Does the main stop valve turn, and does it close?",
        "A valve that does not close stops the plumber on the first day.", kind="yes_no",
        says={NO: "Tell the owner before the offer; a plumber has to change it."},
    ),
    Line(
        "regulator", Place.METER, "Is there a pressure regulator?",
        "What the gauge shows behind it is its setting, not the main's pressure.", kind="yes_no",
        photo="the regulator",
    ),
    Line(
        "regulator_set", Place.METER, "What is the regulator set to?",
        "Set too low, no design helps; it can often be turned up by a plumber.",
        kind="quantity", usual=REGULATOR_SET, when=REGULATED, none_said="Cannot be read",
    ),
    Line(
        "softener", Place.METER, "Is there a softener or a filter on the line?",
        "The irrigation has to join before it: it chokes the flow and softened water harms plants.",
        kind="yes_no",
    ),
    Line(
        "backflow", Place.METER, "Is there a backflow preventer already?",
        "It takes pressure, and whether it suffices is for local code and a licensed plumber.",
        kind="yes_no", photo="its plate",
    ),
    Line(
        "backflow_type", Place.METER, "Which backflow preventer: type, size, last test?",
        "Its loss belongs into the check.", when=PROTECTED, none_said="Nothing to read on it",
    ),
)  # fmt: skip

TAP = (
    Line(
        "static", Place.TAP, "What does the gauge show with every tap shut, and at which tap?",
        "Without static pressure no plan can be checked.", held="visit", photo="the gauge",
    ),
    Line(
        "bucket", Place.TAP, "Bucket filled three times: volume to the mark, and seconds?",
        "One run cannot show that the watch was right. The design flow comes from here.",
        held="visit", hint="The stopwatch is at the foot of this part.",
    ),
    Line(
        "residual", Place.TAP, "What is left on the gauge while a known flow runs?",
        "Without it working pressure is a guess, and the offer is provisional.", held="visit",
    ),
    Line(
        "dial", Place.TAP, "How much passes the meter's dial in 60 seconds, one tap open?",
        "It tells whether the bucket was read well: both agree within a tenth.",
        kind="quantity", usual=DIAL, required=False,
    ),
    Line(
        "second_static", Place.TAP, "Static at another hour, or the water company's range?",
        "The evening in July is lower than today's noon.",
        kind="quantity", usual=SECOND_STATIC, required=False,
    ),
    Line(
        "pump_on", Place.TAP, "At what pressure does the well's pump switch on?",
        "The lowest pressure that heads will see.",
        kind="quantity", usual=WELL_SWITCH, when=FROM_WELL,
    ),
    Line(
        "pump_off", Place.TAP, "At what pressure does it switch off?",
        "The highest pressure that pipes will see.",
        kind="quantity", usual=WELL_SWITCH, when=FROM_WELL,
    ),
    Line(
        "well_flow", Place.TAP, "What does the well still give after 30 minutes of pumping?",
        "A well that runs dry in the first zone waters nothing after it.",
        kind="quantity", usual=WELL_FLOW, when=FROM_WELL,
    ),
    Line(
        "well_papers", Place.TAP, "Pump's plate, depth, pressure tank, and how the level came back?",
        "A pump's curve says more than one reading.", when=FROM_WELL,
        none_said="No papers: I asked", photo="the pump's plate and the tank",
    ),
    Line(
        "tank_volume", Place.TAP, "How much can be drawn from the tank?",
        "It has to last a night, or be filled up meanwhile.",
        kind="quantity", usual=TANK, when=FROM_TANK,
    ),
    Line(
        "connection", Place.TAP, "Where will the irrigation join: inside or outside, which pipe?",
        "The plumber prices this very place.", photo="the place where it joins",
    ),
    Line(
        "connection_height", Place.TAP, "How far above or below the tap does it join?",
        "Each metre (3 ft) of height takes a tenth of a bar (1.4 psi).", held="visit",
    ),
    Line(
        "freezes", Place.TAP, "Does the ground freeze here in winter?",
        "Then pipes need a way to be emptied.", kind="yes_no", is_told=True,
    ),
    Line(
        "drain_down", Place.TAP, "Where can the pipes be drained or blown out?",
        "A pipe full of water bursts in its first winter.", when=FREEZING,
    ),
)  # fmt: skip
