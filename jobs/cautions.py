"""Words of caution, each shown where its risk is. Local codes and licensed practice come first."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Caution:
    """``lead`` is always in sight, ``more`` at a tap."""

    lead: str
    more: str = ""


LOCAL_FIRST = "Local codes and the licensed trades come first. Where they ask for more, do what they ask."
STRUCK = (
    "A line is hit or you smell gas: stop, leave the tools, keep everybody away, use no phone or switch near "
    "it. Call the emergency number and the office from a safe place. Never pull on or cover a struck line."
)
BURIED = Caution(
    "Near every mark dig by hand until you see the line.",
    "Marks on the ground show roughly where a line lies, never how deep. Private lines are not marked by the "
    "locate service: ask the customer.",
)
TRENCH = Caution(
    "Nobody enters a trench that could cave in.",
    "Local rules say from what depth it must be shored. Spoil and machines stay back from the edge. Guard "
    "every open trench, and close it or fence it overnight.",
)
SLEEVE = Caution(
    "First expose, by hand, any line that the bore will cross.",
    "Look at both ends before boring: the mole comes out where it likes. Cutting stone or concrete: wet, "
    "with eye, ear and breathing protection.",
)
WATER = Caution(
    "This line joins drinking water: a licensed plumber connects it.",
    "Connection and backflow device go by the local code; nobody opens the supply before the device is "
    "fitted and tested as that code asks.",
)
ELECTRIC = Caution(
    "Mains power is for a licensed electrician only.",
    "Isolate the controller before you touch its terminals; the cables to the valves are extra-low voltage, "
    "and everything before the transformer is not.",
)
TEST = Caution(
    "Water only, never air. Stop at the pipe's rating.",
    "A joint that lets go under air throws fragments. Let solvent joints cure as the tin says, bleed all "
    "air, brace bends and ends. Stand clear while it rises.",
)
CEMENT = Caution(
    "Primer and solvent cement burn, and their fumes harm.",
    "Open air, gloves, eye protection, no flame, no smoking. Lids on between joints.",
)
BASE = Caution(
    "First measure between the marks. More than 5 cm (2 in) off: stop and call the office.",
    "Left and right are as seen standing at the first mark and facing the second. A third tape, from the "
    "mark to check, proves the point: more than 15 cm (6 in) off, measure again.",
)
FLAGS = Caution("Flags or paint until the locate is valid: a driven stake is digging.")
CABLE = Caution(
    "A splice that will be buried goes into a sealed connector in a box, or the run is laid anew, whole."
)
