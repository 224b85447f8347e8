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
	const wanted = "a case saved by Split Tally"
	n, err := document.ParseJSON(text)
	if err != nil {
		return Case{}, []remark.Problem{{Found: err.Error(), Wanted: wanted}}
	}
	version, ok := n.Get("splittally")
	switch {
	case !ok:
		return Case{}, []remark.Problem{{Found: "JSON of another kind", Wanted: wanted + ", which begins with its version"}}
	case version.Text != FileVersion:
		return Case{}, []remark.Problem{{Path: "splittally", Found: version.Text, Wanted: "version " + FileVersion + "; this file is from another version of the program"}}
	}
	var e envelope
	if problems := document.Read(n, e.fields); len(problems) > 0 {
		return Case{}, problems
	}
	return e.c, nil
}
