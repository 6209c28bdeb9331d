package sim

import (
	"fmt"
	"math"
)

// What a pump's motor is held to: so many starts an hour, and runs of so long (common practice, no source).
const (
	MostStarts = 20
	ShortRun   = 10.0 // [s]
)

// Short runs count from this many on, and from this share of all: one alone may be the record's end.
const (
	fewestShortRuns = 2
	fewRuns         = 0.01 // [-]
)

// ShortCycling says how a pump's runs stand to what its motor bears.
type ShortCycling struct {
	Busiest   int     // most starts in an hour since the first weather row
	BusyHours int     // hours with more than MostStarts
	Runs      int     // whole runs; one that ice or a power cut kept short is none
	Short     int     // of them under ShortRun; 0 where they are too few to count
	Shortest  float64 // of all runs [s]; +Inf: there is none
	hours     []pumpHour
}

// pumpHour is an hour in which the pump started.
type pumpHour struct {
	number int // since the first weather row
	starts int
	many   float64 // when it started once too often [s]; +Inf: never
	short  float64 // first run under ShortRun [s]; +Inf: none
}

// CountShortCycling goes through the pump cycles of a result, which are in time order.
func CountShortCycling(cycles []CycleRecord) ShortCycling {
	s := ShortCycling{Shortest: math.Inf(1)}
	for _, c := range cycles {
		h := s.hour(int(c.Time / 3600))
		if h.starts++; h.starts == MostStarts+1 {
			h.many = c.Time
			s.BusyHours++
		}
		s.Busiest = max(s.Busiest, h.starts)
		if c.Run <= 0 || c.Refused > 0 {
			continue
		}
		s.Runs++
		s.Shortest = math.Min(s.Shortest, c.Run)
		if c.Run < ShortRun {
			s.Short++
			h.short = math.Min(h.short, c.Time)
		}
	}
	if s.Short < fewestShortRuns || float64(s.Short) <= fewRuns*float64(s.Runs) {
		s.Short = 0
	}
	return s
}

// hour is the hour in which a cycle falls.
func (s *ShortCycling) hour(number int) *pumpHour {
	if n := len(s.hours); n == 0 || s.hours[n-1].number != number {
		s.hours = append(s.hours, pumpHour{number: number, many: math.Inf(1), short: math.Inf(1)})
	}
	return &s.hours[len(s.hours)-1]
}

// events are one for each spell: hours of pumping, one after the other, that are all too busy or
// hold short runs. Hours in which the pump rests do not end it.
func (s *ShortCycling) events() (all []Event) {
	was := false
	for _, h := range s.hours {
		if s.Short == 0 {
			h.short = math.Inf(1)
		}
		at := math.Min(h.many, h.short)
		bad := !math.IsInf(at, 1)
		if bad && !was {
			all = append(all, h.event(at))
		}
		was = bad
	}
	return all
}

// event is that of a spell which begins in this hour.
func (h pumpHour) event(at float64) Event {
	starts := float64(h.starts)
	fault := fmt.Sprintf("ran for under %.0f s at a time", ShortRun)
	if h.many < math.Inf(1) {
		fault = fmt.Sprintf("started over %d times an hour", MostStarts)
	}
	return Event{Time: at, Kind: EventShortCycling, Where: "pump", Value: &starts, Unit: "1/h",
		Meaning: "the pump " + fault + ", which wears out its switch and motor; starts in that hour"}
}
