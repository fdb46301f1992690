"""From “a tee with these arms” to fittings of the parts book, with reducers and adapters where
no single fitting has the right sockets. What the book lacks comes back as missing, never left out.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from hydraulics.catalogue import Catalogue, FittingPart, PipePart

Opening = tuple[str, str]  # joint, size

# a manifold may be built from the fittings of the trench where the book has no others
STAND_INS = {"manifold_tee": "tee", "manifold_elbow": "elbow_90"}


@dataclass(frozen=True)
class Placed:
    """One fitting in its place. ``part`` is None where the book has none."""

    role: str
    part: str | None
    openings: tuple[Opening, ...]


@dataclass
class Assembly:
    """Fittings that serve one place, and the short pieces of pipe (part codes) between them."""

    fittings: list[Placed] = field(default_factory=list)
    nipples: list[str] = field(default_factory=list)

    def add(self, other: "Assembly") -> None:
        self.fittings += other.fittings
        self.nipples += other.nipples


class FittingBook:
    """Fittings of a catalogue, by role and sockets."""

    def __init__(self, parts: Catalogue) -> None:
        self._by_sockets: dict[tuple[str, tuple[Opening, ...]], str] = {}
        for part in parts.values():
            if isinstance(part, FittingPart):
                key = (part.role, _sorted((s.joint, s.size) for s in part.sockets))
                self._by_sockets.setdefault(key, part.code)

    def find(self, role: str, openings: Iterable[Opening]) -> Placed | None:
        wanted = _sorted(openings)
        for name in (role, STAND_INS.get(role, role)):
            code = self._by_sockets.get((name, wanted))
            if code:
                return Placed(role, code, wanted)
        return None

    def any_of(self, role: str) -> tuple[Placed, ...]:
        found = self._by_sockets.items()
        return tuple(Placed(role, code, sockets) for (name, sockets), code in found if name == role)


def pipe_opening(part: PipePart) -> Opening:
    return (part.joint, part.size)


def assemble(book: FittingBook, role: str, arms: Sequence[PipePart], thread: str = "") -> Assembly:
    """Fittings for ``role`` whose sockets take these pipe ends and one thread of that size, if any.

    First one fitting with exactly these sockets; then the same with all sockets as the largest
    arm and a reducer or adapter at each odd one; then another thread and a threaded reducer.
    """
    threads = [thread, *_other_threads(book, role, thread)] if thread else [""]
    base = base_of(arms)
    for bodies in (list(arms), [base] * len(arms)):
        for outlet in threads:
            built = _try(book, role, (bodies, arms), (outlet, thread))
            if built:
                return built
    return Assembly([Placed(role, None, _openings(arms, thread))])


def base_of(arms: Sequence[PipePart]) -> PipePart:
    """The widest arm among those with the commonest way of joining."""
    joints = [arm.joint for arm in arms]
    common = max(joints, key=lambda joint: (joints.count(joint), -joints.index(joint)))
    return max((arm for arm in arms if arm.joint == common), key=lambda arm: arm.outside_mm)


def join_straight(book: FittingBook, first: PipePart, second: PipePart) -> Assembly:
    """Two pipe ends in line: a coupling, a reducer, or adapters between unlike joints."""
    if pipe_opening(first) == pipe_opening(second):
        return assemble(book, "coupling", [first, second])
    role = "reducer" if first.joint == second.joint else "adapter"
    one = book.find(role, _openings([first, second], ""))
    if one:
        return Assembly([one])
    if role == "reducer":
        return _coupling_and_bushing(book, first, second) or assemble(book, role, [first, second])
    pair = _adapter_pair(book, first, second)
    return Assembly(list(pair)) if pair else Assembly([Placed(role, None, _openings([first, second], ""))])


def _try(
    book: FittingBook,
    role: str,
    arms: tuple[Sequence[PipePart], Sequence[PipePart]],
    threads: tuple[str, str],
) -> Assembly | None:
    """One body with sockets ``arms[0]`` and thread ``threads[0]``, turned into the second of each."""
    body = book.find(role, _openings(arms[0], threads[0]))
    if body is None:
        return None
    built = Assembly([body])
    for have, want in zip(*arms, strict=True):
        step = _convert(book, have, want)
        if step is None:
            return None
        built.add(step)
    if threads[0] != threads[1]:
        reducer = book.find("reducer", [("thread", threads[0]), ("thread", threads[1])])
        if reducer is None:
            return None
        built.fittings.append(reducer)
    return built


def _convert(book: FittingBook, have: PipePart, want: PipePart) -> Assembly | None:
    """From a socket for ``have`` to one for ``want``; a nipple of ``have`` where it takes one."""
    if pipe_opening(have) == pipe_opening(want):
        return Assembly()
    if have.joint == want.joint:
        bushing = book.find("reducer", [("spigot", have.size), pipe_opening(want)])
        if bushing:
            return Assembly([bushing])
    role = "reducer" if have.joint == want.joint else "adapter"
    single = book.find(role, _openings([have, want], ""))
    if single:
        return Assembly([single], [have.code])
    pair = _adapter_pair(book, have, want) if role == "adapter" else None
    return Assembly(list(pair), [have.code]) if pair else None


def _coupling_and_bushing(book: FittingBook, first: PipePart, second: PipePart) -> Assembly | None:
    wide, narrow = sorted((first, second), key=lambda part: -part.outside_mm)
    bushing = book.find("reducer", [("spigot", wide.size), pipe_opening(narrow)])
    coupling = book.find("coupling", [pipe_opening(wide)] * 2)
    return Assembly([coupling, bushing]) if bushing and coupling else None


def _adapter_pair(book: FittingBook, first: PipePart, second: PipePart) -> tuple[Placed, Placed] | None:
    for thread in _threads_of(book, "adapter"):
        one = book.find("adapter", [pipe_opening(first), ("thread", thread)])
        two = book.find("adapter", [pipe_opening(second), ("thread", thread)])
        if one and two:
            return (one, two)
    return None


def _other_threads(book: FittingBook, role: str, thread: str) -> list[str]:
    return [size for size in _threads_of(book, role) if size != thread]


def _threads_of(book: FittingBook, role: str) -> list[str]:
    sizes = (size for placed in book.any_of(role) for joint, size in placed.openings if joint == "thread")
    return list(dict.fromkeys(sizes))


def _openings(arms: Sequence[PipePart], thread: str) -> tuple[Opening, ...]:
    extra = [("thread", thread)] if thread else []
    return _sorted([pipe_opening(arm) for arm in arms] + extra)


def _sorted(openings: Iterable[Opening]) -> tuple[Opening, ...]:
    return tuple(sorted(openings))
