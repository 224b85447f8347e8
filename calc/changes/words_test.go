package changes

import (
	"html"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"splittally/calc"
	"splittally/calc/document"
)

// allFields gives the paths of all fields of a case, * for each place in a list.
func allFields() (paths []string) {
	var c calc.Case
	var fill func(v reflect.Value)
	fill = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.String:
			v.SetString("1")
		case reflect.Slice:
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
			fill(v.Index(0))
		case reflect.Struct:
			for i := range v.NumField() {
				fill(v.Field(i))
			}
		}
	}
	fill(reflect.ValueOf(&c).Elem())
	for path := range document.Flatten(document.Write(c.Fields)).Texts {
		paths = append(paths, general(path))
	}
	return paths
}

func TestEveryFieldHasItsWords(t *testing.T) {
	known := map[string]bool{"today": true, "answers.*.question": true, "answers.*.choice": true}
	for _, path := range allFields() {
		if !known[path] && wordsOf(fields, path)[0] == "" {
			t.Errorf("%s has no words", path)
		}
		known[path] = true
	}
	for _, line := range strings.Split(fields, "\n") {
		if path, _, _ := strings.Cut(line, "|"); !known[path] {
			t.Errorf("no case has the field %s", path)
		}
	}
	for path := range known {
		for i := range path {
			if strings.HasPrefix(path[i:], ".*.") && !strings.HasPrefix(path, "answers") && wordsOf(places, path[:i+2])[0] == "" {
				t.Errorf("%s has no words", path[:i+2])
			}
		}
	}
}

// The words are the page's: the labels of its fields, and what its choices are
// called.
func TestWordsAreThoseOfThePage(t *testing.T) {
	b, err := os.ReadFile("../../static/index.html")
	if err != nil {
		t.Fatal(err)
	}
	page := string(b)
	labels := map[string]string{}
	for _, m := range regexp.MustCompile(`(?s)<label for="([^"]+)">(.*?)</label>`).FindAllStringSubmatch(page, -1) {
		labels[m[1]] = m[2]
	}
	for _, m := range regexp.MustCompile(`<span id="([^"]+)">([^<]*)</span>`).FindAllStringSubmatch(page, -1) {
		labels[m[1]] = m[2]
	}
	seen := map[string]bool{}
	number := regexp.MustCompile(`-[0-9]+(-|$)`)
	for _, m := range regexp.MustCompile(`(?s)<(input|textarea|select)([^>]*data-field="([^"]+)"[^>]*)>`).FindAllStringSubmatchIndex(page, -1) {
		attrs := page[m[4]:m[5]]
		id := regexp.MustCompile(`id="([^"]+)"`).FindStringSubmatch(attrs)[1]
		path := pathOf(number.ReplaceAllString(id, ".*.$1"), page[m[6]:m[7]])
		label := labels[id]
		if by := regexp.MustCompile(`aria-labelledby="(\S+)`).FindStringSubmatch(attrs); by != nil {
			label, _, _ = strings.Cut(labels[by[1]], ", ")
			if strings.Contains(path, "periods") || strings.Contains(path, "up-to") {
				label = strings.TrimSuffix(labels[by[1]], ", kWh")
			}
		}
		words := wordsOf(fields, path)
		seen[path] = true
		if label, _, _ = strings.Cut(html.UnescapeString(label), " <span"); label != "" && small(label) != words[0] {
			t.Errorf("%s: %q on the page, %q here", path, label, words[0])
		}
		if page[m[2]:m[3]] != "select" {
			continue
		}
		end := m[1] + strings.Index(page[m[1]:], "</select>")
		for _, o := range regexp.MustCompile(`<option value="([^"]+)"[^>]*>([^<]*)`).FindAllStringSubmatch(page[m[1]:end], -1) {
			want := strings.ReplaceAll(html.UnescapeString(o[2]), "\u00a0", " ")
			if got := shown(path, o[1]); got != want {
				t.Errorf("%s, choice %s: %q on the page, %q here", path, o[1], want, got)
			}
		}
	}
	for _, line := range strings.Split(fields, "\n") {
		if path, _, _ := strings.Cut(line, "|"); !seen[path] {
			t.Errorf("%s was not found on the page", path)
		}
	}
}

// pathOf makes the general path of the id of a field, whose name may hold a dash.
func pathOf(id, field string) string {
	group := strings.TrimSuffix(strings.TrimSuffix(id, field), "-")
	group = strings.ReplaceAll(strings.Trim(group, "."), "-", ".")
	group = strings.ReplaceAll(group, "..", ".")
	if group == "" {
		return field
	}
	return group + "." + field
}

func small(label string) string {
	r := []rune(label)
	if len(r) > 1 && !unicode.IsUpper(r[1]) {
		r[0] = unicode.ToLower(r[0])
	}
	return string(r)
}
