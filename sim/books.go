package sim

import (
	"fmt"
	"math"
)

// sum is a compensated sum (Neumaier 1974): thousands of small flows add up without
// losing what the books' closing error is judged by.
type sum struct{ total, lost float64 }

func (s *sum) add(v float64) {
	t := s.total + v
	if math.Abs(s.total) >= math.Abs(v) {
		s.lost += (s.total - t) + v
	} else {
		s.lost += (v - t) + s.total
	}
	s.total = t
}

func (s *sum) value() float64 { return s.total + s.lost }

// heatBook sums the heat that crossed the system's boundary [J], by term; what is stored
// is reckoned apart, from the first and the last state.
type heatBook struct {
	names  []string
	in     []sum
	out    []sum
	before float64 // stored at the start
}

// Terms of the heat book.
const (
	heatOutside      = "through the outside of the pipes"
	heatGround       = "with the undisturbed ground's own change"
	heatSurface      = "from the air inside the pipe"
	heatWaterIn      = "with water pumped in"
	heatExtra        = "with water that joined from elsewhere"
	heatOutlet       = "with water at the outlet"
	heatRelief       = "with water out of the relief"
	heatRim          = "with water out of the top of the standpipe"
	heatPocket       = "with water that left through the rock pit"
	heatPocketGround = "from the ground round the rock pit"
	heatWall         = "with wall and soil that came under water or fell dry"
)

func newHeatBook() *heatBook {
	names := []string{heatOutside, heatGround, heatSurface, heatWaterIn, heatExtra, heatOutlet, heatRelief, heatRim, heatPocket, heatPocketGround, heatWall}
	return &heatBook{names: names, in: make([]sum, len(names)), out: make([]sum, len(names))}
}

// add books heat that came in (positive) or went out.
func (b *heatBook) add(name string, joule float64) {
	for i, n := range b.names {
		if n == name {
			if joule >= 0 {
				b.in[i].add(joule)
			} else {
				b.out[i].add(-joule)
			}
			return
		}
	}
}

// close compares what came in with what is stored and fills in the balance.
func (b *heatBook) close(stored float64, out *Balance) {
	var net sum
	for i := range b.names {
		net.add(b.in[i].value())
		net.add(-b.out[i].value())
		out.HeatExchanged += b.in[i].value() + b.out[i].value()
		out.Terms = append(out.Terms, HeatTerm{b.names[i], b.in[i].value(), b.out[i].value()})
	}
	miss := math.Abs(net.value() - (stored - b.before))
	out.HeatRelative = miss / math.Max(out.HeatExchanged, 1/bookLimit)
}

// bookLimit is the closing error beyond which a run is refused, relative to what was
// exchanged; below 1 J or 1e-6 L in all, the error is judged against those.
const bookLimit = 1e-9

// BookError says that a run cannot be believed because a book does not close.
type BookError struct {
	Book            string
	Relative, Limit float64
}

func (e BookError) Error() string {
	return fmt.Sprintf("the %s book does not close: relative error %.3g, limit %.0e", e.Book, e.Relative, e.Limit)
}
