"""One file per kind of action; the table of kinds."""
