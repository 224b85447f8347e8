package main

import (
	"bytes"
	"encoding/binary"
)

// A bucket is what runtime finds a function by (runtime.findfuncbucket): for each
// 4,096 places in the code the number of the function that they begin in, and of
// each sixteenth of them how many functions later it is. A function of
// WebAssembly takes up 65,536 places, so that every sixteen buckets have the next
// number and nothing else.
const (
	bucketSize = 20
	bucketStep = 16
)

// counted is such a table of count buckets, which the page writes at a place in the
// engine's memory before that runs. Carried along, it was three tenths of the first
// part of the engine, unpacked. Without it runtime counts from the first function on
// each time, and is as right, but slow.
type counted struct{ at, count int }

// withoutBuckets leaves that table out of a module, if it knows the version of Go
// and each bucket is as it ought to be.
func withoutBuckets(module []byte, version string) ([]byte, counted, error) {
	var table counted
	if !knows(version) {
		return module, table, nil
	}
	sections, err := sectionsOf(module)
	if err != nil {
		return nil, table, err
	}
	for i, s := range sections {
		if s.id != dataSection {
			continue
		}
		memory, err := initialMemory(s.body)
		if err != nil {
			return nil, table, err
		}
		if table, err = findBuckets(memory); err != nil {
			return nil, table, err
		}
		clear(memory[table.at : table.at+table.count*bucketSize])
		sections[i].body = pieces(memory)
	}
	return moduleFrom(sections), table, nil
}

func findBuckets(memory []byte) (counted, error) {
	t, err := findTables(memory)
	if err != nil {
		return counted{}, err
	}
	m, err := findModuleData(memory, t.at)
	if err != nil {
		return counted{}, err
	}
	table := counted{at: m.gofuncEnd, count: (m.tablesEnd - m.gofuncEnd) / bucketSize}
	if table.at%4 != 0 {
		return counted{}, errTables
	}
	want := make([]byte, bucketSize)
	for i := range table.count {
		binary.LittleEndian.PutUint32(want, uint32(i/bucketStep))
		if !bytes.Equal(memory[table.at+i*bucketSize:][:bucketSize], want) {
			return counted{}, errTables
		}
	}
	return table, nil
}
