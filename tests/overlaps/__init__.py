"""Overlaps: every drawing that a person is shown, measured by a browser's own boxes.

`python -m tests.overlaps [GUIDE]...` measures all of them; `tests/drawings/test_in_a_browser.py` a sample.
"""
