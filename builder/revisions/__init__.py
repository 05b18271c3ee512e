"""Revisions of a guide: compared by what they mean at the bench, sealed, and mended in the field."""
