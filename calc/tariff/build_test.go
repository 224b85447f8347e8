package tariff

import (
	"strings"
	"testing"

	"splittally/calc/remark/remarktest"
)

func saidOf(b Built) []string { return remarktest.Said(b.Problems, b.Questions, b.Notices) }

func energyRow(change func(*Row)) Schedule {
	r := Row{Kind: "energy", Name: "Energy", Price: "$0.14"}
	change(&r)
	return Schedule{Currency: "USD", Rows: []Row{{Kind: "fixed", Name: "Base", Price: "7.50"}, r}}
}

func TestBuildRemarks(t *testing.T) {
	waits := "notice row-waits tariff.rows.1"
	bands := func(list ...Band) func(*Row) { return func(r *Row) { r.Kind, r.Bands = "times", list } }
	steps := func(list ...Step) func(*Row) { return func(r *Row) { r.Kind, r.Steps = "tiers", list } }
	whole := Band{Name: "Rest", Price: "$0.10"}
	for name, c := range map[string]struct {
		change func(*Row)
		said   []string
	}{
		"nothing":            {func(*Row) {}, nil},
		"empty row":          {func(r *Row) { *r = Row{} }, nil},
		"kind to come":       {func(r *Row) { r.Kind = "" }, []string{waits}},
		"kind wrong":         {func(r *Row) { r.Kind = "wind" }, []string{"problem tariff.rows.1.kind"}},
		"price to come":      {func(r *Row) { r.Price = "$" }, []string{waits}},
		"price wrong":        {func(r *Row) { r.Price = "cheap" }, []string{"problem tariff.rows.1.price"}},
		"price per day":      {func(r *Row) { r.Price = "0.14 a day" }, []string{"problem tariff.rows.1.price"}},
		"minus to come":      {func(r *Row) { r.Price = "−" }, []string{waits}},
		"credit":             {func(r *Row) { r.Price = "-$0.0012" }, nil},
		"double minus":       {func(r *Row) { r.Price = "--0.0012" }, []string{"problem tariff.rows.1.price"}},
		"cents":              {func(r *Row) { r.Price = "14.2 ¢/kWh" }, []string{"notice read-as-hundredths tariff.rows.1.price"}},
		"bare cents":         {func(r *Row) { r.Price = "14.2" }, []string{"question tariff.price-unit = hundredths"}},
		"two ways":           {func(r *Row) { r.Price = "1,234" }, []string{"question tariff.rows.1.price = 1.234"}},
		"basis":              {func(r *Row) { r.Basis = "gross" }, []string{"problem tariff.rows.1.basis"}},
		"season to end":      {func(r *Row) { r.From = "1 May" }, []string{waits}},
		"season to begin":    {func(r *Row) { r.To = "1 May" }, []string{waits}},
		"season begun":       {func(r *Row) { r.From, r.To = "1 M", "31 Oct" }, []string{waits}},
		"season unclear":     {func(r *Row) { r.From, r.To = "1/5", "31/10" }, []string{"problem tariff.rows.1.from"}},
		"no such day":        {func(r *Row) { r.From, r.To = "1 May", "31 Sep" }, []string{"problem tariff.rows.1.to"}},
		"date begun":         {func(r *Row) { r.Since = "2024-05" }, []string{waits}},
		"date unclear":       {func(r *Row) { r.Until = "03/04/2024" }, []string{"problem tariff.rows.1.until"}},
		"dates turned":       {func(r *Row) { r.Since, r.Until = "2024-05-02", "1 May 2024" }, []string{"problem tariff.rows.1.until"}},
		"charge per day":     {func(r *Row) { *r = Row{Kind: "fixed", Price: "0.61 a day"} }, nil},
		"per contradicts":    {func(r *Row) { *r = Row{Kind: "fixed", Per: "month", Price: "0.61 a day"} }, []string{"problem tariff.rows.1.price"}},
		"per wrong":          {func(r *Row) { *r = Row{Kind: "fixed", Per: "year", Price: "0.61"} }, []string{"problem tariff.rows.1.per"}},
		"no tiers":           {steps(), []string{waits}},
		"no last tier":       {steps(Step{"600", "$0.10"}), []string{waits}},
		"tiers turned":       {steps(Step{"600", "$0.10"}, Step{"500", "$0.11"}, Step{"", "$0.12"}), []string{"problem tariff.rows.1.steps.1.up-to"}},
		"tier without end":   {steps(Step{"", "$0.10"}, Step{"500", "$0.11"}), []string{waits}},
		"tier in words":      {steps(Step{"lots", "$0.10"}, Step{"", "x"}), []string{"problem tariff.rows.1.steps.0.up-to", "problem tariff.rows.1.steps.1.price"}},
		"thousands":          {steps(Step{"1,000", "$0.10"}, Step{"", "$0.12"}), []string{"question tariff.rows.1.steps.0.up-to = 1000"}},
		"a day's kWh":        {func(r *Row) { r.Kind, r.Per, r.Steps = "tiers", "day", []Step{{"13,288", "$0.10"}, {"", "$0.12"}} }, []string{"question tariff.rows.1.steps.0.up-to = 13.288"}},
		"empty steps":        {steps(Step{"600 kWh", "$0.10"}, Step{}, Step{"", "$0.12"}, Step{}), nil},
		"no periods":         {bands(), []string{waits}},
		"holiday hours":      {bands(Band{"Peak", "$0.20", "workdays", "7-11"}, whole), []string{"notice no-holidays tariff.region"}},
		"hours begun":        {bands(Band{"Peak", "$0.20", "", "7-11, 17-"}, whole), []string{waits}},
		"hours wrong":        {bands(Band{"Peak", "$0.20", "", "7-25"}, whole), []string{"problem tariff.rows.1.bands.0.hours"}},
		"days begun":         {bands(Band{"Peak", "$0.20", "Satur", ""}, whole), []string{waits}},
		"days wrong":         {bands(Band{"Peak", "$0.20", "someday", ""}, whole), []string{"problem tariff.rows.1.bands.0.days"}},
		"weekdays":           {bands(Band{"Peak", "$0.20", "weekdays", ""}, whole), []string{"problem tariff.rows.1.bands.0.days"}},
		"a hole":             {bands(Band{"Peak", "$0.20", "", "7-23"}), []string{"problem tariff.rows.1.bands"}},
		"a hole on holidays": {bands(Band{"Peak", "$0.20", "workdays", ""}, Band{"Off", "$0.10", "Sat, Sun", ""}), []string{"problem tariff.rows.1.bands"}},
		"hidden hours":       {bands(Band{"Day", "$0.20", "", "7-21"}, Band{"Noon", "$0.10", "", "11-14"}, whole), []string{"notice never-comes tariff.rows.1.bands"}},
		"nested hours":       {bands(Band{"Noon", "$0.10", "", "11-14"}, Band{"Day", "$0.20", "", "7-21"}, whole), nil},
		"a day's charge":     {func(r *Row) { *r = Row{Kind: "fixed", Price: "60.99", Per: "day"} }, []string{"question tariff.price-unit = hundredths"}},
		"nameless":           {bands(Band{"", "$0.20", "Mon-Fri", ""}, Band{"", "$0.10", "weekend", ""}), nil},
		"one name":           {bands(Band{"Peak", "$0.20", "Mon", "7-9"}, Band{"peak", "$0.21", "Tue", "7-9"}, whole), []string{"problem tariff.rows.1.bands.1.name"}},
		"demand":             {func(r *Row) { *r = Row{Kind: "demand", Price: "$5.40/kW", Per: "15"} }, nil},
		"demand of what":     {func(r *Row) { *r = Row{Kind: "demand", Price: "$5.40"} }, []string{waits}},
		"demand of 20":       {func(r *Row) { *r = Row{Kind: "demand", Price: "5.40", Per: "20"} }, []string{"problem tariff.rows.1.per"}},
		"export below zero":  {func(r *Row) { *r = Row{Kind: "export", Price: "-$0.05"} }, []string{"problem tariff.rows.1.price"}},
		"tax to come":        {func(r *Row) { *r = Row{Kind: "tax"} }, []string{waits}},
		"tax of a portion":   {func(r *Row) { *r = Row{Kind: "tax", Price: "0.055"} }, []string{"question tariff.rows.1.price-unit = portion"}},
		"tax too high":       {func(r *Row) { *r = Row{Kind: "tax", Price: "120 %"} }, []string{"problem tariff.rows.1.price"}},
		"on nothing":         {func(r *Row) { *r = Row{Kind: "tax", Price: "5 %", On: "Wind"} }, []string{"problem tariff.rows.1.on"}},
		"on itself":          {func(r *Row) { *r = Row{Kind: "tax", Name: "VAT", Price: "5 %", On: "VAT"} }, []string{"problem tariff.rows.1.on"}},
		"on a name begun":    {func(r *Row) { *r = Row{Kind: "tax", Price: "5 %", On: "base, Ba"} }, []string{waits}},
		"money off":          {func(r *Row) { *r = Row{Kind: "discount", Price: "$5"} }, nil},
		"percent off":        {func(r *Row) { *r = Row{Kind: "discount", Price: "5", On: "Base,"} }, nil},
		"minimum":            {func(r *Row) { *r = Row{Kind: "minimum", Price: "12", Per: "month"} }, nil},
		"netting":            {func(r *Row) { *r = Row{Kind: "Netting"} }, nil},
	} {
		t.Run(name, func(t *testing.T) {
			b := Build(energyRow(c.change), Options{})
			remarktest.Want(t, saidOf(b), c.said...)
			if !b.Tariff.Given || b.Tariff.Waits != "" {
				t.Errorf("given %v, waits for %q; the other row is enough", b.Tariff.Given, b.Tariff.Waits)
			}
			left := len(b.Problems) > 0 || strings.Contains(strings.Join(c.said, " "), "row-waits") || name == "empty row"
			if got := len(b.Tariff.rows); got == 2 && left || got == 1 && !left {
				t.Errorf("%d rows", got)
			}
		})
	}
}

func TestBuildMore(t *testing.T) {
	tax := Row{Kind: "tax", Price: "5 %"}
	second := tax
	second.Name = "City tax"
	many := Row{Kind: "times", Bands: make([]Band, maxBands+1)}
	for i := range many.Bands {
		many.Bands[i].Price = "$0.10"
	}
	for name, c := range map[string]struct {
		rows []Row
		said []string
	}{
		"a tax on a tax":       {[]Row{tax, second}, []string{"notice counts-nothing tariff.rows.0.on", "notice tax-on-tax tariff.rows.1.on"}},
		"on rows not yet":      {[]Row{{Kind: "tax", Price: "5 %", On: "Energy"}}, []string{"problem tariff.rows.0.on"}},
		"a comma in the name":  {[]Row{{Kind: "energy", Name: "Supply, green", Price: "$0.10"}, {Kind: "tax", Price: "5 %", On: "supply, green"}}, nil},
		"periods upon periods": {[]Row{many}, []string{"problem tariff.rows.0.bands"}},
		"a hole after a holiday": {
			[]Row{{Kind: "times", Bands: []Band{{"A", "$0.10", "all", "6-22"}, {"B", "$0.10", "workdays", "22-6"}, {"C", "$0.10", "Sat, Sun", "22-6"}}}},
			[]string{"problem tariff.rows.0.bands"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			remarktest.Want(t, saidOf(Build(Schedule{Rows: c.rows}, Options{})), c.said...)
		})
	}
}

func TestBuildFrame(t *testing.T) {
	s := Schedule{
		Name: " Night saver ", Currency: "Taler", Round: "never", Half: "odd", Places: "9", Inclusive: "200", Region: "XX",
		Dates: "2024-12-24\n\n 24 Dec\n31 Dec 2024\nsoon\n12-3\n",
	}
	b := Build(s, Options{Path: "plans.1"})
	remarktest.Want(t, saidOf(b), "problem plans.1.currency", "problem plans.1.dates", "problem plans.1.half", "problem plans.1.inclusive",
		"problem plans.1.places", "problem plans.1.region", "problem plans.1.round", "notice holiday-waits plans.1.dates")
	for _, p := range b.Problems {
		if p.Path == "plans.1.dates" && (p.Line != 5 || p.Found != "soon") {
			t.Errorf("line %d, “%s”", p.Line, p.Found)
		}
	}
	if b.Tariff.Given || b.Tariff.Waits == "" || b.Tariff.Name != "Night saver" || len(b.Tariff.dates) != 2 || len(b.Tariff.yearDays) != 1 {
		t.Errorf("%+v", b.Tariff)
	}
}

func TestWaits(t *testing.T) {
	for _, c := range []struct {
		rows []Row
		want string
	}{
		{nil, "a row with a price is missing"},
		{[]Row{{}}, "a row with a price is missing"},
		{[]Row{{Kind: "tax", Price: "5 %"}}, "a row with a price is missing"},
		{[]Row{{Kind: "energy"}}, "a price of “Energy” is missing"},
		{[]Row{{Kind: "energy", Price: "x"}}, "no row with a price can be used"},
	} {
		if got := Build(Schedule{Rows: c.rows}, Options{}).Tariff.Waits; got != c.want {
			t.Errorf("%+v waits for %q, want %q", c.rows, got, c.want)
		}
	}
}

// One question stands for all bare prices.
func TestBareCents(t *testing.T) {
	s := Schedule{Currency: "CAD", Rows: []Row{{Kind: "energy", Price: "14.2"}, {Kind: "energy", Price: "0.75"}, {Kind: "energy", Price: "-3"}, {Kind: "energy", Price: "$9"}}}
	for answer, want := range map[string][4]string{
		"":               {"0.142", "0.75", "-0.03", "9"},
		"all-hundredths": {"0.142", "0.0075", "-0.03", "9"},
		"units":          {"14.2", "0.75", "-3", "9"},
	} {
		b := Build(s, Options{Answers: map[string]string{"tariff.price-unit": answer}})
		if len(b.Questions) != 1 || len(b.Questions[0].Choices) != 3 {
			t.Fatalf("%q: %v", answer, b.Questions)
		}
		for i, r := range b.Tariff.rows {
			equal(t, answer+" "+s.Rows[i].Price, r.price, want[i])
		}
	}
	s.Currency = "JPY"
	if q := Build(s, Options{}).Questions; len(q) > 0 {
		t.Errorf("asked of yen: %v", q)
	}
}

func TestNeeds(t *testing.T) {
	rest := Band{Name: "Rest", Price: "$0.10"}
	for name, c := range map[string]struct {
		row                  Row
		hours, power, export bool
	}{
		"flat":    {Row{Kind: "energy", Price: "$0.14"}, false, false, false},
		"days":    {Row{Kind: "times", Bands: []Band{{"Weekend", "$0.05", "Sat, Sun", ""}, rest}}, false, false, false},
		"hours":   {Row{Kind: "times", Bands: []Band{{"Night", "$0.05", "", "22-6"}, rest}}, true, false, false},
		"demand":  {Row{Kind: "demand", Price: "$5", Per: "15"}, false, true, false},
		"export":  {Row{Kind: "export", Price: "$0.05"}, false, false, true},
		"netting": {Row{Kind: "netting"}, false, false, true},
	} {
		tariff := Build(Schedule{Rows: []Row{c.row}}, Options{}).Tariff
		if tariff.NeedsHours != c.hours || tariff.NeedsPower != c.power || tariff.NeedsExport != c.export {
			t.Errorf("%s needs hours %v, power %v, export %v", name, tariff.NeedsHours, tariff.NeedsPower, tariff.NeedsExport)
		}
	}
}
