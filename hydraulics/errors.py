"""What can go wrong in the engineering functions; each says in one sentence what and where."""


class HydraulicsError(ValueError):
    """Base of every error that this package raises on bad input."""


class BadQuantity(HydraulicsError):
    """A typed measure cannot be read; the message is fit to stand beside the field."""


class SupplyContradiction(HydraulicsError):
    """The readings at the supply cannot all be true."""


class NetworkError(HydraulicsError):
    """The network is not one that can be solved: the message names the entity."""


class DisconnectedNodes(NetworkError):
    """Nodes that no water can reach even with everything open."""

    def __init__(self, nodes: tuple[str, ...]) -> None:
        self.nodes = nodes
        named = ", ".join(nodes[:8]) + (f" and {len(nodes) - 8} more" if len(nodes) > 8 else "")
        super().__init__(f"no pipe connects {named} to the supply; draw the missing pipe or remove them")


class SolverStuck(HydraulicsError):
    """No balance of flow and pressure was found; ``where`` names the worst places."""

    def __init__(self, case: str, where: tuple[str, ...], residual_kpa: float) -> None:
        self.case, self.where, self.residual_kpa = case, where, residual_kpa
        super().__init__(
            f"the hydraulic solution of case “{case}” did not settle near {', '.join(where)} "
            f"({residual_kpa:.3g} kPa out of balance); check the sizes and loss rows there"
        )
