package answers

import "sync"

// advance adds up how far several pieces of work are that stand side by side.
type advance struct {
	mu   sync.Mutex
	each []float64
	tell func(done, of int) // nil: nobody looks
}

func newAdvance(n int, tell func(done, of int)) *advance {
	return &advance{each: make([]float64, n), tell: tell}
}

// shareSteps is how finely the progress of one piece is told.
const shareSteps = 1000

// of gives the function that piece i calls with its share of the way from one share to another.
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
		a.tell(int(sum*shareSteps), len(a.each)*shareSteps)
	}
}

// steps is of in whole steps.
func (a *advance) steps(i int, from, to float64) func(done, of int) {
	tell := a.of(i, from, to)
	if tell == nil {
		return nil
	}
	return func(done, of int) { tell(float64(done) / float64(of)) }
}
