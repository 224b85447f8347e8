//go:build !js

package main

import (
	"crypto/sha256"
	"encoding/base64"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const smallPage = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<!-- policy -->
<title>Small</title>
<link rel="icon" href="icon.svg">
<link rel="manifest" href="manifest.webmanifest">
<link rel="apple-touch-icon" href="icon-180.png">
<link rel="stylesheet" href="style.css">
<script src="boot.js"></script>
</head>
<body><a href="#end">on</a><!-- version --><!-- scripts --></body>
</html>
`

const smallIcon = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64"><rect width="64" height="64" rx="12" fill="#f6efdf"/>
<g stroke="#3a2233" stroke-width="2" stroke-linejoin="round"><path d="M8 16H56V48H8Z" fill="#b8862f"/></g></svg>`

func small(t *testing.T) parts {
	t.Helper()
	engine, err := squeeze([]byte("\x00asm engine"))
	if err != nil {
		t.Fatal(err)
	}
	p := parts{
		page: smallPage, style: "body { margin: 0 }\n", shut: "shut();\n", boot: "start();\n", script: "class Go {}\n",
		icon: smallIcon, engine: [][]byte{engine, []byte("the rest")}, offline: "keep();\n", manifest: `{"src": "icon-192.png"}`,
		worker: `const build = "(build)", needed = "(needed)", besides = "(besides)";`,
	}
	if err := p.check(); err != nil {
		t.Fatal(err)
	}
	return p
}

// The worked example of Content Security Policy Level 2, section 4.2.5, for the
// script alert('Hello, world.'); (from memory; openssl dgst gives the same).
func TestHashIsThePublishedOne(t *testing.T) {
	const want = "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"
	if got := hash("alert('Hello, world.');"); got != want {
		t.Errorf("hash = %s, want %s", got, want)
	}
}

var (
	inline   = regexp.MustCompile(`(?s)<(script|style)([^>]*)>(.*?)</(?:script|style)>`)
	stated   = regexp.MustCompile(`integrity="([^"]*)"`)
	inPolicy = regexp.MustCompile(`'sha256-[^']*'`)
)

// checkPolicy reads a finished page as a browser would: the policy must stand
// before anything it governs and hold the hash of each inline text and of each script
// beside the page, no other.
func checkPolicy(t *testing.T, page string) {
	t.Helper()
	content := regexp.MustCompile(`http-equiv="Content-Security-Policy" content="([^"]*)"`).FindStringSubmatchIndex(page)
	if content == nil {
		t.Fatal("no policy in the page")
	}
	policy := page[content[2]:content[3]]
	if strings.Contains(strings.Replace(policy, "'wasm-unsafe-eval'", "", 1), "unsafe") {
		t.Errorf("policy is too wide: %s", policy)
	}
	var want []string
	for _, m := range inline.FindAllStringSubmatchIndex(page, -1) {
		if m[0] < content[0] {
			t.Errorf("an inline text stands before the policy: %.40s", page[m[0]:])
		}
		attributes := page[m[4]:m[5]]
		if strings.Contains(attributes, "type=") {
			continue // text that does not run
		}
		if strings.Contains(attributes, "src=") {
			stated := stated.FindStringSubmatch(attributes)
			if stated == nil {
				t.Errorf("a script beside the page without its integrity: %s", attributes)
				continue
			}
			want = append(want, "'"+stated[1]+"'")
			continue
		}
		sum := sha256.Sum256([]byte(page[m[6]:m[7]]))
		want = append(want, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	got := inPolicy.FindAllString(policy, -1)
	slices.Sort(want)
	slices.Sort(got)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("hashes of the page (-) and of its policy (+):\n%s", diff)
	}
}

func TestUnindented(t *testing.T) {
	for text, want := range map[string]string{
		"<p>\n\t  a  b\n</p>\n":                                 "<p>\na  b\n</p>\n",
		" <pre>\n  a\n <b>b</b>\n </pre>\n  c":                  "<pre>\n  a\n <b>b</b>\n </pre>\nc",
		"  <textarea>x</textarea>\n  <textarea>\n  y":           "<textarea>x</textarea>\n<textarea>\n  y",
		"</pre><pre>\n  a</pre>\n  <script src=a></script>\n b": "</pre><pre>\n  a</pre>\n<script src=a></script>\nb",
	} {
		if got := unindented(text); got != want {
			t.Errorf("%q became %q, want %q", text, got, want)
		}
	}
	for script, want := range map[string]string{"{\n\tf();\n}": "{\nf();\n}", "f(`\n\ta`)": "f(`\n\ta`)", "\tf(`a`)": "f(`a`)"} {
		if got := unindentedScript(script); got != want {
			t.Errorf("%q became %q, want %q", script, got, want)
		}
	}
}

func TestBare(t *testing.T) {
	for script, want := range map[string]string{
		"// What\n(() => {\n  // why\n  f(); // how\n\n})();\n": "(() => {\nf(); // how\n})();\n",
		"f(`\n// a`)\n": "f(`\n// a`)\n",
	} {
		if got := bare(script); got != want {
			t.Errorf("%q became %q, want %q", script, got, want)
		}
	}
}

func TestSingleHoldsEverything(t *testing.T) {
	p := small(t)
	data, err := p.single()
	if err != nil {
		t.Fatal(err)
	}
	page := string(data)
	checkPolicy(t, page)
	for _, gone := range []string{"style.css", "boot.js", "wasm_exec.js", "icon.svg", policyMark} {
		if strings.Contains(page, gone) {
			t.Errorf("the single file still names %s", gone)
		}
	}
	if !strings.Contains(page, "connect-src 'none'") {
		t.Error("the single file may connect")
	}
	for i, id := range []string{"engine", "engine2"} {
		text := regexp.MustCompile(`<script id="` + id + `" type="application/octet-stream">([^<]*)</script>`).FindStringSubmatch(page)
		if text == nil {
			t.Fatalf("no %s in the single file", id)
		}
		if text[1] != letters(p.engine[i]) {
			t.Errorf("%s stands there as %q", id, text[1])
		}
	}
}

func TestSiteKeepsFilesApart(t *testing.T) {
	files, err := small(t).site([]byte("single"))
	if err != nil {
		t.Fatal(err)
	}
	page := string(files["index.html"])
	checkPolicy(t, page)
	if strings.Contains(page, policyMark) || !strings.Contains(page, "connect-src 'self'") {
		t.Errorf("the site's page lacks its policy:\n%s", page)
	}
	if !strings.Contains(page, "<script>shut();") {
		t.Error("the site's page does not begin by closing ways out")
	}
	if !strings.Contains(page, "<script>start();") || !strings.Contains(page, "<script>class Go {}\nkeep();") {
		t.Errorf("the site's page lacks a script:\n%s", page)
	}
	if string(files["splittally.html"]) != "single" {
		t.Error("the site lacks the single file")
	}
}

func TestCheckRefuses(t *testing.T) {
	for name, c := range map[string]struct{ old, new, want string }{
		"no policy mark":    {policyMark, "", "<!-- policy --> stands there 0 times"},
		"two boot marks":    {bootMark, bootMark + bootMark, "stands there 2 times"},
		"policy too late":   {policyMark + "\n<title>Small</title>", "<title>Small</title>" + policyMark, "must follow"},
		"script elsewhere":  {"<body>", `<body><script src="//example.org/x.js"></script>`, "line 13: src=\"//example.org/x.js leads away"},
		"link elsewhere":    {"#end", "https://example.org/", "leads away"},
		"unquoted":          {`"#end"`, "https://example.org/", "leads away"},
		"hint":              {"<title>", `<link rel=preconnect><title>`, "leads away"},
		"refresh":           {"<title>", `<meta http-equiv="refresh" content="0"><title>`, "leads away"},
		"form":              {"<body>", `<body><form action="http://example.org/">`, "leads away"},
		"spaces in between": {`href="#end"`, "HREF = ' https://example.org/'", "leads away"},
	} {
		t.Run(name, func(t *testing.T) {
			p := small(t)
			p.page = strings.Replace(p.page, c.old, c.new, 1)
			if p.page == smallPage {
				t.Fatalf("%q is not in the small page", c.old)
			}
			checkRefusal(t, p.check(), c.want)
		})
	}
	p := small(t)
	p.style = "body { background: url(//example.org/x.png) }"
	checkRefusal(t, p.check(), "style.css: line 1: url(//example.org/x.png leads away")
}

func checkRefusal(t *testing.T, err error, want string) {
	t.Helper()
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("error %v, want one with %q", err, want)
	}
}

func TestSingleRefuses(t *testing.T) {
	p := small(t)
	p.boot = "one();\n// </script>\n"
	_, err := p.single()
	checkRefusal(t, err, "boot.js: line 2: </script cannot stand inside a page")

	p = small(t)
	p.style = "/* </STYLE> */"
	_, err = p.single()
	checkRefusal(t, err, "style.css: line 1: </style")

	p = small(t)
	p.page = strings.Replace(p.page, "#end", "more.html", 1)
	_, err = p.single()
	checkRefusal(t, err, "more.html is not beside the page")
	_, err = p.site(nil)
	checkRefusal(t, err, "more.html is not beside the page")
}

func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		files[filepath.ToSlash(name)] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
