# make setup   the virtual environment in .venv, and the system libraries that PDF needs
# make run     serve the demo at http://127.0.0.1:8000/ (PORT=8010 for another port)
# make quick   the fast tests, under a minute
# make test    every check and every test, with real PostgreSQL, Redis and Chromium
# make bench   how long the engine takes, with its growth over size
# make bench-year  how long a whole program takes, from nothing and after one change
# make bench-sheets  how long a sheet takes to set, to take with its stamp, and to take again
# make faults  put 1,500 faults into recipes and count what virtual sewing names, by kind
# make strips  plan published and realistic cut lists and count what is proven
# make drawings  make 10,000 drawings by chance and prove each (COUNT=500 for fewer)

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c
.DEFAULT_GOAL := help

PORT ?= 8000
COUNT ?= 10000
BIND ?= 127.0.0.1
PYTHON ?= python3
BIN := .venv/bin
UV_VERSION := 0.13.9
INSTALL := $(BIN)/uv pip install --quiet --python $(BIN)/python --compile-bytecode
SYSTEM_RUN := python3-venv libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 fontconfig
SYSTEM_TEST := $(SYSTEM_RUN) chromium poppler-utils redis-server postgresql

QUICK := $(BIN)/python -m pytest -q -p no:cacheprovider -m "not slow and not browser and not services"

.PHONY: help setup run test faults drawings strips quick bench bench-year bench-sheets quick-engine quick-rest check system-run system-test

help:
	@sed -n 's/^# //p' Makefile

setup: system-run .venv/runtime

run: setup
	$(BIN)/python manage.py serve --demo --port $(PORT) --bind $(BIND)

test: system-test .venv/development check
	$(BIN)/python -m pytest

quick: .venv/development
	$(BIN)/ruff check
	PYTHONPATH=. $(BIN)/lint-imports --no-cache
	@$(MAKE) --no-print-directory --jobs=2 --output-sync=target quick-engine quick-rest

quick-engine:
	$(QUICK) tests/engine tests/infra tests/patterns

quick-rest:
	$(QUICK) tests --ignore=tests/engine --ignore=tests/infra --ignore=tests/patterns

bench: .venv/development
	$(BIN)/python -m tests.benchmarks.engine

bench-year: .venv/development
	$(BIN)/python -m tests.benchmarks.programs

bench-sheets: .venv/development
	$(BIN)/python -m tests.benchmarks.sheets

faults: .venv/development
	$(BIN)/python -m tests.benchmarks.faults

strips: .venv/development
	$(BIN)/python -m tests.benchmarks.strips

drawings: .venv/development
	$(BIN)/python -m tests.benchmarks.drawings_by_chance $(COUNT)

check: .venv/development
	$(BIN)/ruff check
	$(BIN)/ruff format --check
	PYTHONPATH=. $(BIN)/lint-imports --no-cache
	$(BIN)/mypy
	$(BIN)/python manage.py makemigrations --check --dry-run

system-run:
	@.ci/system-packages $(SYSTEM_RUN)

system-test:
	@.ci/system-packages $(SYSTEM_TEST)

.venv/bin/uv:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "Python 3.11 or newer is needed: make PYTHON=python3.12 ..."; exit 2; }
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check uv==$(UV_VERSION)

.venv/runtime: requirements.lock.txt | .venv/bin/uv
	$(INSTALL) -r requirements.lock.txt
	@touch $@

.venv/development: requirements-dev.lock.txt | .venv/bin/uv
	$(INSTALL) -r requirements-dev.lock.txt
	@touch $@ .venv/runtime
