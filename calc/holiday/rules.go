package holiday

type region struct {
	Region
	rules []rule
}

// rule says when one holiday is.
type rule struct {
	name         string
	kind         kind
	month, n, on int8 // of a fixed date n is the day; of a weekday on is which, n the how many-th
	move         move
	since, until int16 // years; 0 is without end
}

type kind uint8

const (
	fixed       kind = iota
	weekday          // the nth such weekday of the month
	easter           // n days after Easter Sunday
	firstFriday      // the first Monday of the month, or the 1st if it is a Friday
	table            // a list of days by year
)

// move is what becomes of a holiday on a weekend.
type move uint8

const (
	stays   move = iota
	onward       // to the next weekday that is not a holiday
	nearest      // from Saturday to Friday, from Sunday to Monday
	sundays      // from Sunday to Monday; one on a Saturday stays
	mondays      // to the next Monday, even if that is a holiday
)

// The rules are from memory unless said. What the tests confirm, and against
// what, stands in published_test.go and reference_test.go.
var regions = []region{
	{Region{"AU", "Australia, national"}, []rule{
		{name: newYear, month: 1, n: 1, move: onward},
		{name: "Australia Day", month: 1, n: 26, move: onward},
		{name: goodFriday, kind: easter, n: -2},
		{name: easterMonday, kind: easter, n: 1},
		{name: "Anzac Day", month: 4, n: 25},
		{name: "National Day of Mourning", month: 9, n: 22, since: 2022, until: 2022},
		{name: christmas, month: 12, n: 25, move: onward},
		{name: boxing, month: 12, n: 26, move: onward},
	}},
	// The holidays of time-of-use prices: Ontario Energy Board, as published by
	// distributors and the Ontario Electricity Financial Corporation.
	{Region{"CA-ON", "Canada, Ontario"}, []rule{
		{name: newYear, month: 1, n: 1, move: onward},
		{name: "Family Day", kind: weekday, month: 2, n: 3, on: monday, since: 2008},
		{name: goodFriday, kind: easter, n: -2},
		{name: "Victoria Day", kind: weekday, month: 5, n: -2, on: monday}, // the Monday before 25 May
		{name: "Canada Day", month: 7, n: 1, move: onward},
		{name: "Civic Holiday", kind: weekday, month: 8, n: 1, on: monday},
		{name: "Labour Day", kind: weekday, month: 9, n: 1, on: monday},
		{name: "Thanksgiving", kind: weekday, month: 10, n: 2, on: monday},
		{name: christmas, month: 12, n: 25, move: onward},
		{name: boxing, month: 12, n: 26, move: onward},
	}},
	{Region{"FR", "France"}, []rule{
		{name: newYear, month: 1, n: 1},
		{name: easterMonday, kind: easter, n: 1},
		{name: labour, month: 5, n: 1},
		{name: "Victory Day", month: 5, n: 8},
		{name: ascension, kind: easter, n: 39},
		{name: whitMonday, kind: easter, n: 50},
		{name: "National Day", month: 7, n: 14},
		{name: "Assumption", month: 8, n: 15},
		{name: "All Saints", month: 11, n: 1},
		{name: "Armistice Day", month: 11, n: 11},
		{name: christmas, month: 12, n: 25},
	}},
	{Region{"DE", "Germany, national"}, []rule{
		{name: newYear, month: 1, n: 1},
		{name: goodFriday, kind: easter, n: -2},
		{name: easterMonday, kind: easter, n: 1},
		{name: labour, month: 5, n: 1},
		{name: ascension, kind: easter, n: 39},
		{name: whitMonday, kind: easter, n: 50},
		{name: "German Unity Day", month: 10, n: 3},
		{name: "Reformation Day", month: 10, n: 31, since: 2017, until: 2017},
		{name: christmas, month: 12, n: 25},
		{name: "Second Day of Christmas", month: 12, n: 26},
	}},
	{Region{"GB-ENG", "Great Britain, England and Wales"}, []rule{
		{name: newYear, month: 1, n: 1, move: onward},
		{name: goodFriday, kind: easter, n: -2},
		{name: easterMonday, kind: easter, n: 1},
		{name: "Royal Wedding", month: 4, n: 29, since: 2011, until: 2011},
		{name: mayDay, kind: weekday, month: 5, n: 1, on: monday, until: 2019},
		{name: mayDay, month: 5, n: 8, since: 2020, until: 2020},
		{name: mayDay, kind: weekday, month: 5, n: 1, on: monday, since: 2021},
		{name: "Coronation", month: 5, n: 8, since: 2023, until: 2023},
		{name: spring, kind: weekday, month: 5, n: -1, on: monday, until: 2001},
		{name: jubilee, month: 6, n: 3, since: 2002, until: 2002},
		{name: spring, month: 6, n: 4, since: 2002, until: 2002},
		{name: spring, kind: weekday, month: 5, n: -1, on: monday, since: 2003, until: 2011},
		{name: spring, month: 6, n: 4, since: 2012, until: 2012},
		{name: jubilee, month: 6, n: 5, since: 2012, until: 2012},
		{name: spring, kind: weekday, month: 5, n: -1, on: monday, since: 2013, until: 2021},
		{name: spring, month: 6, n: 2, since: 2022, until: 2022},
		{name: jubilee, month: 6, n: 3, since: 2022, until: 2022},
		{name: spring, kind: weekday, month: 5, n: -1, on: monday, since: 2023},
		{name: "Summer Bank Holiday", kind: weekday, month: 8, n: -1, on: monday},
		{name: "State Funeral", month: 9, n: 19, since: 2022, until: 2022},
		{name: christmas, month: 12, n: 25, move: onward},
		{name: boxing, month: 12, n: 26, move: onward},
	}},
	{Region{"IE", "Ireland"}, []rule{
		{name: newYear, month: 1, n: 1},
		{name: "Saint Brigid’s Day", kind: firstFriday, month: 2, since: 2023},
		{name: "Saint Patrick’s Day", month: 3, n: 17},
		{name: "Day of Remembrance", month: 3, n: 18, since: 2022, until: 2022},
		{name: easterMonday, kind: easter, n: 1},
		{name: "May Holiday", kind: weekday, month: 5, n: 1, on: monday},
		{name: "June Holiday", kind: weekday, month: 6, n: 1, on: monday},
		{name: "August Holiday", kind: weekday, month: 8, n: 1, on: monday},
		{name: "October Holiday", kind: weekday, month: 10, n: -1, on: monday},
		{name: christmas, month: 12, n: 25},
		{name: "Saint Stephen’s Day", month: 12, n: 26},
	}},
	{Region{"NZ", "New Zealand, national"}, []rule{
		{name: newYear, month: 1, n: 1, move: onward},
		{name: "Day after New Year’s Day", month: 1, n: 2, move: onward},
		{name: "Waitangi Day", month: 2, n: 6, until: 2013},
		{name: "Waitangi Day", month: 2, n: 6, since: 2014, move: mondays},
		{name: goodFriday, kind: easter, n: -2},
		{name: easterMonday, kind: easter, n: 1},
		{name: "Anzac Day", month: 4, n: 25, until: 2013},
		{name: "Anzac Day", month: 4, n: 25, since: 2014, move: mondays},
		{name: "Sovereign’s Birthday", kind: weekday, month: 6, n: 1, on: monday},
		{name: "Matariki", kind: table, since: 2022, until: 2052},
		{name: "Memorial Day for the Queen", month: 9, n: 26, since: 2022, until: 2022},
		{name: "Labour Day", kind: weekday, month: 10, n: 4, on: monday},
		{name: christmas, month: 12, n: 25, move: onward},
		{name: boxing, month: 12, n: 26, move: onward},
	}},
	{Region{"US", "United States, federal"}, []rule{
		{name: newYear, month: 1, n: 1, move: nearest},
		{name: "Martin Luther King Jr. Day", kind: weekday, month: 1, n: 3, on: monday},
		{name: "Washington’s Birthday", kind: weekday, month: 2, n: 3, on: monday},
		{name: memorial, kind: weekday, month: 5, n: -1, on: monday},
		{name: "Juneteenth", month: 6, n: 19, since: 2021, move: nearest},
		{name: independence, month: 7, n: 4, move: nearest},
		{name: laborDay, kind: weekday, month: 9, n: 1, on: monday},
		{name: "Columbus Day", kind: weekday, month: 10, n: 2, on: monday},
		{name: "Veterans Day", month: 11, n: 11, move: nearest},
		{name: thanksgiving, kind: weekday, month: 11, n: 4, on: thursday},
		{name: christmas, month: 12, n: 25, move: nearest},
	}},
	// The six days that the power trade of North America counts as off-peak.
	{Region{"US-NERC", "United States, six holidays of the power trade (NERC)"}, []rule{
		{name: newYear, month: 1, n: 1, move: sundays},
		{name: memorial, kind: weekday, month: 5, n: -1, on: monday},
		{name: independence, month: 7, n: 4, move: sundays},
		{name: laborDay, kind: weekday, month: 9, n: 1, on: monday},
		{name: thanksgiving, kind: weekday, month: 11, n: 4, on: thursday},
		{name: christmas, month: 12, n: 25, move: sundays},
	}},
}

const (
	newYear      = "New Year’s Day"
	goodFriday   = "Good Friday"
	easterMonday = "Easter Monday"
	ascension    = "Ascension Day"
	whitMonday   = "Whit Monday"
	labour       = "Labour Day"
	mayDay       = "Early May Bank Holiday"
	spring       = "Spring Bank Holiday"
	jubilee      = "Jubilee"
	memorial     = "Memorial Day"
	independence = "Independence Day"
	laborDay     = "Labor Day"
	thanksgiving = "Thanksgiving Day"
	christmas    = "Christmas Day"
	boxing       = "Boxing Day"
)

// matariki are month and day from 2022 on: Te Kāhui o Matariki Public Holiday
// Act 2022 of New Zealand, schedule 1.
var matariki = [...]int{
	624, 714, 628, 620, 710, 625, 714, 706, 621, 711, 702, 624, 707, 629, 718, 710,
	625, 715, 706, 719, 711, 703, 624, 707, 629, 719, 703, 625, 715, 630, 621,
}
