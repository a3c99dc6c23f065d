# Everything here needs only Python >= 3.11, make and git; the virtual environment is made on first use.
PYTHON ?= python3
BIN := .venv/bin
RUNNING := .venv/.running
PAGING := .venv/.paging
TESTING := .venv/.testing
INSTALL := $(BIN)/python -m pip install --quiet --disable-pip-version-check --no-compile

.PHONY: demo desk pages pictures test test-all check mutants benchmarks meshes lock clean

demo: $(RUNNING)  ## plan the demo's sculpture into demo-plan/
	$(BIN)/moldwright demo --out demo-plan

pages: $(PAGING)  ## bundle the desk's pages; nothing where they are up to date
	tools/pages

desk: pages  ## the desk in a browser
	$(BIN)/moldwright desk

test: $(TESTING)  ## all tests but the slow ones, and every documented example; those in a browser where there is one
	-tools/pages
	$(BIN)/pytest -n auto --dist loadfile -m "not slow" --doctest-modules src/moldwright tests

test-all: $(TESTING) meshes  ## the slow ones too
	-tools/pages
	MOLDWRIGHT_MESHES=$(CURDIR)/.cache/meshes.tar.gz $(BIN)/pytest -n auto --dist loadfile --doctest-modules src/moldwright tests

check: $(TESTING)  ## style, strict types, import order, documentation
	$(BIN)/ruff check .
	$(BIN)/mypy
	tools/pages types
	$(BIN)/pytest tests/unit/test_imports.py tests/unit/test_docs.py

pictures: $(TESTING) pages  ## every page at three sizes, into out/pictures; LOOK=--dark or LOOK=--contrast for another look
	tools/page_pictures $(LOOK)

mutants: $(TESTING)  ## do the tests notice? known faults and a seeded sample of mutants (about 15 minutes)
	tools/faults
	tools/mutants

benchmarks: $(TESTING)  ## what the computing costs, against a peer in the same run
	$(BIN)/python -m benchmarks

meshes:
	tools/meshes

lock:  ## write constraints*.txt anew from pyproject.toml
	tools/lock

clean:
	rm -rf .venv .mypy_cache .ruff_cache .pytest_cache .hypothesis demo-plan out node_modules src/moldwright/web/built

# Three levels, each on top of the one before and from its own pinned list (docs/set-up.md): what running needs, what makes
# the desk's pages, what tests and checks need.
# Modules are compiled as they are first used: of the whole that is 150 MB less on disk.
$(RUNNING): constraints.txt pyproject.toml
	@$(PYTHON) -c 'import sys; sys.exit("Python 3.11 or newer is needed" if sys.version_info < (3, 11) else 0)'
	@test -x $(BIN)/python || $(PYTHON) -m venv .venv
	@echo "Setting up .venv (once)"
	@$(INSTALL) --require-hashes -r constraints.txt
	@$(INSTALL) --no-deps --no-build-isolation -e .
	@touch $(RUNNING)

$(PAGING): constraints-pages.txt $(RUNNING)
	@echo "Adding what makes the pages to .venv (once)"
	@$(INSTALL) --require-hashes -r constraints.txt -r constraints-pages.txt
	@touch $(PAGING)

$(TESTING): constraints-dev.txt $(PAGING)
	@echo "Adding what the tests need to .venv (once)"
	@$(INSTALL) --require-hashes -r constraints.txt -r constraints-pages.txt -r constraints-dev.txt
	@touch $(TESTING)
