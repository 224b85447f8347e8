package intake

func (p *paper) layGrid() bool                  { return false }
func (p *paper) inherit(core int) ([]int, bool) { return nil, false }
func (p *paper) buildInherited(lines []int)     {}
func (p *paper) layUndated()                    {}
func (a *attempt) countFromFirstDay()           {}
