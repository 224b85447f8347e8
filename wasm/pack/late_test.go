//go:build !js

package main

import (
	"strings"
	"testing"
)

func TestIsDoor(t *testing.T) {
	doors := []string{"rooms/page.(*page).wake"}
	for name, want := range map[string]bool{
		"rooms/page.(*page).wake":         true,
		"rooms/page.(*page).wake.func2.1": true,
		"rooms/page.(*page).wakeful":      false,
		"rooms/page.(*page)":              false,
		"rooms/page.wake":                 false,
		"":                                false,
	} {
		if got := isDoor(name, doors); got != want {
			t.Errorf("isDoor(%q) = %v", name, got)
		}
	}
}

// A door that nobody has any more would let all of the engine into its first part.
func TestNoSuchDoor(t *testing.T) {
	if testing.Short() {
		t.Skip("builds a program")
	}
	p, version := builtProgram(t, t.TempDir()+"/parts.wasm")
	if _, err := lateFuncs(p, version, []string{"main.gate"}); err == nil || !strings.Contains(err.Error(), "main.gate") {
		t.Errorf("error %v", err)
	}
}

// Rooms of the engine that come with its second part, as whole as Go lets them:
// what a package does when the program begins is in the first.
var lateRooms = []string{
	"splittally/calc/sound", "splittally/calc/onset", "splittally/calc/rhythm", "github.com/hajimehoshi/go-mp3", // recordings
	"splittally/calc/interval", "splittally/calc/table", "splittally/calc/espi", "splittally/calc/series", // files
	"splittally/calc/cause", "splittally/calc/correct", "splittally/calc/tariff", "splittally/calc/account", "splittally/calc/gain",
	"splittally/calc/report", "splittally/calc/link", "splittally/calc/changes", "splittally/calc/load",
}

// A little more than there is now, in bytes of code: something that calls a late
// room from where the page can come at once would be noticed here.
const mostEarly = 6_000

func TestEngineIsPartedByRooms(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the engine")
	}
	p, version, err := compile("../..")
	if err != nil {
		t.Fatal(err)
	}
	late, err := lateFuncs(p, version, doors)
	if err != nil {
		t.Fatal(err)
	}
	tables, err := findTables(p.memory)
	if err != nil {
		t.Fatal(err)
	}
	names, err := tables.namesOf(len(p.bodies))
	if err != nil {
		t.Fatal(err)
	}
	early := map[string]int{}
	for f, name := range names {
		for _, room := range lateRooms {
			if rest, ok := strings.CutPrefix(name, room+"."); ok && !late[f] && !strings.HasPrefix(rest, "init") && !strings.HasPrefix(rest, "map.init") {
				early[room] += len(p.bodies[f])
			}
		}
		if wants := name == "splittally/calc/intake.Read" || name == "splittally/calc.(*Memory).Verdict"; wants && late[f] {
			t.Errorf("%s is in the second part", name)
		}
	}
	for room, size := range early {
		if size > mostEarly {
			t.Errorf("%d bytes of the code of %s are in the first part", size, room)
		}
	}
	t.Log(early)
}

func FuzzParting(f *testing.F) {
	f.Add(moduleFrom([]rawSection{
		{importSection, []byte{0}},
		{functionSection, []byte{1, 0}},
		{tableSection, []byte{1, funcref, 0, 1}},
		{memorySection, []byte{1, 0, 1}},
		{exportSection, []byte{1, 1, 'a', kindFunc, 0}},
		{codeSection, []byte{1, 4, 0, opCall, 0, opEnd}},
	}), linesKnown)
	f.Add(twoCalls, "")
	f.Fuzz(func(t *testing.T, module []byte, version string) {
		p, err := readProgram(module)
		if err != nil {
			t.Skip()
		}
		late, err := lateFuncs(p, version, nil)
		if err != nil {
			t.Skip()
		}
		first, _, err := split(p, late, version)
		if err != nil {
			t.Skip()
		}
		early := 0
		for _, is := range late {
			early += 1 - part(is)
		}
		if one, err := readProgram(first); err != nil || len(one.bodies) != early {
			t.Errorf("the first part should have %d functions: %v", early, err)
		}
	})
}
