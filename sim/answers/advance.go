package answers

import "sync"

// advance adds up how far several pieces of work have come that are done side by side.
type advance struct {
	mu   sync.Mutex
	each []float64
	tell func(done, of int) // nil: nobody looks
}

func newAdvance(n int, tell func(done, of int)) *advance {
	return &advance{each: make([]float64, n), tell: tell}
}

// of gives the function that piece i calls with how far it has come in a part of its work, which takes the piece from one
// share of its way to another; nil where nobody looks.
func (a *advance) of(i int, from, to float64) func(share float64) {
	if a.tell == nil {
		return nil
	}
	return func(share float64) {
		a.mu.Lock()
		defer a.mu.Unlock()
		a.each[i] = from + share*(to-from)
		sum := 0.0
		for _, v := range a.each {
			sum += v
		}
		a.tell(int(sum*progressSteps), len(a.each)*progressSteps)
	}
}

// steps is as of, for work that tells how many of its steps are done.
func (a *advance) steps(i int, from, to float64) func(done, of int) {
	tell := a.of(i, from, to)
	if tell == nil {
		return nil
	}
	return func(done, of int) { tell(float64(done) / float64(of)) }
}
