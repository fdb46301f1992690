"""Measured ground: tape and wheel readings reduced to points that know their likely error."""
