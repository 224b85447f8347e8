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

// closed is the part that both forms have alike. Markup is made by one policy of
// Trusted Types, which the engine makes, and the address of the worker by another.
// Each name can be taken once.
var closed = []string{
	"frame-src 'none'",
	"object-src 'none'",
	"base-uri 'none'",
	"form-action 'none'",
	"require-trusted-types-for 'script'",
}

// sitePolicy admits these scripts and this style alone, by their hashes. What is
// let in here until the engine has come, shut.js closes then.
func sitePolicy(style string, scripts ...string) string {
	return join(append([]string{
		"default-src 'none'",
		"script-src " + hashes(scripts...) + " 'wasm-unsafe-eval'",
		"style-src " + hash(style),
		"img-src 'self' data: blob:",
		"connect-src 'self'", // for the engine
		"worker-src 'self'",  // sw.js
		"manifest-src 'self'",
		"trusted-types split-tally split-tally-worker",
	}, closed...)...)
}

// singlePolicy admits exactly these scripts and this style, by their hashes,
// and no connection at all.
func singlePolicy(style string, scripts ...string) string {
	return join(append([]string{
		"default-src 'none'",
		"script-src " + hashes(scripts...) + " 'wasm-unsafe-eval'",
		"style-src " + hash(style),
		"img-src data: blob:",
		"connect-src 'none'",
		"trusted-types split-tally",
	}, closed...)...)
}

func join(directives ...string) string { return strings.Join(directives, "; ") }

func hashes(texts ...string) string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = hash(t)
	}
	return strings.Join(out, " ")
}

// hash is the source expression of a text: Content Security Policy Level 3,
// section 2.3.1, hash-source.
func hash(text string) string { return "'" + integrity([]byte(text)) + "'" }

// integrity is the integrity metadata of a file: Subresource Integrity, section
// 3.1.
func integrity(data []byte) string {
	sum := sha256.Sum256(data)
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}

// meta puts a policy into the page, and behind it the script that closes what no
// policy does. They govern what comes after them, so they stand first in the head,
// behind the character set alone.
func meta(policy, shut string) string {
	return fmt.Sprintf(`<meta http-equiv="Content-Security-Policy" content="%s">
<meta http-equiv="x-dns-prefetch-control" content="off">
<meta name="referrer" content="no-referrer">
<script>%s</script>`, policy, shut)
}
