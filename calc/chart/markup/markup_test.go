package markup

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestEl(t *testing.T) {
	for _, c := range []struct {
		got  Markup
		want string
	}{
		{El("p"), `<p></p>`},
		{El("p", Text("a < b & \"c\"")), `<p>a &lt; b &amp; &#34;c&#34;</p>`},
		{El("p", Class("num"), ID("x"), Text("1")), `<p class="num" id="x">1</p>`},
		{El("p", Text("1"), Class("num")), `<p class="num">1</p>`},
		{El("input", A("value", `"><script>`), Is("checked").If(true), Is("hidden").If(false)), `<input value="&#34;&gt;&lt;script&gt;" checked>`},
		{Join(Text("a "), El("b", Text("b"))), `a <b>b</b>`},
		{El("rect", Num("x", 1.239), Num("y", -0.001), Num("width", 100)), `<rect x="1.24" y="0" width="100"></rect>`},
	} {
		if c.got.String() != c.want {
			t.Errorf("got  %s\nwant %s", c.got, c.want)
		}
	}
}

func TestNumber(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", -0.001: "0", 1.239: "1.24", 1.2: "1.2", -3.05: "-3.05", 340: "340", 0.005: "0.01", 1e300: "1000000", math.Inf(-1): "-1000000",
	} {
		if got := Number(v); got != want {
			t.Errorf("Number(%g) = %s, want %s", v, got, want)
		}
	}
}

// Whatever the texts are, a reader of markup finds them again and nothing else.
func TestTextsStayTexts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[<>"'&a-z/! =;#\n]*`).Draw(t, "text")
		m := El("p", A("title", text), Text(text))
		d := xml.NewDecoder(strings.NewReader(m.String()))
		var title, inside string
		elements := 0
		for {
			token, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", m, err)
			}
			switch token := token.(type) {
			case xml.StartElement:
				elements++
				title = token.Attr[0].Value
			case xml.CharData:
				inside += string(token)
			}
		}
		if elements != 1 || title != text || inside != text {
			t.Fatalf("%q came back as %d elements, title %q, text %q", text, elements, title, inside)
		}
	})
}
