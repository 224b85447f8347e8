package main

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"strings"
)

// A policy is the text of a Content-Security-Policy. Both policies begin by
// forbidding everything and neither has unsafe-inline or unsafe-eval; the
// engine needs 'wasm-unsafe-eval', which admits WebAssembly and no other code.

// sitePolicy lets the page load its own files from where it came from and
// nothing from anywhere else.
func sitePolicy() string {
	return join(
		"default-src 'none'",
		"script-src 'self' 'wasm-unsafe-eval'",
		"style-src 'self'",
		"img-src 'self' data:",
		"connect-src 'self'", // for the engine, and the single file to take along
		"worker-src 'self'",  // sw.js
		"manifest-src 'self'",
		"frame-src 'none'",
		"object-src 'none'",
		"base-uri 'none'",
		"form-action 'none'",
	)
}

// singlePolicy admits exactly these scripts and this style, by their hashes,
// and no connection at all.
func singlePolicy(scripts []string, style string) string {
	src := "script-src"
	for _, s := range scripts {
		src += " " + hash(s)
	}
	return join(
		"default-src 'none'",
		src+" 'wasm-unsafe-eval'",
		"style-src "+hash(style),
		"img-src data: blob:",
		"connect-src 'none'",
		"frame-src 'none'",
		"object-src 'none'",
		"base-uri 'none'",
		"form-action 'none'",
	)
}

func join(directives ...string) string { return strings.Join(directives, "; ") }

// hash is the source expression of an inline text: Content Security Policy
// Level 3, section 2.3.1, hash-source.
func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// meta puts a policy into the page. It governs what comes after it, so it
// stands first in the head, behind the character set alone.
func meta(policy string) string {
	return fmt.Sprintf(`<meta http-equiv="Content-Security-Policy" content="%s">`, policy)
}
