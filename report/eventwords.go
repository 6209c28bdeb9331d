package report

import (
	"fmt"
	"strings"

	"winterline/sim"
)

// eventTitles name what happened in a few plain words, for a timeline; %s stands for where.
var eventTitles = map[sim.EventKind]string{
	sim.EventFirstIce:      "First ice in the %s",
	sim.EventSlush:         "Slush at once in the %s",
	sim.EventClosed:        "The %s froze shut",
	sim.EventReopened:      "The %s opened again",
	sim.EventReliefRunning: "The relief opening ran",
	sim.EventReliefBuried:  "Snow over the relief opening",
	sim.EventReliefStopped: "The relief opening stopped",
	sim.EventReliefIced:    "Ice over the bottom of the relief opening",
	sim.EventLidFrozen:     "The far end iced over",
	sim.EventRimSpill:      "Water out of the top, beside the house",
	sim.EventRoofOver:      "Roof water ran over at the downspout",
	sim.EventPocketFull:    "The rock pit was full",
	sim.EventPocketFrozen:  "The rock pit froze",
	sim.EventGapUsedUp:     "The air gap was used up",
	sim.EventSlipUsedUp:    "The loose joint may be at its end",
	sim.EventTrappedWater:  "Water shut in by ice in the %s",
	sim.EventShortCycling:  "The pump started too often, or ran too briefly",
	sim.EventPumpNoFlow:    "The pump pushed against ice, or had no power",
	sim.EventBackupRunning: "The backup pump took over",
	sim.EventFloorWet:      "Water on the basement floor",
}

// eventWeights say how much an event weighs in a timeline: 2 harm, 1 ice, 0 anything else.
var eventWeights = map[sim.EventKind]int{
	sim.EventClosed: 2, sim.EventRimSpill: 2, sim.EventFloorWet: 2, sim.EventPumpNoFlow: 2, sim.EventTrappedWater: 2, sim.EventRoofOver: 2,
	sim.EventFirstIce: 1, sim.EventSlush: 1, sim.EventReliefBuried: 1, sim.EventReliefIced: 1, sim.EventLidFrozen: 1, sim.EventPocketFrozen: 1,
}

// toldEvent is an event as a timeline tells it.
type toldEvent struct {
	Time     float64 // [s]
	When     string  // "Mon Jan 19 04:20"
	Machine  string  // the same as machines read it, "2026-01-19T04:20"
	Title    string
	Sentence string
	Weight   int
}

// mostTold is up to how often the same thing at one place is told one by one; beyond, the first stands for all.
const mostTold = 3

// tellEvents puts the events into plain words, in time order, with the last opening as the end of the story. What came
// again and again at one place is told once, with how often.
func tellEvents(r *sim.Result, s System) []toldEvent {
	type thing struct {
		kind  sim.EventKind
		where string
	}
	count, last := map[thing]int{}, map[thing]float64{}
	for _, e := range r.Events {
		count[thing{e.Kind, e.Where}]++
		last[thing{e.Kind, e.Where}] = e.Time
	}
	var told []toldEvent
	seen := map[thing]bool{}
	for _, e := range r.Events {
		k := thing{e.Kind, e.Where}
		if count[k] > mostTold && seen[k] {
			continue
		}
		t := tellEvent(r, e, s)
		if count[k] > mostTold && !seen[k] {
			t.Sentence += fmt.Sprintf(" It happened %s in all, the last time on %s.", plural(float64(count[k]), "time"), spokenTime(r.Start, last[k]))
		}
		seen[k] = true
		told = append(told, t)
	}
	if n := len(r.Hourly.Time); n > 0 && r.Verdict.Closed != nil && r.Verdict.Reopened == nil {
		end := sim.Event{Time: r.Hourly.Time[n-1], Meaning: "the line was still shut"}
		t := tellEvent(r, end, s)
		t.Title, t.Weight = "The weather record ends", 2
		told = append(told, t)
	}
	for i := range told {
		told[i].Sentence = unbroken(told[i].Sentence)
	}
	return told
}

func tellEvent(r *sim.Result, e sim.Event, s System) toldEvent {
	title, known := eventTitles[e.Kind]
	if !known {
		title = capital(strings.ReplaceAll(string(e.Kind), "-", " "))
	}
	if strings.Contains(title, "%s") {
		title = fmt.Sprintf(title, eventPlace(e.Where))
	}
	return toldEvent{Time: e.Time, When: spokenTime(r.Start, e.Time), Machine: stamp(r.Start, e.Time).Format("2006-01-02T15:04"),
		Title: title, Sentence: eventSentence(r, e, s), Weight: eventWeights[e.Kind]}
}

// eventMeaning tells an event by itself: what happened, and its figure in both units.
func eventMeaning(r *sim.Result, e sim.Event, s System) string {
	t := tellEvent(r, e, s)
	return strings.TrimSpace(t.Title + ". " + t.Sentence)
}

// eventPlace names the place of an event within a sentence.
func eventPlace(where string) string {
	switch where {
	case "pocket":
		return "rock pit"
	case "ground at outlet":
		return "far end"
	case "":
		return "line"
	}
	return where
}

// eventDetails say the rest in a sentence; %s stands for the event's figure, in both units. What is not listed is told in
// the event's own words.
var eventDetails = map[sim.EventKind]string{
	sim.EventFirstIce:      "",
	sim.EventReopened:      "",
	sim.EventClosed:        "Ice closed it %s from the wall.",
	sim.EventSlush:         "Still water had stayed liquid below freezing; %s of it turned to slush in a moment.",
	sim.EventReliefRunning: "The line took no more; the water stood %s above the ground and ran out of the opening.",
	sim.EventReliefBuried:  "%s of snow lay beside it: it could not be counted on.",
	sim.EventReliefStopped: "The line took the water again.",
	sim.EventReliefIced:    "Ice from the water let go had grown %s thick there.",
	sim.EventRimSpill:      "Water stood %s above the ground in the standpipe and ran out of its top, beside the house.",
	sim.EventRoofOver:      "Roof water found the line shut; %s ran over first.",
	sim.EventPocketFull:    "It held %s, and from then on the line stayed full behind it.",
	sim.EventPocketFrozen:  "The %s in it froze: it takes in and drains no more.",
	sim.EventGapUsedUp:     "Water in the standpipe reached the open end of the house pipe, %s above the ground.",
	sim.EventSlipUsedUp:    "Frost may have lifted the standpipe by more than the %s that the joint takes.",
	sim.EventPumpNoFlow:    "%s stayed in the basin.",
	sim.EventBackupRunning: "It first lifted %s.",
	sim.EventFloorWet:      "The basin overflowed.",
}

// eventSentence says the rest of an event, with its figure in the reader's units; "" where its title says all.
func eventSentence(r *sim.Result, e sim.Event, s System) string {
	if e.Kind == sim.EventTrappedWater && e.Value != nil {
		return trappedSentence(r, e, s)
	}
	if e.Kind == sim.EventClosed && e.Value != nil && *e.Value < atWall {
		return "Ice closed it right at the wall."
	}
	detail, known := eventDetails[e.Kind]
	figure := eventFigure(e, s)
	switch {
	case known && !strings.Contains(detail, "%s"):
		return detail
	case known && figure != "":
		return fmt.Sprintf(detail, figure)
	case e.Meaning == "":
		return ""
	case figure == "":
		return capital(e.Meaning) + "."
	}
	return capital(e.Meaning) + ": " + figure + "."
}

// trappedSentence says what was shut in when, and how hard its ice could press.
func trappedSentence(r *sim.Result, e sim.Event, s System) string {
	words := s.bothVolumes(*e.Value/litresPerM3) + " stood between plugs of ice, or between one and the check valve"
	for _, x := range r.Trapped {
		if x.Since == e.Time && x.Where == e.Where {
			words = s.bothVolumes(x.Volume) + " stood " + trappedBetween(x) + trappedPressure(x, s)
		}
	}
	return words + ". A plugged line may be under pressure: do not cut or unscrew it."
}

// eventFigure prints the event's number in both units; "" for none.
func eventFigure(e sim.Event, s System) string {
	if e.Value == nil {
		return ""
	}
	switch e.Unit {
	case "m":
		return s.bothLengths(*e.Value)
	case "L":
		return s.bothVolumes(*e.Value / litresPerM3)
	case "%":
		return number(*e.Value, 0) + " %"
	}
	return shortest(*e.Value)
}
