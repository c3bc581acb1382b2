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

# The C and C++ faces: the library as it is built, as it is installed for the tests, and the programs that test it.
VERSION := $(shell sed -n 's/^version = "\(.*\)"/\1/p' Cargo.toml)
ABI := $(shell sed -n 's/^pub const MIXCALC_ABI_VERSION: u32 = \(.*\);/\1/p' mixcalc-ffi/src/version.rs)
PREFIX ?= /usr/local
C_BUILD := $(CARGO_TARGET_DIR)/c
PACKAGE := $(CARGO_TARGET_DIR)/package
C_PROGRAMS := $(CARGO_TARGET_DIR)/c-programs
BINDINGS = MIXCALC_C_PROGRAMS=$(C_PROGRAMS) MIXCALC_C_PACKAGE=$(PACKAGE) MIXCALC_RUST_EXAMPLES=$(RELEASE)/examples CC="$(CC)" CXX="$(CXX)"
STRICT := -Wall -Wextra -Wpedantic -Werror -g

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
test-bindings: installed c-programs rust-plan ## The wheel in a new environment and programs in C, against Rust
	$(BINDINGS) \
	$(INSTALLED)/bin/pytest -q -p no:cacheprovider tests --ignore tests/bindings/extra
	cd $(INSTALLED) && MYPY_CACHE_DIR=$(CARGO_TARGET_DIR)/mypy bin/stubtest mixcalc

COUNT ?= 10000
SEED ?= 1

.PHONY: witness
witness: rust-plan ## Check the plans of random jobs by exact fractions: COUNT=number SEED=number
	$(PYTHON) tests/witness/jobs.py $(COUNT) $(SEED) | $(RELEASE)/examples/plan_lines | $(PYTHON) tests/witness/witness.py --lines

.PHONY: load-sizes
load-sizes: rust-plan ## How often another size of loads helps with an amount that is hard to measure: COUNT=number SEED=number
	$(PYTHON) tests/witness/load_sizes.py $(COUNT) $(SEED) $(RELEASE)/examples/plan_lines

# valgrind reads the debug library: an optimizer may test a value before it tests whether there is one.
.PHONY: test-extra
test-extra: gate test-c-extra test-valgrind test-sanitized sdist ## What needs more: a C++ compiler, CMake, Java, abidiff, valgrind, a nightly

.PHONY: test-c-extra
test-c-extra: installed c-programs
	$(BINDINGS) $(INSTALLED)/bin/pytest -q -p no:cacheprovider tests/bindings/extra

# The programs of the C tests, each in every way, behind a command; the last two must be caught, so that silence says something.
tried = $(1)/vectors >/dev/null; $(1)/columns 5000 2 >/dev/null; \
	$(1)/border docs/examples/demo.toml $(C_PROGRAMS)/stopped.toml docs/examples/calibrated.toml; \
	for job in docs/examples/demo.toml $(C_PROGRAMS)/stopped.toml; \
	do for how in --view --pages; do $(1)/plan $$how $$job >/dev/null; done; done; \
	for fault in overrun leak; do if $(1)/careless $$fault >/dev/null 2>&1; then echo "not seen: $$fault" >&2; exit 1; fi; done

.PHONY: test-valgrind
test-valgrind: c-programs
	cargo build --locked --package mixcalc-ffi
	ln -sf libmixcalc_ffi.so $(CARGO_TARGET_DIR)/debug/libmixcalc.so.$(ABI)
	export LD_LIBRARY_PATH=$(CARGO_TARGET_DIR)/debug; \
	$(call tried,valgrind --quiet --leak-check=full --suppressions=tests/bindings/valgrind.supp --error-exitcode=9 $(C_PROGRAMS))

# gcc's own sanitizer does not see into a Rust library; the nightly's does, with its runtime linked whole.
NIGHTLY ?= $(firstword $(wildcard $(HOME)/.rustup/toolchains/nightly-*))
SANITIZED := $(CARGO_TARGET_DIR)/sanitized

.PHONY: test-sanitized
ifeq ($(wildcard $(NIGHTLY)/bin/cargo),)
test-sanitized:
	@echo "no nightly toolchain here (NIGHTLY=folder): the C programs were not run under sanitizers"
else
test-sanitized: host = $(patsubst nightly-%,%,$(notdir $(NIGHTLY)))
test-sanitized: c-programs
	PATH="$(NIGHTLY)/bin:$$PATH" RUSTFLAGS=-Zsanitizer=address $(NIGHTLY)/bin/cargo build --locked --package mixcalc-ffi \
		--target $(host) --target-dir $(SANITIZED)
	for program in plan border vectors columns extra/careless; \
	do $(CC) -std=c11 -g -fsanitize=undefined -fno-sanitize-recover=all -Imixcalc-ffi/include -I$(C_PROGRAMS) tests/bindings/$$program.c \
		$(SANITIZED)/$(host)/debug/libmixcalc_ffi.a -Wl,--whole-archive \
		$(NIGHTLY)/lib/rustlib/$(host)/lib/librustc-nightly_rt.asan.a -Wl,--no-whole-archive \
		-lgcc_s -lutil -lrt -lpthread -lm -ldl -lstdc++ -o $(SANITIZED)/$$(basename $$program); done
	$(call tried,$(SANITIZED))
endif

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

.PHONY: bench-python
bench-python: installed ## A plan in Python beside the same sums written with pint
	$(INSTALLED)/bin/python benches/python/plan_beside_pint.py

.PHONY: bench-monte-carlo
bench-monte-carlo: installed ## Monte Carlo beside the same in numpy
	cargo build --release --locked --package mixcalc-benches --example monte_carlo
	$(INSTALLED)/bin/python benches/python/monte_carlo_beside_numpy.py $(RELEASE)/examples/monte_carlo

.PHONY: bench-columns
bench-columns: installed rust-plan c-programs ## Columns beside numpy, polars and a copy of the same streams; the hash of 10^7 hostile rows
	POLARS_MAX_THREADS=1 $(INSTALLED)/bin/python benches/python/columns.py
	$(RELEASE)/examples/column_hash 10000000
	$(C_PROGRAMS)/columns 10000000 | sha256sum

.PHONY: bench-dask
bench-dask: installed ## Plain plans on a Dask cluster of processes on this machine: ROWS=number WORKERS=number
	$(INSTALLED)/bin/python benches/python/columns_on_dask.py $(or $(ROWS),10000000) $(or $(WORKERS),2)

.PHONY: bench-c
bench-c: package ## Cost of the C interface beside plain C: nanoseconds, instructions; needs valgrind
	$(CC) -std=c11 -O2 $(STRICT) -I$(PACKAGE)/include benches/c/cost.c -L$(PACKAGE)/lib -lmixcalc -Wl,-rpath,$(PACKAGE)/lib \
		-o $(CARGO_TARGET_DIR)/c-cost
	$(PYTHON) benches/c/cost.py $(CARGO_TARGET_DIR)/c-cost docs/examples/demo.toml

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
	cargo build --release --locked --package mixcalc --features columns --examples

# Places in messages of a fault are those of the sources, not of the machine.
sources := $(wildcard $(or $(CARGO_HOME),$(HOME)/.cargo)/registry/src/*/)
unplaced := $(sources:%=--remap-path-prefix=%=) --remap-path-prefix=$(CURDIR)/=

.PHONY: c-library
c-library: ## The C library, shared and static
	RUSTFLAGS="$(RUSTFLAGS) $(unplaced)" cargo build --profile c --locked --package mixcalc-ffi

# Relocatable: the files of pkg-config and CMake find the rest from where they lie.
to = $(DESTDIR)$(PREFIX)
fill_in = sed -e 's/@VERSION@/$(VERSION)/g' -e 's/@ABI@/$(ABI)/g'

.PHONY: install
install: c-library ## Install headers, libraries, pkg-config and CMake files: PREFIX=path
	install -d "$(to)/include" "$(to)/lib/pkgconfig" "$(to)/lib/cmake/mixcalc"
	install -m 644 mixcalc-ffi/include/mixcalc.h mixcalc-ffi/include/mixcalc.hpp "$(to)/include"
	install -m 755 -s $(C_BUILD)/libmixcalc_ffi.so "$(to)/lib/libmixcalc.so.$(VERSION)"
	ln -sf libmixcalc.so.$(VERSION) "$(to)/lib/libmixcalc.so.$(ABI)"
	ln -sf libmixcalc.so.$(ABI) "$(to)/lib/libmixcalc.so"
	install -m 644 $(C_BUILD)/libmixcalc_ffi.a "$(to)/lib/libmixcalc.a"
	strip --strip-debug "$(to)/lib/libmixcalc.a"
	$(fill_in) mixcalc-ffi/package/mixcalc.pc.in >"$(to)/lib/pkgconfig/mixcalc.pc"
	for file in mixcalc-config mixcalc-config-version; \
	do $(fill_in) mixcalc-ffi/package/$$file.cmake.in >"$(to)/lib/cmake/mixcalc/$$file.cmake"; done

.PHONY: package
package:
	rm -rf $(PACKAGE)
	$(MAKE) --no-print-directory install DESTDIR= PREFIX=$(PACKAGE)

.PHONY: c-programs
c-programs: package ## The C library as it is installed, and the programs that test it
	mkdir -p $(C_PROGRAMS)
	$(PYTHON) tests/bindings/vectors.py >$(C_PROGRAMS)/vectors.h
	sed 's|^dose = "1.2 L/ha"|dose = "1.3 L/ha"|' docs/examples/demo.toml >$(C_PROGRAMS)/stopped.toml
	for program in plan border vectors columns extra/careless; \
	do $(CC) -std=c11 $(STRICT) -I$(PACKAGE)/include -I$(C_PROGRAMS) tests/bindings/$$program.c -pthread \
		-L$(PACKAGE)/lib -lmixcalc -Wl,-rpath,$(PACKAGE)/lib -o $(C_PROGRAMS)/$$(basename $$program); done

.PHONY: wheel
wheel: $(TOOLS)/ready ## The Python wheel
	rm -rf $(WHEELS)
	$(TOOLS)/bin/maturin build --release --locked --manifest-path mixcalc-py/Cargo.toml --out $(WHEELS)

.PHONY: sdist
sdist: $(TOOLS)/ready ## The source distribution of the Python package, built into a wheel as pip would
	rm -rf $(CARGO_TARGET_DIR)/sdist
	$(TOOLS)/bin/maturin sdist --manifest-path mixcalc-py/Cargo.toml --out $(CARGO_TARGET_DIR)/sdist
	$(PYTHON) -m venv --clear $(CARGO_TARGET_DIR)/sdist/venv
	$(CARGO_TARGET_DIR)/sdist/venv/bin/pip install --quiet $(CARGO_TARGET_DIR)/sdist/mixcalc-*.tar.gz
	cd $(CARGO_TARGET_DIR)/sdist && venv/bin/python -m mixcalc plan --json $(CURDIR)/docs/examples/demo.toml >/dev/null

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
