package document

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/valyala/fastjson"
)

// ErrJSON says that a text is not JSON at all.
var ErrJSON = errors.New("not JSON")

// JSON writes a tree as JSON (RFC 8259), indented by two blanks, with a line
// feed at the end. All leaves are strings.
func JSON(n Node) string {
	var b strings.Builder
	write(&b, n, "\n")
	b.WriteByte('\n')
	return b.String()
}

func write(b *strings.Builder, n Node, indent string) {
	switch n.Kind {
	case Leaf:
		quote(b, n.Text)
	case List:
		writeBetween(b, "[", "]", indent, len(n.Items), func(i int, inner string) { write(b, n.Items[i], inner) })
	case Group:
		writeBetween(b, "{", "}", indent, len(n.Names), func(i int, inner string) {
			quote(b, n.Names[i].Name)
			b.WriteString(": ")
			write(b, n.Names[i].Node, inner)
		})
	}
}

func writeBetween(b *strings.Builder, open, end, indent string, n int, item func(i int, inner string)) {
	b.WriteString(open)
	for i := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(indent + "  ")
		item(i, indent+"  ")
	}
	if n > 0 {
		b.WriteString(indent)
	}
	b.WriteString(end)
}

func quote(b *strings.Builder, s string) {
	b.WriteByte('"')
	for _, r := range s { // a broken byte comes out as U+FFFD
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\t':
			b.WriteString(`\t`)
		case r == '\r':
			b.WriteString(`\r`)
		case r == '\n':
			b.WriteString(`\n`)
		case r < 0x20 || r == 0x7f || r == 0x2028 || r == 0x2029 || r == 0xfeff:
			fmt.Fprintf(b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
}

// ParseJSON reads JSON as a tree. Numbers are kept as they are written, true
// is the text "yes", false and null are empty. The error is ErrJSON, wrapped
// with the place.
func ParseJSON(text string) (Node, error) {
	text = strings.TrimPrefix(text, "\ufeff")
	if !utf8.ValidString(text) {
		return Node{}, fmt.Errorf("%w: bytes that are not UTF-8", ErrJSON)
	}
	if tooDeep(text) {
		return Node{}, fmt.Errorf("%w that a case can be: more than %d levels", ErrJSON, maxDepth)
	}
	if at := rawControl(text); at >= 0 {
		return Node{}, fmt.Errorf("%w: it breaks off in line %d", ErrJSON, 1+strings.Count(text[:at], "\n"))
	}
	// Parse takes some things that are not JSON, Validate does not.
	if err := fastjson.Validate(text); err != nil {
		return Node{}, fmt.Errorf("%w: %s", ErrJSON, place(text, err))
	}
	v, err := fastjson.Parse(text)
	if err != nil {
		return Node{}, fmt.Errorf("%w: %s", ErrJSON, place(text, err))
	}
	return fromJSON(v), nil
}

// maxDepth bounds the nesting; a case needs six levels. The parser wraps its
// error once a level, so that a hostile depth would cost time without bound.
const maxDepth = 32

func tooDeep(text string) bool {
	depth, inString := 0, false
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case inString && c == '\\':
			i++
		case c == '"':
			inString = !inString
		case inString:
		case c == '[' || c == '{':
			depth++
		case c == ']' || c == '}':
			depth--
		}
		if depth > maxDepth {
			return true
		}
	}
	return false
}

// rawControl gives the place of the first control character within a string,
// which JSON wants escaped; -1 if there is none. Validate overlooks those in a
// string that has an escape as well.
func rawControl(text string) int {
	inString := false
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case inString && c < 0x20:
			return i
		case inString && c == '\\':
			i++
		case c == '"':
			inString = !inString
		}
	}
	return -1
}

// place turns the tail that the parser could not read into a line number.
func place(text string, err error) string {
	_, tail, found := strings.Cut(err.Error(), "unparsed tail: ")
	if !found {
		return "it breaks off"
	}
	rest, unquoteErr := strconv.Unquote(tail)
	if unquoteErr != nil {
		return "it breaks off"
	}
	// Long tails are shortened in their middle by the parser; their head is the text's own.
	head, _, _ := strings.Cut(rest, "...")
	at := strings.Index(text, head)
	if head == "" || at < 0 {
		at = len(text)
	}
	return fmt.Sprintf("it breaks off in line %d", 1+strings.Count(text[:at], "\n"))
}

func fromJSON(v *fastjson.Value) Node {
	switch v.Type() {
	case fastjson.TypeObject:
		n := Node{Kind: Group}
		v.GetObject().Visit(func(key []byte, child *fastjson.Value) {
			n.Names = append(n.Names, Named{string(key), fromJSON(child)})
		})
		return n
	case fastjson.TypeArray:
		n := Node{Kind: List}
		for _, item := range v.GetArray() {
			n.Items = append(n.Items, fromJSON(item))
		}
		return n
	case fastjson.TypeString:
		return Node{Text: string(v.GetStringBytes())}
	case fastjson.TypeTrue:
		return Node{Text: "yes"}
	case fastjson.TypeNumber:
		return Node{Text: v.String()}
	default: // null and false
		return Node{}
	}
}
