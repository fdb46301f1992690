"""What is tried in turn where plain Newton steps find no balance of a case."""

from hydraulics.damped import damped_balance
from hydraulics.linear import LinearSolver
from hydraulics.newton import Balance
from hydraulics.searched import searched_balance
from hydraulics.stack import Stack


def careful_balance(stack: Stack, linear: LinearSolver) -> Balance:
    """Balance of one case by cut steps; ``settled`` is false in it if none was found."""
    found = damped_balance(stack, linear)
    if found.settled or stack.cap is None:
        return found
    return searched_balance(stack, linear, [(stack.flow, stack.head), (found.state, found.head)])
