"""The continuous model of the documentation, written and solved a second time.

It shares no code with the engine. The equations, and the few constants that smooth their corners (film that
wets half of a face, boiling, run-off, memory of the peak), are the engine's; how they are solved is not:
temperature and water content are the unknowns
(the engine carries enthalpy), cells are centred and graded by a tanh with a thin skin cell on each face
(the engine has vertex-centred cells in geometric progression), mobilities and advected heat are averaged
(the engine takes those of the giving side), properties are evaluated directly (the engine tabulates them),
saturation and latent heat come from another formulation (IAPWS SR1-86), and SciPy's LSODA integrates in
time (the engine has a Rosenbrock method of its own).

The numbers of a plan come from its JSON form, so that both solve the same problem.
"""
