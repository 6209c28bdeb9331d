package main

import (
	"fmt"
	"io"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
)

// progress shows how far a command is and how long it will take yet, on standard error and only on a terminal.
type progress struct {
	mu     sync.Mutex
	bar    *progressbar.ProgressBar // nil: nothing is shown
	words  string                   // what is being done
	begun  time.Time
	shares []float64 // of each part, 0 to 1
}

const progressSteps = 1000

// newProgress shows the progress of several parts that run side by side.
func newProgress(s streams, quiet bool, parts int, words string) *progress {
	p := &progress{words: words, begun: time.Now(), shares: make([]float64, parts)}
	if s.errTerminal && !quiet {
		p.bar = progressbar.NewOptions(progressSteps,
			progressbar.OptionSetWriter(s.stderr), progressbar.OptionSetDescription(words),
			progressbar.OptionSetWidth(30), progressbar.OptionClearOnFinish(),
			progressbar.OptionSetPredictTime(false), progressbar.OptionThrottle(100*time.Millisecond))
	}
	return p
}

// part gives the function that a part calls with the share that it has done.
func (p *progress) part(i int) func(share float64) {
	if p.bar == nil {
		return nil
	}
	return func(share float64) {
		p.mu.Lock()
		defer p.mu.Unlock()
		p.shares[i] = share
		sum := 0.0
		for _, s := range p.shares {
			sum += s
		}
		done := sum / float64(len(p.shares))
		p.bar.Describe(p.words + timeLeft(time.Since(p.begun), done))
		// A bar that cannot be drawn is no reason to stop.
		_ = p.bar.Set(int(progressSteps * done))
	}
}

// timeLeft says how long something will take yet that has done a share of itself in a time, as if it went on at the same
// pace; "" as long as that would be a guess.
func timeLeft(passed time.Duration, done float64) string {
	if passed < time.Second || done < 0.02 || done >= 1 {
		return ""
	}
	left := time.Duration(float64(passed) * (1 - done) / done)
	switch {
	case left < 90*time.Second:
		return fmt.Sprintf(", about %d s left", int(left.Seconds())+1)
	case left < 2*time.Hour:
		return fmt.Sprintf(", about %d min left", int(left.Minutes())+1)
	}
	return fmt.Sprintf(", about %d h left", int(left.Hours())+1)
}

// counted is part for one that counts its pieces.
func (p *progress) counted(i int) func(done, of int) {
	tell := p.part(i)
	if tell == nil {
		return nil
	}
	return func(done, of int) { tell(float64(done) / float64(of)) }
}

// clear takes the bar off the screen.
func (p *progress) clear() {
	if p.bar != nil {
		_ = p.bar.Clear() // likewise
	}
}

// stages tells how long the stages of a command took; the only place that looks at a clock.
type stages struct {
	to    io.Writer // nil: tells nothing
	begun time.Time
}

func newStages(tell bool, to io.Writer) *stages {
	if !tell {
		return &stages{}
	}
	return &stages{to, time.Now()}
}

// done ends a stage.
func (s *stages) done(name string) {
	if s.to == nil {
		return
	}
	now := time.Now()
	fmt.Fprintf(s.to, "%-12s %8.2f s\n", name, now.Sub(s.begun).Seconds())
	s.begun = now
}
