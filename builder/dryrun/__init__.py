"""The dry run: the kit built on paper, action by action. It records; it never judges."""
