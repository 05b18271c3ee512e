# Kitwright: `make` alone lists what there is.
# Everything runs in .venv, which is made at the first call and looked at again only after a change of
# pyproject.toml, constraints.txt or the set-up itself.

PYTHON ?= python3
PYTHONS := $(PYTHON) python3 python3.14 python3.13 python3.12 python3.11 python
VENV := .venv/$(if $(filter Windows_NT,$(OS)),Scripts,bin)
RUN := $(VENV)/python -m
KITWRIGHT := $(RUN) builder

.DEFAULT_GOAL := help
.PHONY: help site test serve bench pins clean

help:  ## list what there is to make
	@sed -n 's/^\([a-z]*\):.*##  *\(.*\)/  make \1|\2/p' $(MAKEFILE_LIST) | awk -F'|' '{printf "%-14s%s\n", $$1, $$2}'

site: .venv/.ready-site  ## check the guides, build site/ and the packets, say what to open
	@$(KITWRIGHT) check
	@$(KITWRIGHT) build

test: .venv/.ready-test  ## style, types and all tests (ARGS="-k tube" for some)
	@$(RUN) ruff check --quiet --output-format concise
	@$(RUN) mypy --no-error-summary
	@$(RUN) pytest $(ARGS)

serve: .venv/.ready-site  ## the site while you write: a change of a guide shows at once
	@$(RUN) mkdocs serve --watch-theme

bench: .venv/.ready-test  ## time `kitwright check` on a guide of 60 steps
	@$(RUN) tests.bench
	@$(RUN) tests.bench_drawings

pins:  ## renew constraints.txt with the newest versions (for maintainers)
	@$(PYTHON) .ci/set_up.py pins

clean:  ## take away all that was made, .venv too
	@rm -rf .venv site packets .mypy_cache .pytest_cache .ruff_cache .hypothesis
	@find builder tests .ci -name __pycache__ -prune -exec rm -rf {} +

.venv/.ready-site .venv/.ready-test: .venv/.ready-%: pyproject.toml constraints.txt .ci/set_up.py
	@for python in $(PYTHONS); do \
	  if $$python -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then \
	    exec $$python .ci/set_up.py $*; \
	  fi; \
	done; \
	echo 'Kitwright needs Python 3.11 or later. Install it, then run this again:' >&2; \
	echo '  Debian, Ubuntu:  sudo apt install python3 python3-venv' >&2; \
	echo '  macOS:           brew install python' >&2; \
	echo '  Windows:         install Python from https://www.python.org' >&2; \
	exit 2
