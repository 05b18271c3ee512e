"""Pages: guide, dry run, plan and drawings become page contexts; templates only lay them out."""
