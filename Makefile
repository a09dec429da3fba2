# make run       open the app (without a display: rehearse a check in the terminal)
# make test      everything that must hold, in minutes
# make prove     the same at full width: every size, every rule extreme
# make bench     start, tap, memory, sizes against a bare window; the strip; the simulator against time
# make views     the golden views anew, to be read over
# make pictures  a picture of every card, into pictures/
# Rust, Node.js, git and make are given; what else is missing is installed (root) or named (others).
SHELL := /bin/bash
.NOTPARALLEL:
.PHONY: run app page tools test prove bench views pictures fmt clippy rust ui layout flows

TARGET := $(or $(CARGO_TARGET_DIR),target)
PART := @.ci/part
# What tests need besides Rust is installed here: a test that lacks it fails instead of passing untried.
export HOLDFAST_TOOLS ?= given
# The whole workspace at once, the app among it with the test clock: everything is compiled once.
WHOLE := --workspace --features holdfast/test-clock
# Properties draw the same cases at each `make test`, others at each `make prove`.
DRAWN := env PROPTEST_RNG_SEED=1
DRAWN_ANEW := env PROPTEST_CASES=2000 PROPTEST_MAX_GLOBAL_REJECTS=1000000
# Flows mostly wait for watches to pass: more of them at once than there are processors.
FLOWS_AT_ONCE := 4
WINDOW_PACKAGES := build-essential pkg-config libwebkit2gtk-4.1-dev
TEST_PACKAGES := $(WINDOW_PACKAGES) webkit2gtk-driver xvfb dbus-daemon fonts-dejavu-core zbar-tools zxing-cpp-tools poppler-utils imagemagick xdotool strace

run:
	@.ci/launch

# The app with the page inside it.
app: page
	@.ci/packages $(WINDOW_PACKAGES)
	cargo build -q -p holdfast

page: ui/dist/index.html

PAGE_SOURCES := $(shell find ui -path ui/node_modules -prune -o -path ui/tests -prune -o -path 'ui/dist*' -prune -o -type f -print)

ui/dist/index.html: ui/node_modules/.package-lock.json $(PAGE_SOURCES)
	npm --prefix ui run --silent build

ui/node_modules/.package-lock.json: ui/package.json ui/package-lock.json
	@.ci/node
	npm --prefix ui ci --no-audit --no-fund --loglevel=error
	@touch $@

tools:
	@.ci/node
	@.ci/packages $(TEST_PACKAGES)

test: tools fmt ui clippy rust layout flows

fmt:
	$(PART) "format" cargo fmt --all --check

ui: ui/node_modules/.package-lock.json
	$(PART) "page: types" npm --prefix ui run --silent check
	$(PART) "page: build" $(MAKE) -s page
	$(PART) "page: tests" npm --prefix ui run --silent test

clippy: page
	$(PART) "clippy" cargo clippy -q $(WHOLE) --all-targets -- -D warnings

# One of the tests writes the page's types. Leaves the programs that the flows drive.
rust: tools page
	$(PART) "rust: compile" cargo test -q $(WHOLE) --no-run
	$(PART) "rust tests" .ci/contract $(DRAWN) cargo test $(WHOLE)

layout: tools
	$(PART) "layout" node --test tests/browser/layout.mjs

flows: tools page
	$(PART) "programs of the flows" cargo test -q $(WHOLE) --no-run
	$(PART) "flows through the real app" node --test --test-concurrency=$(FLOWS_AT_ONCE) tests/browser/flows/*.test.mjs

prove: tools page flows
	$(PART) "rust, full width" cargo test $(WHOLE) -- --ignored --skip explore
	$(PART) "properties, drawn anew" $(DRAWN_ANEW) cargo test -q -p domain -p domain-tests -p simulator -p seal -p signoff -p handover -p journal
	$(PART) "layout, full width" env LAYOUT=all node --test tests/browser/layout.mjs

bench: tools page
	$(PART) "release build" cargo build -q --release -p holdfast --example bare --example bench --bin holdfast
	@.ci/part "bench of the app" node tests/browser/bench.mjs; app=$$?; \
	.ci/part "bench of the strip" node tests/browser/bench-strip.mjs; strip=$$?; \
	.ci/part "bench of the simulator" .ci/speed && exit $$((app | strip))

views:
	$(PART) "golden views" env HOLDFAST_WRITE_VIEWS=1 cargo test -q -p holdfast-tests golden
	@git status --short scenarios/views

pictures: tools app
	$(PART) "pictures" node tests/browser/pictures.mjs
