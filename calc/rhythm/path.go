package rhythm

import "math"

// The model. Pulses come at a pace: each interval is the one before, but for
// its scatter. In the place of that, with a small chance, the pace steps to
// another and stays. A pulse may lack, and a mark may be none. Scores are
// logarithms of likelihoods, in units of the pace, against all marks being
// none: to pass over a mark costs nothing, to count it brings its odds by sound
// and how well it comes when it was foretold.
const (
	lackFirst = -3.6 // a pulse lacks: about one in forty
	lackNext  = -1.6 // and the next one too
	stepCost  = -4.0 // the load changes at this pulse: about one in fifty
	restCost  = -1.0 // the interval in which it changed lies between: the next has the rest
	limpCost  = -0.7 // an interval is short because the one before was long
	limpStart = -3.0 // the second interval shows that the clock limps, by up to a quarter
	paceCost  = -2.0 // the first interval: nothing foretells it
	lackMost  = 12   // in a row; beyond, the load may as well have been off
	width     = 3    // hypotheses of the pace kept for each mark
	margin    = 14.0 // how far behind the best one a hypothesis may be
	back      = 24   // marks that may be passed over between two that count
)

// scale is how marks scatter about the pace.
type scale struct {
	timing float64 // standard deviation of a mark's time, in seconds
	wander float64 // standard deviation of an interval's load, as a fraction
}

// guess is a hypothesis at a mark: it counts, and the pace is so.
type guess struct {
	score, gain    float64
	pace, variance float64 // as they were before this mark
	off            float64
	next           float64 // the pace as it is after this mark
	fits           float64 // intervals that next rests on
	from           int32   // the mark before, or -1
	via            int8    // its hypothesis
	lacks          int8
	steps          bool
	rest           bool // it steps by what the interval before had not yet of a change
}

// guesses are the best hypotheses at a mark, the best first.
type guesses [width]guess

// variance is that of when a pulse comes that is m intervals of pace p away,
// where p rests on some intervals.
func (s scale) variance(p, fits float64, m int) float64 {
	two, one := 2*s.timing*s.timing, s.wander*s.wander*p*p
	far := float64(m)
	return two + one*far + far*far*(two+one)/(fits+0.5)
}

// density is the logarithm of a normal density in units of the pace p, z
// standard deviations off, for a variance.
func density(p, zz, variance float64) float64 {
	return -0.5 * (zz + ln(variance/(p*p)) + 1.8378770664093453)
}

// ln is the natural logarithm to some 1e-4, which is enough for weighing, in a
// fraction of the time: most of the work is logarithms.
func ln(x float64) float64 {
	b := math.Float64bits(x)
	e := float64(int(b>>52)&0x7ff - 1023)
	m := math.Float64frombits(b&(1<<52-1)|1023<<52) - 1
	return 0.6931472 * (e + m*(1.4418+m*(-0.7096+m*(0.4174+m*(-0.1967+m*0.0471)))))
}

// walk finds the best path through a run.
func (r *run) walk(s scale) {
	n := len(r.at)
	nodes := make([]guesses, n)
	best, bestVia := -1, 0
	first, last := bound(r.must)
	for i := range n {
		r.reach(s, nodes, i, i <= first)
		for k := range nodes[i] {
			if i >= last && nodes[i][k].score > -1e300 && (best < 0 || nodes[i][k].score > nodes[best][bestVia].score) {
				best, bestVia = i, k
			}
		}
	}
	r.path = r.path[:0]
	for best >= 0 {
		g := nodes[best][bestVia]
		r.path = append(r.path, stop{
			mark: best, lacks: int(g.lacks), steps: g.steps, rest: g.rest, starts: g.from < 0,
			pace: g.pace, spread: math.Sqrt(g.variance), off: g.off, gain: g.gain,
		})
		best, bestVia = int(g.from), int(g.via)
	}
	for a, b := 0, len(r.path)-1; a < b; a, b = a+1, b-1 {
		r.path[a], r.path[b] = r.path[b], r.path[a]
	}
}

// bound gives the mark at which a path must have begun, and the one before
// which it must not end.
func bound(must []bool) (first, last int) {
	first = len(must)
	for i, m := range must {
		if m {
			first, last = min(first, i), i
		}
	}
	return first, last
}

// reach fills the hypotheses of mark i from those of the marks before it; it may
// be the first.
func (r *run) reach(s scale, nodes []guesses, i int, first bool) {
	node := &nodes[i]
	for k := range node {
		node[k].score = math.Inf(-1)
	}
	if first {
		node.keep(guess{score: r.odds[i], from: -1})
	}
	for j := i - 1; j >= 0 && j >= i-back; j-- {
		for via := range nodes[j] {
			g := &nodes[j][via]
			// 6 is more than any time can bring.
			if g.score+r.odds[i]+6 < node[0].score-margin || g.score < -1e300 {
				break
			}
			r.extend(s, node, g, i, j, via)
		}
		if r.must[j] {
			break
		}
	}
}

// extend adds to a node what follows from one hypothesis at an earlier mark.
func (r *run) extend(s scale, node *guesses, g *guess, i, j, via int) {
	d := r.at[i] - r.at[j]
	if d <= 0 {
		if !r.must[j] || !r.must[i] {
			return
		}
		d = 1e-6
	}
	score := g.score + r.odds[i]
	n := guess{from: int32(j), via: int8(via)}
	if g.fits == 0 {
		n.gain = paceCost
		n.pace, n.variance, n.next, n.fits = d, s.variance(d, 1, 1), d, 1
		n.score = score + n.gain
		node.keep(n)
		return
	}
	if m := max(1, int(d/g.next+0.5)); m <= lackMost+1 {
		s.goOn(node, g, n, d, m, score)
		if m == 1 && g.fits == 1 && math.Abs(d-g.next) < 0.25*g.next {
			limp := n
			limp.next, limp.fits = (g.next+d)/2, 2
			limp.pace, limp.off, limp.variance = limp.next, d-limp.next, s.variance(g.next, 1, 1)
			limp.gain = limpStart
			limp.score = score + limp.gain
			node.keep(limp)
		}
	}
	cost := stepCost
	if g.steps && !g.rest && (d-g.next)*(g.next-g.pace) > 0 {
		cost, n.rest = restCost, true
	}
	if score+cost+step(0) <= node[width-1].score {
		return
	}
	n.gain = cost + step(ln(d/g.next))
	n.pace, n.variance, n.next, n.fits, n.steps = g.next, s.variance(g.next, g.fits, 1), d, 1, true
	n.score = score + n.gain
	node.keep(n)
}

// goOn adds that the pace goes on, m intervals in the time d.
func (s scale) goOn(node *guesses, g *guess, n guess, d float64, m int, score float64) {
	p := g.next
	n.pace, n.off, n.variance = p, d-float64(m)*p, s.variance(p, g.fits, m)
	zz := n.off * n.off / n.variance
	n.fits = min(g.fits+1, 5)
	n.next = p + n.off/(float64(m)*n.fits)
	if n.next <= 0 || zz >= 60 {
		return
	}
	n.lacks = int8(m - 1)
	n.gain = density(p, zz, n.variance) + lacking(m-1)
	if m == 1 && g.off != 0 && g.lacks == 0 {
		// A clock that limps, or a mark that was late.
		off := n.off + g.off
		n.gain = max(n.gain, density(p, off*off/n.variance, n.variance)+limpCost)
	}
	n.score = score + n.gain
	node.keep(n)
}

// lacking is the log-likelihood that so many pulses lack in a row.
func lacking(m int) float64 {
	if m == 0 {
		return 0
	}
	return lackFirst + float64(m-1)*lackNext
}

// step is the log-density of a change of the pace, by the logarithm of its
// factor: Laplace's, so that large changes are less likely but possible.
func step(u float64) float64 { return -0.6931 - math.Abs(u) }

// keep puts a hypothesis among the best, unless a better one has its pace.
func (node *guesses) keep(g guess) {
	if g.score <= node[width-1].score {
		return
	}
	for k := range node {
		if g.score > node[k].score {
			end := width - 1
			for l := k; l < width-1; l++ {
				if alike(node[l].next, g.next) {
					end = l
					break
				}
			}
			copy(node[k+1:end+1], node[k:end])
			node[k] = g
			return
		}
		if alike(node[k].next, g.next) {
			return
		}
	}
}

// alike says whether two paces are one.
func alike(a, b float64) bool { return math.Abs(a-b) <= 0.02*a }
