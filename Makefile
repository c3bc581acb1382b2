# The commands of mixcalc. They need a Rust toolchain, a C compiler and Python 3.10 or later with venv, and fetch the rest
# with cargo and pip. `make help` lists them.

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c
.DEFAULT_GOAL := help
.DELETE_ON_ERROR:

# Made absolute, since the programs below are started from more than one folder.
export CARGO_TARGET_DIR := $(abspath $(or $(CARGO_TARGET_DIR),target))
# With a backtrace, a panic that is caught leaves memory behind that looks like a leak.
export RUST_BACKTRACE := 0
export HYPOTHESIS_STORAGE_DIRECTORY := $(CARGO_TARGET_DIR)/hypothesis

PYTHON ?= python3
CC ?= cc
RELEASE := $(CARGO_TARGET_DIR)/release
TOOLS := .venv
WHEELS := $(CARGO_TARGET_DIR)/wheels
# Where the wheel is installed, apart from the tools and the sources, so that only the wheel can make the tests pass.
INSTALLED := $(CARGO_TARGET_DIR)/installed

# The C program, for the library of one profile: release or debug.
c_plan = $(CARGO_TARGET_DIR)/$(1)/c-plan
compile_c_plan = $(CC) -std=c11 -Wall -Wextra -Wpedantic -Werror -g -Imixcalc-ffi/include tests/bindings/plan.c \
	-L$(dir $(call c_plan,$(1))) -lmixcalc_ffi -Wl,-rpath,$(dir $(call c_plan,$(1))) -o $(call c_plan,$(1))

##@ Plans

JOB ?= docs/examples/demo.toml
FORMAT ?= sheet
export JOB

.PHONY: plan
plan: ## Plan a job: JOB=path (- reads standard input), FORMAT=sheet or json
	@cargo run --quiet --release --locked --example plan -- $(plan_$(FORMAT)) "$$JOB"

plan_sheet :=
plan_json := --json
$(if $(filter sheet json,$(FORMAT)),,$(error FORMAT must be sheet or json, got "$(FORMAT)"))

##@ Tests

.PHONY: test
test: lint test-rust test-bindings witness ## All that a change must pass

.PHONY: lint
lint: ## Format, lints, documentation, and the core without the standard library
	cargo fmt --all --check
	cargo clippy --workspace --all-targets --all-features --locked -- -D warnings
	RUSTDOCFLAGS="-D warnings" cargo doc --workspace --all-features --no-deps --locked
	cargo rustc --package mixcalc --lib --no-default-features --locked -- -D warnings

# nextest where it is, cargo's own runner elsewhere.
.PHONY: test-rust
test-rust: ## Rust tests and the examples in the documentation
	if cargo nextest --version >/dev/null 2>&1; \
	then cargo nextest run --workspace --all-features --locked --no-fail-fast; \
	else cargo test --workspace --all-features --locked --no-fail-fast --tests; fi
	cargo test --workspace --all-features --locked --doc

.PHONY: test-bindings
test-bindings: installed c-plan rust-plan ## The wheel in a new environment and a program in C, against Rust
	MIXCALC_C_PLAN=$(call c_plan,release) MIXCALC_C_LIBRARY=$(RELEASE)/libmixcalc_ffi.so MIXCALC_RUST_EXAMPLES=$(RELEASE)/examples \
	$(INSTALLED)/bin/pytest -q -p no:cacheprovider tests
	cd $(INSTALLED) && MYPY_CACHE_DIR=$(CARGO_TARGET_DIR)/mypy bin/stubtest mixcalc

COUNT ?= 10000
SEED ?= 1

.PHONY: witness
witness: rust-plan ## Check the plans of random jobs by exact fractions: COUNT=number SEED=number
	$(PYTHON) tests/witness/jobs.py $(COUNT) $(SEED) | $(RELEASE)/examples/plan_lines | $(PYTHON) tests/witness/witness.py --lines

# valgrind reads the debug library: an optimizer may test a value before it tests whether there is one.
.PHONY: test-extra
test-extra: gate ## What needs more of the machine: a C++ compiler, valgrind
	echo '#include "mixcalc.h"' | $(CC) -x c++ -std=c++17 -Wall -Wextra -Wpedantic -Werror -fsyntax-only -Imixcalc-ffi/include -
	cargo build --locked --package mixcalc-ffi
	$(call compile_c_plan,debug)
	valgrind --quiet --leak-check=full --error-exitcode=9 $(call c_plan,debug) docs/examples/demo.toml >/dev/null

# Tools of pinned versions, built to be run once, so without optimization.
TOOLS_BUILT := $(CARGO_TARGET_DIR)/tools
install_tool = CARGO_PROFILE_RELEASE_OPT_LEVEL=0 CARGO_PROFILE_RELEASE_LTO=off CARGO_PROFILE_RELEASE_CODEGEN_UNITS=16 \
	cargo install --quiet --locked --root $(TOOLS_BUILT) $(1)

# Runner and library must be of one version.
RUNNER_VERSION := 0.20.0
RUNNER := $(TOOLS_BUILT)/bin/gungraun-runner

$(RUNNER):
	$(call install_tool,gungraun-runner@$(RUNNER_VERSION))

.PHONY: gate
gate: $(RUNNER) ## Instruction counts against the numbers checked in; needs valgrind. UPDATE=1 checks new ones in
	GUNGRAUN_RUNNER=$(RUNNER) cargo bench --quiet --locked --package mixcalc-benches --bench instructions -- --output-format=json \
	| $(PYTHON) benches/gate.py

.PHONY: bench
bench: ## Times beside what a user would do instead, and allocations
	cargo bench --quiet --locked --package mixcalc-benches --bench plan --bench allocations

.PHONY: test-long
test-long: ## For the patient: a million random jobs, other ones each day
	$(MAKE) witness COUNT=1000000 SEED=$$(date +%Y%m%d)

MUTANTS_VERSION := 27.1.0
MUTANTS := $(TOOLS_BUILT)/bin/cargo-mutants
# The tests that judge what the core does, and not how its sources are written.
JUDGES := plan_vectors worked_examples refused parity on_the_mark plan_properties quantity working sheet documents

$(MUTANTS):
	$(call install_tool,cargo-mutants@$(MUTANTS_VERSION))

FILE ?= mixcalc/src/quantity/close.rs

# First the tests as they stand: a tree that fails without a change would find every change. Survivors (status 2) are to be
# read, beside docs/mutants.md.
.PHONY: mutants
mutants: $(MUTANTS) ## For the patient: each small change of a source must fail a test: FILE=path
	cargo test --quiet --locked --package mixcalc-tests $(JUDGES:%=--test=%)
	NEXTEST_PROFILE=mutants $(MUTANTS) mutants --package mixcalc --file '$(FILE)' --test-package mixcalc-tests \
	--test-tool $$(if cargo nextest --version >/dev/null 2>&1; then echo nextest; else echo cargo; fi) \
	--baseline skip --profile mutants --timeout 600 --cap-lints true --output $(CARGO_TARGET_DIR) \
	-C=--locked $(JUDGES:%=-C=--test=%) || test $$? = 2

##@ Parts

.PHONY: header
header: ## Write the C header anew from the sources
	MIXCALC_WRITE_HEADER=1 cargo test --quiet --package mixcalc-ffi --test header

.PHONY: rust-plan
rust-plan:
	cargo build --release --locked --package mixcalc --examples

.PHONY: c-plan
c-plan: ## The C library and the program that tests it
	cargo build --release --locked --package mixcalc-ffi
	$(call compile_c_plan,release)

.PHONY: wheel
wheel: $(TOOLS)/ready ## The Python wheel
	rm -rf $(WHEELS)
	$(TOOLS)/bin/maturin build --release --locked --manifest-path mixcalc-py/Cargo.toml --out $(WHEELS)

.PHONY: installed
installed: wheel
	$(PYTHON) -m venv --clear $(INSTALLED)
	$(INSTALLED)/bin/pip install --quiet --requirement tests/requirements.txt $(WHEELS)/*.whl

$(TOOLS)/ready: tests/requirements.txt
	$(PYTHON) -m venv --clear $(TOOLS)
	$(TOOLS)/bin/pip install --quiet --requirement tests/requirements.txt
	touch $@

.PHONY: clean
clean: ## Remove all that was built and installed
	cargo clean
	rm -rf $(TOOLS)

.PHONY: help
help: ## This list
	@awk 'BEGIN {FS = ":.*## "} /^##@/ {printf "\n%s\n", substr($$0, 5)} \
		/^[a-z-]+:.*## / {printf "  make %-14s %s\n", $$1, $$2}' $(MAKEFILE_LIST)
