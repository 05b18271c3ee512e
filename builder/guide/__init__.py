"""The guide as data: the typed, immutable model, its reader, and the words made from it."""
