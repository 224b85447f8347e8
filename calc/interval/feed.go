package interval

import "splittally/calc/espi"

// closeFeed puts what a feed came to into found.
func closeFeed(feed *espi.Reader, found *Found, o Options, bytes int64) {
	result := feed.Close()
	if !result.IsFeed {
		found.Kind = ""
	}
	found.Settings, found.Notices = result.Settings, result.Notices
	found.Problems = append(found.Problems, result.Problems...)
	for _, m := range result.Meters {
		m.Record.Source.File, m.Record.Source.Bytes = o.File, bytes
		m.Record.Source.Said = append(m.Record.Source.Said, said(result.Settings)...)
		if m.Usable && len(found.Preview.Rows) == 0 {
			found.Preview = Preview{m.Heads, m.Rows}
		}
		found.Records = append(found.Records, Candidate{Name: m.Name, Usable: m.Usable, Why: m.Why, Record: m.Record})
	}
	for _, b := range result.Bills {
		found.Bills = append(found.Bills, Bill{From: b.From, To: b.To, KWh: b.KWh, Total: b.Total, Words: b.Words})
	}
}
