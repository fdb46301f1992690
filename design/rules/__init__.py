"""The rules on layout and ground; those on water and electricity are in hydraulics.rules."""
