"""The fixed words of a proposal."""

# What can hurt someone is said in each proposal, whatever the company writes besides.
CAUTIONS: tuple[tuple[str, str], ...] = (
    ("Buried services", "Gas, power, water, telephone and drains are located and marked before any "
     "digging starts. Near them we dig by hand. Please tell us about private lines that no public "
     "service will mark."),
    ("Drinking water", "Backflow protection keeps irrigation water out of the drinking water. The "
     "connection and the device are fitted and tested by a licensed plumber, as the local code asks."),
    ("Electricity", "Mains electricity for the controller is the work of a licensed electrician."),
    ("Open trenches", "Trenches are guarded while they are open and closed again as soon as the pipe "
     "has been tested. Please keep children and animals away from them."),
    ("Winter", "Air that blows pipes out before frost can injure people and burst pipes: leave it to someone "
     "trained, below the rating of the system."),
    ("Design figures", "Flows, pressures and coverage are calculated from the measured conditions. They "
     "are a design aid, reviewed by a competent person; supply pressure may change, and local codes "
     "and licensed practice always come first."),
)  # fmt: skip

# What a customer may ask of any contractor; local law stands above each of them.
START = (
    "We agree the day with you, once the deposit is in. No digging starts before buried services have been "
    "located and marked. Weather and permits may move the day; we tell you at once."
)
REINSTATEMENT = (
    "We fill and compact the trenches, lay the turf that we lifted again, sweep the paths and take our "
    "waste away."
)
CANCELLATION = (
    "Where the law of your place lets you cancel within some days of accepting, you keep that right; tell "
    "us in writing."
)

PLAN_NOTE = (
    "Lines of buried services are drawn as they were reported or found. They do not replace locating: no "
    "digging starts before the services have been located and marked on the ground."
)

ACCEPTANCE = (
    "By signing, the customer accepts this revision of the proposal with its drawing, its price, its stages "
    "of payment and its conditions."
)
