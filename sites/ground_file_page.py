"""What the page says of each layer of a file."""

import math
from dataclasses import dataclass

from django.forms.boundfield import BoundField
from django.utils.safestring import SafeString

from design.exchange.shapes import Layer, extent
from design.exchange.unit_guess import DEGREES, METRES
from hydraulics.sentences import in_units_of
from sites.ground_file_forms import GroundChoiceForm
from sites.ground_file_picture import picture, swatch


@dataclass(frozen=True)
class LayerRow:
    field: BoundField
    swatch: SafeString
    name: str
    holds: str
    size: str


def layer_rows(form: GroundChoiceForm) -> list[LayerRow]:
    return [
        LayerRow(field, swatch(number), layer.name, holds_words(layer), _size_words(form, layer))
        for number, layer, field in form.layer_rows()
    ]


def file_picture(form: GroundChoiceForm) -> SafeString:
    return picture(form.shapes, squeeze=_squeeze(form))


def holds_words(layer: Layer) -> str:
    counts = ((layer.rings, "outline"), (layer.lines, "line"), (layer.points, "point"))
    return ", ".join(f"{count} {word}{'' if count == 1 else 's'}" for count, word in counts if count)


def _likely_unit(form: GroundChoiceForm) -> str:
    return form.guess.unit or next(iter(form.guess.fitting), "")


def _squeeze(form: GroundChoiceForm) -> float:
    """A degree of longitude is shorter than one of latitude."""
    box = extent(form.shapes.shapes)
    if box is None or _likely_unit(form) != DEGREES:
        return 1.0
    return max(math.cos(math.radians((box[1] + box[3]) / 2)), 0.05)


def _size_words(form: GroundChoiceForm, layer: Layer) -> str:
    """In metres by the unit that is likely; in the file's own numbers where none is."""
    box = extent(form.shapes.only([layer.name]).shapes)
    unit = _likely_unit(form)
    if box is None or (box[0], box[1]) == (box[2], box[3]):
        return ""
    wide, tall = box[2] - box[0], box[3] - box[1]
    if unit == DEGREES:
        whole = extent(form.shapes.shapes) or box
        east, north = whole[2] - whole[0], whole[3] - whole[1]
        size_m = form.guess.sizes[DEGREES]
        wide, tall = wide * (size_m[0] / east if east else 0), tall * (size_m[1] / north if north else 0)
    elif unit:
        wide, tall = wide * METRES[unit], tall * METRES[unit]
    if not unit:
        return f"{wide:,.1f} by {tall:,.1f} in the file’s numbers"
    return in_units_of(form.system, f"{wide:,.1f} m by {tall:,.1f} m")
