"""What the trade knows, as literal tables with a source on each row.

Every table is a tuple of frozen rows in one module; a lookup is a pure function that answers `None` for
what the trade does not know. Base units throughout: millimetres, seconds, grams, millilitres, newton
seconds; lengths are `Fraction`, times are whole seconds. A row's `sources` are keys of
`builder.trade.sources`; where nothing is published the key is "common_practice" or "memory". Nothing here
judges a guide: a range only tells a check what is usual, and a caution always leaves the last word to the
product label, local codes and a responsible adult.
"""
