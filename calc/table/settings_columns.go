package table

import (
	"strconv"

	"splittally/calc/record"
	"splittally/calc/series"
)

func (f *finder) columnSettings(c int) []Setting {
	col := &f.columns[c]
	of := "Column " + strconv.Itoa(c+1) + ": "
	if col.name != "" {
		of = "“" + short(col.name) + "”: "
	}
	role := string(col.role.is)
	if role == "" {
		role = RoleNone
	}
	out := []Setting{{ID: f.id(c, "role"), Label: of + "what it measures", Why: col.role.why, Choices: roleChoices(), Taken: role, Sure: col.role.sure}}
	if !col.used() {
		return out
	}
	out = append(
		out,
		Setting{ID: f.id(c, "unit"), Label: of + "unit", Why: col.unit.why, Choices: unitChoices(), Taken: col.unit.is.Name(), Sure: col.unit.sure},
		Setting{ID: f.id(c, "kind"), Label: of + "what a figure is", Why: col.kind.why, Choices: kindChoices(), Taken: kindID(col.kind.is), Sure: col.kind.sure},
	)
	if !col.sign.sure || f.given[f.id(c, "sign")] != "" {
		out = append(out, chosen(Setting{
			ID: f.id(c, "sign"), Label: of + "sign", Why: col.sign.why, Taken: [...]string{"turned", "", "as-is"}[col.sign.is+1],
			Choices: []Choice{{"as-is", "As written"}, {"turned", "Turned round: a minus is left out, a plus becomes one"}},
		}, f.given))
	}
	if col.apart.why != "" || f.given[f.id(c, "below")] != "" && col.role.is == record.Import {
		out = append(out, chosen(Setting{
			ID: f.id(c, "below"), Label: of + "figures below zero", Why: col.apart.why, Taken: [...]string{"net", "apart"}[b2i(col.apart.is)],
			Choices: []Choice{{"net", "Are taken off what comes from the grid"}, {"apart", "Are fed into the grid, and counted apart"}},
		}, f.given))
	}
	return out
}

var roles = [...]Choice{
	{string(record.Import), "Taken from the grid"},
	{string(record.Export), "Fed into the grid"},
	{string(record.Production), "Made in the home, as by solar panels"},
	{string(record.LegA), "Leg A, or phase 1"},
	{string(record.LegB), "Leg B, or phase 2"},
	{string(record.LegC), "Leg C, or phase 3"},
	{string(record.Circuit), "A part of the home, such as a circuit"},
	{RoleNone, "Not used"},
}

func roleChoices() []Choice { return roles[:] }

// roleLabel gives the label of a role; nothing if there is no such one.
func roleLabel(id string) string {
	for _, r := range roles {
		if r.ID == id {
			return r.Label
		}
	}
	return ""
}

func unitChoices() []Choice {
	out := make([]Choice, 0, len(unitIDs))
	for _, u := range unitIDs {
		out = append(out, Choice{u.Name(), u.Name()})
	}
	return out
}

func kindChoices() []Choice {
	return []Choice{
		{"energy", "The energy of its interval"},
		{"power", "The mean power over its interval"},
		{"register", "A read of a register that runs on"},
	}
}

func kindID(q series.Quantity) string {
	return [...]string{"energy", "power", "register"}[q]
}
