package fill

import (
	"math"
	"slices"

	"splittally/calc/ledger"
)

// solution is the plan used for a gap, or one for each of its two parts.
type solution struct {
	plan
	used   []Method // for each day of the gap
	other  int      // the instrument that Ratio leans on, or -1
	trials []Trial  // what it was chosen from
}

// fewTrials is how many copies of the pattern make a trial worth the name.
const fewTrials = 5

// clearWin is how much smaller the error of another method has to be, over at
// least enoughTrials copies, to be taken for better than Near and not for luck.
// Over fewer copies, or for a smaller win, the choice erred more than Near alone.
const (
	clearWin     = 0.5
	enoughTrials = 10
)

// pick gives the plan of the wanted method, or else the one with the smallest
// error in trials. Near, the first, stands unless another wins clearly: over a
// few copies that overlap, luck decides between equals.
func pick(wanted Method, plans []plan) plan {
	if i := slices.IndexFunc(plans, func(p plan) bool { return p.method == wanted }); i >= 0 {
		return plans[i]
	}
	b := plans[0]
	for _, p := range plans[1:] {
		if p.trial.Tries >= enoughTrials && p.trial.RMS < clearWin*plans[0].trial.RMS && p.trial.RMS < b.trial.RMS {
			b = p
		}
	}
	return b
}

// beats says whether p, which leans on another instrument, does better than q,
// which does not: in trials if there were enough, and else by what the spread
// of single days leads to expect.
func (p plan) beats(q plan) bool {
	if p.trial.Tries >= fewTrials && q.trial.Tries >= fewTrials {
		return p.trial.RMS < q.trial.RMS
	}
	return p.standard < q.standard
}

// solve fills the gap by the wanted method, or by the one that did best.
func (rec *record) solve(wanted Method, others []ledger.Ledger) solution {
	by, can := rec.bestRatio(others)
	if can && (wanted == Ratio || wanted == Choose) {
		plans := rec.only(by.which).plans()
		if wanted == Ratio || by.beats(pick(Choose, plans)) {
			s := rec.lean(by)
			s.trials = append(trials(plans), by.trial)
			return s
		}
	}
	plans := rec.plans()
	s := solution{plan: pick(wanted, plans), other: -1, trials: trials(plans)}
	s.used = slices.Repeat([]Method{s.method}, len(rec.gap))
	if can {
		s.trials = append(s.trials, by.trial)
	}
	return s
}

func trials(plans []plan) []Trial {
	all := make([]Trial, len(plans))
	for i, p := range plans {
		all[i] = p.trial
	}
	return all
}

// lean fills by ratio the days that the other instrument measured, and the
// rest of the gap from all days then known.
func (rec *record) lean(by ratioPlan) solution {
	s := solution{plan: by.plan, other: by.index, used: make([]Method, len(rec.gap))}
	s.kWh = make([]float64, len(rec.gap))
	rest := *rec
	rest.gap, rest.share, rest.last, rest.tells = nil, nil, nil, nil
	rest.kWh, rest.known, rest.told = slices.Clone(rec.kWh), slices.Clone(rec.known), slices.Clone(rec.told)
	rest.noise = slices.Clone(rec.noise)
	var left []int
	for i, t := range rec.gap {
		if j, found := slices.BinarySearch(by.which, i); found {
			s.kWh[i], s.used[i] = by.kWh[j], Ratio
			rest.kWh[t], rest.known[t] = by.kWh[j], true
			if rest.told != nil {
				rest.told[t], rest.noise[t] = false, 0
			}
			continue
		}
		left = append(left, i)
		rest.gap, rest.share = append(rest.gap, t), append(rest.share, rec.share[i])
		rest.tells = append(rest.tells, rec.tell(i))
	}
	if len(left) > 0 {
		p := pick(Choose, rest.plans())
		for j, i := range left {
			s.kWh[i], s.used[i] = p.kWh[j], p.method
		}
		s.standard, s.freedom = join(by.plan, p)
	}
	return s
}

// join combines two independent uncertainties and their degrees of freedom by
// the Welch-Satterthwaite formula (JCGM 100:2008, G.4.1).
func join(p, q plan) (standard, freedom float64) {
	a, b := p.standard*p.standard, q.standard*q.standard
	if a+b == 0 {
		return 0, min(p.freedom, q.freedom)
	}
	return math.Sqrt(a + b), (a + b) * (a + b) / (a*a/p.freedom + b*b/q.freedom)
}
