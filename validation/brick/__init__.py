"""A brick of meat in three dimensions: a reference for what slabs, cylinders and sections leave out.

The equations are those of `validation/independent`, whose modules for tissue, water, air and faces are used
here, so that nothing is shared with the engine; only the numbers of a plan come from its JSON form. What is
new is the shape: length x width x thickness, with four upright sides that take up heat, evaporate, drip and
dry out as bottom and top do. Two vertical planes of symmetry leave a quarter of the footprint; the whole
thickness is solved, for bottom and top differ.

In the folder validation, with libcook installed (a minute or two of computing for each plan):

    python -m brick                     every plan of plans.py, into brick/results and brick/RESULTS.md
    python -m brick NAME ...            only these
    python -m brick --refine [NAME ...] on other grids and steps, into brick/results/refinement.json
"""
