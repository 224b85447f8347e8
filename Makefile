# Split Tally: the commands, each with its reason. make run is the first to try.
#
# Go (see go.mod) and make are all that has to be there; what else a command
# needs it installs itself on a Debian machine, as root or with sudo.

# Long household series for the trials, too big for the repository. Tests that
# want them are skipped with a message when there are none.
SPLITTALLY_TRIALS ?= $(realpath ../shared/data)
export SPLITTALLY_TRIALS

# A command whose left half fails must fail as a whole.
SHELL = bash
.SHELLFLAGS = -o pipefail -c

# The engine's platform. It is set for single commands, never exported: a tool
# that is built while it is set would be built for the browser too.
JS = GOOS=js GOARCH=wasm

# What runs in the browser but needs no browser to be tested.
ENGINE = ./calc/... $(wildcard ./wasm/view ./wasm/form ./wasm/shelf)

.PHONY: run dist test browsers lint pure golden fuzz kills bench size pictures

## run: build the page and show it on http://127.0.0.1:8765/ (PORT=… for another)
PORT ?= 8765
run: dist
	go run ./wasm/serve -port $(PORT)

## dist: dist/site/ to host, dist/splittally.html to keep and to open from disk
dist:
	go run ./wasm/pack

## test: everything: native, in real browsers, and the core as WebAssembly
# vet runs twice because each platform has files that the other does not see.
# The core runs under Node too, since that is the arithmetic people get. There
# the environment is cut down: Go's loader allows it 8 kB. -short, because the
# long trials prove nothing more the second time.
test: browsers
	go vet ./...
	$(JS) go vet ./...
	go test -timeout 25m ./...
	$(JS) go test -short -exec="env -i PATH=$$PATH HOME=$$HOME TMPDIR=$${TMPDIR:-/tmp} $$(go env GOROOT)/lib/wasm/go_js_wasm_exec" $(ENGINE)

## browsers: install the browsers, Node, axe-core and what makes recordings, if any is missing
# axe-core looks for barriers in the page. It comes without package.json or lock
# file: one exact version that needs nothing else, and no address to commit.
# lame makes MP3 for the tests, mpg123 is the decoder that ours is held against.
AXE = wasm/tools/node_modules/axe-core/axe.min.js
browsers: $(AXE)
	@wasm/tools/install.sh chromium firefox-esr WebKitWebDriver Xvfb node lame mpg123

$(AXE):
	@wasm/tools/install.sh node npm
	npm install --silent --no-save --no-package-lock --no-audit --no-fund --ignore-scripts --prefix wasm/tools axe-core@4.14.1

## lint: form, vet and staticcheck, for both platforms; and the core's imports
# gofumpt and staticcheck have a go.mod of their own, so that what they need is
# no part of the program. Their paths are asked for before the platform is set.
lint: pure
	@staticcheck=$$(go -C wasm/tools tool -n staticcheck) && gofumpt=$$(go -C wasm/tools tool -n gofumpt) && \
	echo gofumpt && unformed=$$($$gofumpt -l .) && \
	{ test -z "$$unformed" || { echo "not formed as gofumpt would (gofumpt -w mends it):"; echo "$$unformed"; exit 1; }; } && \
	echo vet && go vet ./... && $(JS) go vet ./... && go -C wasm/tools vet ./... && \
	echo staticcheck && $$staticcheck ./... && $(JS) $$staticcheck ./...

## pure: the core does no I/O and stays small; wasm/tools/pure.awk has the rules
# Direct imports only: fmt itself imports os, and decimal a database interface.
IMPORTS = go list -f '{{$$p := .ImportPath}}{{range .Imports}}{{$$p}} {{.}}{{"\n"}}{{end}}'
pure:
	@{ $(IMPORTS) ./calc/... && $(JS) $(IMPORTS) $$($(JS) go list -deps ./calc/... ./wasm | grep '^splittally'); } | sort -u | awk -f wasm/tools/pure.awk
	@! grep -rnE --include='*.go' --exclude='*_test.go' '\brand\.(Int|Uint|Float|Norm|Exp|Perm|Shuffle|N\()' calc || \
	{ echo "the core may use random numbers only from a source it seeds from the case: rand.New(rand.NewPCG(…))"; exit 1; }

## golden: write the golden files anew and show what changed; read it, then commit
golden:
	rooms=$$(grep -rlE --include='*_test.go' 'flag\.Bool\("update"' calc wasm | xargs -r -n1 dirname | sort -u | sed 's|^|./|') && \
	go test $$rooms -update
	git diff --stat

## fuzz: each fuzz target for FUZZTIME; what it finds is kept in testdata/fuzz
FUZZTIME ?= 30s
fuzz:
	@grep -rnoE --include='*_test.go' '^func Fuzz[A-Za-z0-9_]*' calc wasm | sed -E 's|^(.*)/[^/]*:[0-9]+:func (.*)$$|./\1 \2|' | sort | \
	while read -r room target; do \
		echo "$$room $$target" && go test -run '^$$' -fuzz "^$$target\$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 100x "$$room" || exit 1; \
	done

## kills: kill the page's tab at 200 keys and see what is lost; make test does 12
kills: browsers
	go test -count=1 -timeout 60m -run '^TestKilledAtAnyKey$$' ./wasm/e2e -kills 200

## bench: the core's benchmarks; in a browser, keys and files beside other readers
# The peers come by npm into a git-ignored folder, like axe-core; what is not to
# be had is left out of the race with a word. It takes half an hour.
PEERS = wasm/tools/peers/node_modules/.package-lock.json
bench: browsers $(PEERS)
	@/usr/bin/python3 -c 'import pandas' 2>/dev/null || wasm/tools/install.sh python3-pandas || echo "pandas is left out"
	go test -run '^$$' -bench . -benchmem $(ENGINE)
	go test -run '^$$' -bench . -benchtime 1x -timeout 60m ./wasm/e2e

$(PEERS): wasm/tools/peers/package.json
	@wasm/tools/install.sh node npm
	npm install --silent --no-package-lock --no-audit --no-fund --ignore-scripts --prefix wasm/tools/peers
	@touch $@

## size: bytes of what is handed out, and what each dependency costs
size: dist
	go -C wasm/tools run ./size -root ../..

## pictures: take the README's pictures of the page anew
pictures: browsers
	go test -count=1 -run '^TestPictures$$' ./wasm/e2e -pictures
