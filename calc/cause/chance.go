package cause

// chance: the instruments are as good as they promise, and what is not known of
// the comparison explains the rest: the budget of the verdict, as it stands.
func chance() kind {
	return kind{
		id:     Chance,
		name:   "Nothing is wrong",
		remedy: "Nothing is to be set. More bills narrow the interval.",
		forms: func(f *frame) []form {
			return f.atMidnight(form{
				weight: 1,
				how: func(outcome) string {
					return "Both instruments are as good as they promise; rounding and what is not known explain the rest."
				},
			})
		},
	}
}
