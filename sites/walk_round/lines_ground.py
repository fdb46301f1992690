"""Lines of the walk from the house to the gate: outlines, planting, soil, what is buried, leaving.

All ranges and needs: common practice, no source.
"""

from sites.plausible_ranges import Plausible
from sites.walk_round.line import NO, YES, Condition, Line, Place

SUN = (
    ("sun", "sun nearly all day"), ("half", "about half the day"), ("shade", "mostly shade"),
    ("differs", "differs from part to part"),
)  # fmt: skip
SOILS = (
    ("sand", "sand: falls apart, gritty"), ("sandy_loam", "sandy loam: holds a little"),
    ("loam", "loam: a ball that crumbles"), ("clay_loam", "clay loam: a short ribbon"),
    ("clay", "clay: a long ribbon, shiny"), ("fill", "rubble or fill"),
)  # fmt: skip
OUTLET = Plausible("way from an outlet to the controller", "length", 0, 30, 0, 1000)
PAVING = Plausible("thickness of paving", "depth", 40, 250, 5, 1000)
TRUNK = Plausible("thickness of a trunk", "depth", 50, 1500, 10, 6000)
# a ring filled 25 mm deep, on soils that take 5 to 200 mm/h
SOAKS = Plausible("time for 25 mm (1 in) to soak away", "time", 450, 18_000, 10, 172_800)
PROBE = Plausible("depth that a probe reached", "depth", 150, 900, 0, 3000)
CROSSING = Condition("paving", (), "with paving to cross")
TREES = Condition("trees", (), "with trees")
PART_SUN = Condition("sun", ("differs",), "if it differs")
OLD_SYSTEM = Condition("old_system", (YES,), "where there is one")

HOUSE = (
    Line(
        "outlet", Place.HOUSE, "How far is an earthed outlet from where the controller will hang?",
        "No outlet means an electrician, and that is a line in the offer.",
        kind="quantity", usual=OUTLET, none_said="No outlet in reach", photo="the wall and the outlet",
    ),
    Line(
        "controller_wall", Place.HOUSE, "Which wall, inside or outside, and is there a signal?",
        "A controller out of reach of the network is set by hand for ever.", required=False,
    ),
    Line(
        "fixed_corners", Place.HOUSE, "Two corners of walls to measure from, and the way between them?",
        "Without two fixed corners nothing can be set out later.",
        held="ground", photo="both corners, from where you stand with the tape",
    ),
    Line(
        "house_outline", Place.HOUSE, "Every wall of the house, by tape?",
        "Heads are set from these walls, and water must stay off them.", held="ground",
    ),
    Line(
        "openings", Place.HOUSE, "Low windows, doors, outside taps, air inlets?",
        "Spray on a window or into a cellar is the first complaint.", required=False,
        none_said="None: I looked",
    ),
)  # fmt: skip

BOUNDARY = (
    Line(
        "boundary", Place.BOUNDARY, "Each point of the boundary, tied to the two corners?",
        "Sides alone do not fix a shape: with four of them the area can be off by a tenth and more.",
        held="ground",
    ),
    Line(
        "diagonals", Place.BOUNDARY, "At least one diagonal to every four points?",
        "It is what shows that a reading is wrong while you can still repeat it.", held="ground",
    ),
    Line(
        "wheel", Place.BOUNDARY, "What does the wheel show over a taped 10 m (30 ft)?",
        "A wheel is off by up to 2 %, on every side in the same sense.", held="ground",
    ),
    Line(
        "neighbours", Place.BOUNDARY, "Which sides are a neighbour's or the road's? Fences, rights?",
        "Water on the road or next door is not allowed, and pipes need leave to cross.",
        photo="each side, along the fence",
    ),
)  # fmt: skip

LAWN = (
    Line(
        "areas", Place.LAWN, "Outlines of lawns and beds?",
        "What has no outline gets no head.", held="ground",
    ),
    Line(
        "planting", Place.LAWN, "What grows in the way of the water, and how high?",
        "A hedge of chest height stops a spray, and shrubs grow.", required=False, none_said="Nothing",
    ),
    Line(
        "paving", Place.LAWN, "Which paving lies between water and lawn: how laid, any sleeve below?",
        "A crossing that nobody saw is bored, and boring is dear.",
        none_said="Nothing to cross: I looked", photo="each place to cross",
    ),
    Line(
        "paving_thickness", Place.LAWN, "How thick is it?",
        "Not known, it counts as 100 mm (4 in) of concrete.",
        kind="quantity", usual=PAVING, when=CROSSING, required=False,
    ),
    Line(
        "trees", Place.LAWN, "Which trees stand near, and where do their roots run?",
        "Within a dozen trunk widths one digs by hand, and close by not at all.",
        none_said="No trees: I looked", photo="roots at the surface",
    ),
    Line(
        "thickest_trunk", Place.LAWN, "How thick is the thickest trunk, at chest height?",
        "It says how far its roots are kept from the trench.",
        kind="quantity", usual=TRUNK, when=TREES, hint="A string round it, divided by π",
    ),
    Line(
        "heights", Place.LAWN, "Highest and lowest ground to be watered, from the tap?",
        "Height takes pressure, and low heads drip when the valve is shut.", held="visit",
    ),
    Line(
        "sun", Place.LAWN, "How much sun does the ground get in summer?",
        "Sun and shade on one valve is too much for one and too little for the other.",
        kind="choice", choices=SUN,
    ),
    Line(
        "sun_parts", Place.LAWN, "Which part has sun, which shade?",
        "They become zones of their own.", when=PART_SUN,
    ),
    Line(
        "windy", Place.LAWN, "Is the place open to the wind?",
        "Wind carries spray away: heads stand closer.", kind="yes_no",
    ),
    Line(
        "old_system", Place.LAWN, "Is there an irrigation already that is to stay?",
        "What is kept has to be tested, or the fault is yours.", kind="yes_no",
    ),
    Line(
        "old_system_parts", Place.LAWN, "What of it stays: heads, valves, pipe, cables tested?",
        "Untested, everything is replaced in the offer.", when=OLD_SYSTEM,
        hint="A valve's coil usually reads 20 to 60 ohm.",
    ),
    Line(
        "avoid", Place.LAWN, "Where must no water, trench or box be: dog, play, vehicles?",
        "A box under a wheel breaks.", required=False, none_said="Nowhere: I asked",
    ),
)  # fmt: skip

GROUND = (
    Line(
        "soil", Place.GROUND, "What soil is it, rubbed wet between the fingers?",
        "It says how fast water may fall. Not known, it counts as clay, with longer waterings.",
        kind="choice", choices=SOILS,
        says={"fill": "Rubble makes trenches slow: probe more often and say so in the offer."},
    ),
    Line(
        "soaks", Place.GROUND, "How long do 25 mm (1 in) in an open can take to soak away?",
        "It decides whether a zone needs to rest between two waterings.",
        kind="quantity", usual=SOAKS, unit="min", required=False,
    ),
    Line(
        "probe", Place.GROUND, "How deep did the probe go at the worst of three places or more?",
        "Rock that nobody felt doubles the digging.", kind="quantity", usual=PROBE,
        hint="Probe only where no cable or pipe can be. Stop at the first resistance.",
    ),
    Line(
        "utilities_seen", Place.GROUND, "Which posts, covers, boxes and meters of utilities do you see?",
        "They tell the locate service where to look. No trench without its answer.",
        none_said="None to be seen", photo="each of them",
    ),
    Line(
        "private_buried", Place.GROUND,
        "What has the owner buried: drains, septic, lights, gas to a grill, dog fence?",
        "No locate service knows these. Where depth is not known, a trial hole is dug by hand.",
        none_said="Nothing known: I asked", is_told=True,
    ),
)  # fmt: skip

LEAVING = (
    Line(
        "work_hours", Place.LEAVING, "When may the crew work, and where are water and a toilet?",
        "It is in nobody's offer, and costs an hour a day.", required=False, is_told=True,
    ),
    Line(
        "photo_leave", Place.LEAVING, "May the photos be kept with the job?",
        "Pictures of a home need the owner's leave.", kind="yes_no", is_told=True,
        says={NO: "Then take out what you photographed, on the page of photos."},
    ),
    Line(
        "photos", Place.LEAVING,
        "Twelve photos: meter, pipe, gauge, both corners, each side, each crossing, roots?",
        "The drive back for one picture costs half a day.", held="photos",
    ),
)  # fmt: skip
