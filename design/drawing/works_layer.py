"""What will be dug and laid: trenches by method, sleeves, pipes by size, cables."""

from shapely import LineString

from design.document import Cable, Pipe
from design.report import TrenchStretch
from hydraulics.catalogue import PipePart

from .labels import along
from .measures import depth_words, length_words
from .scene import Scene
from .shapes import XY, Line, Shape

METHOD_WORDS = {"machine": "machine trench", "hand": "dug by hand", "bore": "bored under"}


def draw_trench(scene: Scene) -> None:
    for stretch in scene.report.trench if scene.report else ():
        shapes = trench_shapes(scene.frame.path(stretch.path), stretch.method, scene.unit)
        scene.add("trench", f"trench-{stretch.method}", stretch.id, _trench_title(scene, stretch), shapes)
        scene.used.add(f"trench-{stretch.method}")


def _trench_title(scene: Scene, stretch: TrenchStretch) -> str:
    length = length_words(stretch.length_m, scene.options.units)
    depth = depth_words(stretch.depth_m, scene.options.units)
    title = f"Trench {stretch.id}: {METHOD_WORDS[stretch.method]}, {length}, {depth} deep"
    return f"{title}. {stretch.why}" if stretch.why else title


def trench_shapes(path: tuple[XY, ...], method: str, unit: float) -> list[Shape]:
    """A band for the machine, a ladder for the spade, a tube for the bore."""
    if method == "machine":
        return [Line(path, "trench-machine", 7 * unit), Line(path, "trench-machine-inside", 6 * unit)]
    if method == "bore":
        return [Line(path, "trench-bore", 8 * unit), Line(path, "trench-bore-inside", 5.6 * unit)]
    ticks: list[Shape] = [Line(tick, "trench-hand-tick") for tick in _ticks(path, 5 * unit, 5 * unit)]
    return [Line(path, "trench-hand", 3 * unit), *ticks]


def _ticks(path: tuple[XY, ...], spacing: float, half: float) -> list[tuple[XY, XY]]:
    """Short strokes across a path."""
    line = LineString(path)
    count = min(int(line.length / spacing), 2000)
    ticks = []
    for i in range(count):
        at = (i + 0.5) * line.length / count
        a, b = line.interpolate(max(at - 0.5, 0)), line.interpolate(min(at + 0.5, line.length))
        run = a.distance(b) or 1.0
        dx, dy = -(b.y - a.y) / run * half, (b.x - a.x) / run * half
        x, y = (a.x + b.x) / 2, (a.y + b.y) / 2
        ticks.append(((x - dx, y - dy), (x + dx, y + dy)))
    return ticks


def draw_sleeves(scene: Scene) -> None:
    sleeves = [(s.id, s.path) for s in scene.report.sleeves] if scene.report else []
    known = {entity for entity, _ in sleeves}
    sleeves += [(s.id, tuple(s.path)) for s in scene.plan.layout.sleeves if s.id not in known]
    for entity, path in sleeves:
        edges = _beside(scene.frame.path(path), 5.5 * scene.unit)
        scene.add("trench", "sleeve", entity, f"Sleeve {entity}", [Line(e, "sleeve") for e in edges])
        scene.used.add("sleeve")


def _beside(path: tuple[XY, ...], distance: float) -> list[tuple[XY, ...]]:
    """The path moved to either side."""
    line = LineString(path)
    if line.length == 0:
        return []
    moved = (line.offset_curve(d) for d in (distance, -distance))
    lines = [p for m in moved for p in getattr(m, "geoms", [m]) if isinstance(p, LineString)]
    return [tuple((x, y) for x, y in p.coords) for p in lines if not p.is_empty]


def pipe_widths(scene: Scene) -> dict[str, float]:
    """Line weight by part: the wider the bore, the heavier the line."""
    codes = {pipe.part for pipe in scene.plan.layout.pipes}
    bores = {code: _bore(scene, code) for code in codes}
    ranks = {bore: rank for rank, bore in enumerate(sorted(set(bores.values())))}
    return {code: (1.6 + min(ranks[bore], 4) * 0.9) * scene.unit for code, bore in bores.items()}


def _bore(scene: Scene, code: str) -> float:
    part = scene.part(code)
    return part.bore_mm if isinstance(part, PipePart) else 0.0


def size_words(scene: Scene, code: str) -> str:
    part = scene.part(code)
    return part.size if isinstance(part, PipePart) else code


def pipe_path(scene: Scene, pipe: Pipe | Cable) -> tuple[XY, ...]:
    """From node to node by way of its bends, in site metres; empty if an end is missing."""
    places = {node.id: node.at for node in scene.plan.layout.nodes}
    if pipe.from_ not in places or pipe.to not in places:
        return ()
    return (places[pipe.from_], *pipe.via, places[pipe.to])


def draw_pipes(scene: Scene) -> None:
    widths = pipe_widths(scene)
    for pipe in scene.plan.layout.pipes:
        path = pipe_path(scene, pipe)
        if path:
            _draw_pipe(scene, pipe, path, widths[pipe.part])


def _draw_pipe(scene: Scene, pipe: Pipe, path: tuple[XY, ...], width: float) -> None:
    measure = scene.measure(pipe.id)
    role = measure.role if measure else "lateral"
    length = length_words(measure.length_m if measure else LineString(path).length, scene.options.units)
    size = size_words(scene, pipe.part)
    page_path = scene.frame.path(path)
    title = f"Pipe {pipe.id}: {role}, size {size}, {length}"
    scene.add("pipes", f"pipe-{role}", pipe.id, title, [Line(page_path, f"pipe-{role}", width)])
    scene.used |= {f"pipe-{role}", f"size-{pipe.part}"}
    full, gap = f"{size} · {length}", width / 2 + 4.5 * scene.unit
    options = along(page_path, full, "pipe-text", scene.size * 0.75, gap)
    options += along(page_path, size, "pipe-text", scene.size * 0.75, gap)
    if scene.options.shows("sizes"):
        scene.label(scene.space.put(options))


def draw_cables(scene: Scene) -> None:
    results = {cable.id: cable for cable in scene.report.cables} if scene.report else {}
    for cable in scene.plan.layout.cables:
        result = results.get(cable.id)
        path = result.path if result else pipe_path(scene, cable)
        if len(path) < 2:
            continue
        title = f"Cable {cable.id}: {cable.from_} to {cable.to}"
        if result:
            title += f", {length_words(result.length_m, scene.options.units)} with its ends"
        side = _beside(scene.frame.path(path), 3.4 * scene.unit)[:1]
        scene.add("cables", "cable", cable.id, title, [Line(p, "cable") for p in side])
        scene.used.add("cable")
