package sim

// Turned is a cell that shut or opened [s].
type Turned struct {
	Cell int
	Shut bool
	At   float64
}

// Plugs follows the closures of a line of cells of one metre, all under standing water between two of them, whose
// cells turn as told.
func Plugs(cells, standFrom, standTo int, turns ...Turned) []Closure {
	r := &recorder{plugOf: make([]int, cells)}
	for _, x := range turns {
		c := &cell{place: place{x0: float64(x.Cell), x1: float64(x.Cell + 1)}}
		if now := (turn{x.Cell, x.At}); !x.Shut {
			r.closeOpens(now)
		} else {
			r.closes(c, now, func() closing {
				return closing{Closure: Closure{Shut: x.At, From: c.near(), To: c.far()}, from: x.Cell, to: x.Cell, standFrom: standFrom, standTo: standTo}
			})
		}
	}
	var out []Closure
	for _, k := range r.closings {
		out = append(out, k.Closure)
	}
	return out
}
