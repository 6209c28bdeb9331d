package sim

import (
	"fmt"
	"math"
)

// sum is a compensated sum (Neumaier 1974): thousands of small flows add up without the rounding
// that the books' closing error would be mistaken for.
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

// heatBook sums the heat that crossed the system's boundary [J], by term. What is stored comes from the first and
// the last state alone, so that the two sides of the book share no variable.
type heatBook struct {
	in, out [heatTerms]sum
	before  float64 // stored at the start
}

// heatTerm is a way on which heat crosses the boundary.
type heatTerm int

const (
	heatOutside heatTerm = iota
	heatGround
	heatSurface
	heatWaterIn
	heatExtra
	heatOutlet
	heatRelief
	heatRim
	heatPocket
	heatPocketGround
	heatWall
	heatTerms
)

// heatTermNames are the terms in the words of HeatTerm.
var heatTermNames = [heatTerms]string{
	heatOutside:      "through the outside of the pipes",
	heatGround:       "with the undisturbed ground's own change",
	heatSurface:      "from the air inside the pipe",
	heatWaterIn:      "with water pumped in",
	heatExtra:        "with water that joined from elsewhere",
	heatOutlet:       "with water at the outlet",
	heatRelief:       "with water out of the relief",
	heatRim:          "with water out of the top of the standpipe",
	heatPocket:       "with water that left through the rock pit",
	heatPocketGround: "from the ground round the rock pit",
	heatWall:         "with wall and soil that came under water or fell dry",
}

// add books heat that came in (positive) or went out (negative) [J].
func (b *heatBook) add(term heatTerm, joule float64) {
	if joule >= 0 {
		b.in[term].add(joule)
	} else {
		b.out[term].add(-joule)
	}
}

// close compares what came in with what is stored at the end [J] and fills in the balance.
func (b *heatBook) close(stored float64, out *Balance) {
	var net sum
	for i, name := range heatTermNames {
		in, gone := b.in[i].value(), b.out[i].value()
		net.add(in)
		net.add(-gone)
		out.HeatExchanged += in + gone
		out.Terms = append(out.Terms, HeatTerm{name, in, gone})
	}
	miss := math.Abs(net.value() - (stored - b.before))
	out.HeatRelative = miss / math.Max(out.HeatExchanged, 1/bookLimit)
}

// bookLimit is the closing error beyond which a run is refused, relative to what was
// exchanged; below 1 J or 1e-6 L in all, the error is judged against those.
const bookLimit = 1e-9

// BookError says that a run cannot be believed because a book does not close.
type BookError struct {
	Book            string  // "water", "heat" or "ground heat"
	Relative, Limit float64 // closing error over what was exchanged, and the most allowed [-]
}

// Error names the book, its error and the limit.
func (e BookError) Error() string {
	return fmt.Sprintf("the %s book does not close: relative error %.3g, limit %.0e", e.Book, e.Relative, e.Limit)
}
