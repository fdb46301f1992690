"""Words of caution, each shown where its risk is. Local codes and licensed practice come first."""

LOCAL_FIRST = "Local codes and the licensed trades come first. Where they ask for more, do what they ask."
BURIED = (
    "Marks on the ground show roughly where a line lies, never how deep. Near every mark dig by hand until "
    "you see the line. Private lines are not marked by the locate service: ask the customer."
)
STRUCK = (
    "A line is hit or you smell gas: stop, leave the tools, keep everybody away, use no phone or switch near "
    "it. Call the emergency number and the office from a safe place. Never pull on or cover a struck line."
)
TRENCH = (
    "Nobody enters a trench that could cave in: local rules say from what depth it must be shored. Spoil and "
    "machines stay back from the edge. Guard every open trench, and close it or fence it overnight."
)
SLEEVE = (
    "Look at both ends before boring: the mole comes out where it likes. Expose any line that it will cross, "
    "by hand. Cutting stone or concrete: wet, with eye, ear and breathing protection."
)
WATER = (
    "This line joins drinking water. Connection and backflow device are for a licensed plumber, by the local "
    "code; nobody opens the supply before the device is fitted and tested as that code asks."
)
ELECTRIC = (
    "Mains power is for a licensed electrician only. Isolate the controller before you touch its terminals; "
    "the cables to the valves are extra-low voltage, and everything before the transformer is not."
)
TEST = (
    "Water only, never air: a joint that lets go under air throws fragments. Let solvent joints cure as the "
    "tin says, bleed all air, brace bends and ends. Stand clear while it rises; stop at the pipe's rating."
)
CEMENT = (
    "Primer and solvent cement burn, and their fumes harm: open air, gloves, eye protection, no flame, no "
    "smoking. Lids on between joints."
)
STAKES = (
    "First measure between the two marks. More than 5 cm (2 in) off: stop and call the office. Use flags or "
    "paint until the locate is valid: a driven stake is digging. Left and right are as seen standing at the "
    "first mark and facing the second."
)
CABLE = "A splice that will be buried goes into a sealed connector in a box, or the run is laid anew, whole."
