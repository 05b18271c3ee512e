"""Drawings: solids, placement, views, dimension layout and patterns give a Drawing; svg.py only writes it.

The way of the data: a Scene (placed solids, glue, marks, dimensions) goes to a view, which works out
every line that the eye would see; labels.py lays dimensions and names round it; the result is a
Drawing of absolute shapes in millimetres on paper.  svg.py and raster.py write it and decide nothing.

Floats begin in this room.  Everything before it is exact; coordinates are rounded to 0.01 mm once,
when a Drawing is finished.
"""
