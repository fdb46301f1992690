"""Engineering judgement of an irrigation layout: plain functions on plain data, no Django.

fit_supply, design_flow   supply.py     what the tap gives
solve, solve_cases        solver.py     pressures and flows of a network
head_law, drip_law        emitters.py   flow of a head or drip area by pressure
throw_at, reach_at        heads.py      how far it wets
wetting                   coverage.py   depth on a grid, uniformity
rules                     rules/        findings
"""
