"""Writes a drawing as SVG: no script, no style attribute, readable alone or inside a page."""

from collections.abc import Iterable
from html import escape

from .palette import INK, PAPER, STYLES, Style
from .shapes import XY, Circle, Drawing, Group, Polygon, Shape, Text

# As wide as this, words would be too small on a phone: the page's style sheet enlarges them.
_WIDE = 600
FONT = "system-ui, 'DejaVu Sans', Arial, sans-serif"


def to_svg(drawing: Drawing) -> str:
    """An ``svg`` element that scales to its container; also a whole file when saved alone."""
    prefix = drawing.id_prefix
    classes = "plan-drawing is-wide" if drawing.width > _WIDE else "plan-drawing"
    role = "group" if drawing.interactive else "img"
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="{classes}" role="{role}" '
        f'viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}" '
        f'aria-labelledby="{_attr(prefix)}title {_attr(prefix)}desc" font-family="{FONT}" fill="{INK}">'
    )
    parts = [head]
    parts.append(f'<title id="{_attr(prefix)}title">{_text(drawing.title)}</title>')
    parts.append(f'<desc id="{_attr(prefix)}desc">{_text(drawing.description)}</desc>')
    parts.append(f'<rect width="100%" height="100%" fill="{PAPER}"/>')
    parts += (_group(group, drawing.interactive) for group in drawing.groups)
    parts.append("</svg>")
    return "\n".join(parts)


def _group(group: Group, interactive: bool) -> str:
    classes = f"layer-{group.layer} kind-{group.kind}" + (" is-marked" if group.marked else "")
    attributes = f'class="{_attr(classes)}"'
    if group.element_id:
        attributes = f'id="{_attr(group.element_id)}" data-entity="{_attr(group.entity)}" {attributes}'
        attributes += ' tabindex="-1"' if interactive else ""
    title = f"<title>{_text(group.title)}</title>" if group.title else ""
    return f"<g {attributes}>{title}{''.join(_shapes(group.shapes))}</g>"


def _shapes(shapes: Iterable[Shape]) -> Iterable[str]:
    for shape in shapes:
        if isinstance(shape, Text):
            yield _text_element(shape)
        elif isinstance(shape, Circle):
            x, y = shape.centre
            yield f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(shape.radius)}" {_paint(shape.style)}/>'
        elif isinstance(shape, Polygon):
            data = "".join(f"M{_points(ring)}Z" for ring in shape.rings)
            yield f'<path d="{data}" fill-rule="evenodd" {_paint(shape.style)}/>'
        else:
            yield f'<path d="M{_points(shape.points)}" {_paint(shape.style, shape.width)}/>'


def _paint(name: str, width: float | None = None) -> str:
    style = STYLES[name]
    paint = f'class="{name}" fill="{style.fill or "none"}"'
    if style.fill_opacity != 1:
        paint += f' fill-opacity="{style.fill_opacity:g}"'
    return paint + _stroke(style, width)


def _stroke(style: Style, width: float | None) -> str:
    if style.stroke is None:
        return ""
    stroke = f' stroke="{style.stroke}" stroke-width="{_n(width or style.width)}"'
    if style.dash:
        stroke += f' stroke-dasharray="{" ".join(f"{d:g}" for d in style.dash)}"'
    return stroke + (' stroke-linejoin="round" stroke-linecap="round"' if style.round_ends else "")


def _text_element(text: Text) -> str:
    style = STYLES[text.style]
    x, y = text.at
    attributes = (
        f'class="{text.style}" x="{_n(x)}" y="{_n(y)}" font-size="{_n(text.size)}" fill="{style.fill}"'
    )
    if text.anchor != "start":
        attributes += f' text-anchor="{text.anchor}"'
    if text.angle_deg:
        attributes += f' transform="rotate({_n(text.angle_deg)} {_n(x)} {_n(y)})"'
    if style.bold:
        attributes += ' font-weight="700"'
    if style.halo:
        attributes += f' paint-order="stroke" stroke="{PAPER}" stroke-width="{_n(text.size / 4)}"'
        attributes += ' stroke-linejoin="round"'
    return f"<text {attributes}>{_text(text.text)}</text>"


def _points(points: Iterable[XY]) -> str:
    return "L".join(f"{_n(x)} {_n(y)}" for x, y in points)


def _n(value: float) -> str:
    """At most two decimals and no trailing zero, never an exponent or a negative zero."""
    words = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if words == "-0" else words


def _text(words: str) -> str:
    return escape(_allowed(words), quote=False)


def _attr(words: str) -> str:
    return escape(_allowed(words), quote=True)


def _allowed(words: str) -> str:
    """Without the characters that XML 1.0 forbids (its section 2.2)."""
    return "".join(c for c in words if c in "\t\n" or _is_xml_letter(c))


def _is_xml_letter(letter: str) -> bool:
    return " " <= letter < "\ud800" or "\udfff" < letter < "\ufffe" or letter > "\uffff"
