//go:build !js

package main

import (
	"fmt"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A program that panics, grows its stacks and collects its garbage finds all its
// functions by the table that is written in.
func TestTableWrittenIn(t *testing.T) {
	one, two := partedProgram(t, "main.door")
	whole, err := os.ReadFile(one)
	if err != nil {
		t.Fatal(err)
	}
	version, err := goEnv("GOVERSION")
	if err != nil {
		t.Fatal(err)
	}
	less, table, err := withoutBuckets(whole, version)
	if err != nil {
		t.Fatal(err)
	}
	if table.count < 16*1000 || len(whole)-len(less) < table.count*bucketSize*9/10 {
		t.Errorf("%d bytes became %d without a table of %d", len(whole), len(less), table.count)
	}
	if err := os.WriteFile(one, less, 0o600); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(partsSay, runNode(t, fmt.Sprintf("TABLE=%d %d", table.at, table.count), one, two)); diff != "" {
		t.Error(diff)
	}
}

func TestTableOfAnotherGo(t *testing.T) {
	one, _ := partedProgram(t, "main.door")
	whole, err := os.ReadFile(one)
	if err != nil {
		t.Fatal(err)
	}
	if got, table, err := withoutBuckets(whole, "go1.99"); err != nil || len(got) != len(whole) || table.count != 0 {
		t.Errorf("%d bytes became %d, %v, error %v", len(whole), len(got), table, err)
	}
	if _, _, err := withoutBuckets(whole[:len(whole)/2], linesKnown); err == nil {
		t.Error("half a module has a table")
	}
}
