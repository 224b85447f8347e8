package calc

import (
	"splittally/calc/document"
	"splittally/calc/remark"
)

// FileVersion is the version of the saved document. It rises when a field
// changes its meaning; a new field alone does not need it.
const FileVersion = "1"

// envelope is a saved case with the mark that tells it from other files.
type envelope struct {
	version string
	c       Case
}

func (e *envelope) fields(f *document.Fields) {
	f.Text("splittally", &e.version)
	e.c.Fields(f)
}

// Save gives the case as the text of a file: JSON, readable and stable.
func Save(c Case) string {
	e := envelope{version: FileVersion, c: c}
	return document.JSON(document.Write(e.fields))
}

// Open reads the text of a saved file. A file that does not fit in full is
// refused with all that is wrong in it, so that nothing is half opened.
func Open(text string) (Case, []remark.Problem) {
	var e envelope
	if problems := open(text, "splittally", FileVersion, "a case saved by Split Tally", e.fields); len(problems) > 0 {
		return Case{}, problems
	}
	return e.c, nil
}

// open reads a file whose first field is a mark with the version as its text.
func open(text, mark, version, wanted string, fields func(*document.Fields)) []remark.Problem {
	n, err := document.ParseJSON(text)
	if err != nil {
		return []remark.Problem{{Found: err.Error(), Wanted: wanted}}
	}
	switch found, ok := n.Get(mark); {
	case !ok:
		return []remark.Problem{{Found: "JSON of another kind", Wanted: wanted + ", which begins with its version"}}
	case found.Text != version:
		return []remark.Problem{{Path: mark, Found: found.Text, Wanted: "version " + version + "; this file is from another version of the program"}}
	}
	return document.Read(n, fields)
}
