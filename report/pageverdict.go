package report

import (
	"math"
	"strings"
	"unicode"

	"winterline/sim"
	"winterline/sim/answers"
)

// stateBadges say a verdict's state in two or three words.
var stateBadges = map[sim.State]string{
	sim.Clear:        "No ice",
	sim.Iced:         "Ice, never shut",
	sim.ShutRelieved: "Frozen shut, house dry",
	sim.Spilled:      "Water beside the house",
	sim.Flooded:      "Wet basement",
}

// pageVerdict is the headline in its two parts, as a page prints it.
func pageVerdict(r *sim.Result, s System) (verdict, then string) {
	table := newWaterTable(r, s)
	return unshout(basementWords(r, &table)), strings.ReplaceAll(lineWords(r, &table), "'Could shut'", "'Could shut sooner'")
}

// unshout prints words in capitals as a sentence does; other words stay.
func unshout(words string) string {
	fields := strings.Split(words, " ")
	first := true
	for i, w := range fields {
		letters := strings.TrimFunc(w, func(c rune) bool { return !unicode.IsLetter(c) })
		if len(letters) > 1 && strings.ToUpper(letters) == letters || letters == "A" {
			fields[i] = strings.ToLower(w)
			if first {
				fields[i] = capital(fields[i])
			}
		}
		first = strings.HasSuffix(w, ".")
	}
	return strings.Join(fields, " ")
}

// pageNumber is one of the figures that matter: what it is, the figure, and what belongs to it.
type pageNumber struct {
	Name, Value string
	Notes       []string
	Bad         bool
}

// pageNumbers are the five figures of a winter.
func pageNumbers(r *sim.Result, o PageOptions) []pageNumber {
	s := o.Screen.System
	numbers := []pageNumber{firstIceNumber(r), shutNumber(r), reliefNumber(r, s), besideNumber(r, s), marginNumber(r, o.Margin, s)}
	for i := range numbers {
		numbers[i].Value = strings.ReplaceAll(numbers[i].Value, " °", "\u00a0°")
		for j, note := range numbers[i].Notes {
			numbers[i].Notes[j] = unbroken(note)
		}
	}
	return numbers
}

func firstIceNumber(r *sim.Result) pageNumber {
	t := r.Verdict.FirstIce
	if t == nil {
		return pageNumber{Name: "First ice", Value: "None", Notes: []string{"No ice formed in the line."}}
	}
	n := pageNumber{Name: "First ice", Value: stamp(r.Start, *t).Format("Jan 2")}
	when := spokenTime(r.Start, *t)
	for _, seg := range r.Segments {
		if seg.FirstIce != nil && *seg.FirstIce == *t {
			when += ", in the " + seg.Name
			break
		}
	}
	n.Notes = []string{when + "."}
	return n
}

func shutNumber(r *sim.Result) pageNumber {
	v := r.Verdict
	if v.Closed == nil {
		return pageNumber{Name: "Frozen shut", Value: "Never", Notes: []string{"The line stayed open."}}
	}
	n := pageNumber{Name: "Frozen shut", Value: spokenDuration(v.ShutFor), Bad: true,
		Notes: []string{"First " + spokenTime(r.Start, *v.Closed) + ", " + shutFirst(r) + "."}}
	if v.Reopened == nil {
		n.Notes = append(n.Notes, "Still shut at the end of the record.")
	} else {
		n.Notes = append(n.Notes, "Open for good "+spokenTime(r.Start, *v.Reopened)+".")
	}
	return n
}

// reliefNumber is how long water ran out of a relief opening: the pump's running time in cycles in which one ran.
func reliefNumber(r *sim.Result, s System) pageNumber {
	n := pageNumber{Name: "Out of the relief opening", Value: "Never", Notes: []string{"It did not have to run."}}
	if len(r.Layout.Reliefs) == 0 {
		n.Value, n.Notes = "None", []string{"The line has no relief opening."}
		return n
	}
	if r.Verdict.Relief == nil {
		return n
	}
	running := 0.0
	for _, c := range r.Cycles {
		if c.Relief > 0 {
			running += c.Run
		}
	}
	n.Value = hoursWords(running)
	n.Notes = []string{"Water ran there in " + plural(float64(r.Verdict.ReliefRuns), "run") + " of the pump, " + s.bothVolumes(r.Ledger.Relief) + "."}
	return n
}

// hoursWords prints a length of time [s] in hours, or in minutes below one and a half.
func hoursWords(s float64) string {
	if s < 5400 {
		return spokenDuration(s)
	}
	decimals := 0
	if s < 10*3600 {
		decimals = 1
	}
	return strings.TrimSuffix(number(s/3600, decimals), ".0") + " hours"
}

// besideNumber is the water let go beside the house: over the rim, and out of relief openings that count as beside it.
func besideNumber(r *sim.Result, s System) pageNumber {
	n := pageNumber{Name: "Beside the house", Bad: r.Verdict.Spill != nil || r.Ledger.Floor > 0}
	switch {
	case r.Verdict.Spill == nil:
		n.Value, n.Notes = "None", []string{"No water out of the top of the standpipe or against the wall."}
		if r.Ledger.Relief > 0 {
			n.Notes = append(n.Notes, "The "+reliefWords(r)+" let go "+reliefDistance(r, s)+".")
		}
	case r.Ledger.Rim > 0:
		n.Value, n.Notes = s.bothVolumes(r.Ledger.Rim), []string{"Out of the top of the standpipe, next to the wall."}
	default:
		n.Value, n.Notes = s.bothVolumes(r.Ledger.Relief), []string{"Out of the " + reliefWords(r) + ", which counts as beside the house."}
	}
	if r.Ledger.Floor > 0 {
		n.Notes = append(n.Notes, s.bothVolumes(r.Ledger.Floor)+" on the basement floor.")
	}
	return n
}

// marginNumber is how close it was.
func marginNumber(r *sim.Result, m *answers.Margin, s System) pageNumber {
	if m == nil {
		return pageNumber{Name: "How close", Value: "Not asked", Notes: []string{"How much colder the winter could have been was not worked out."}}
	}
	n := pageNumber{Name: "How close", Bad: m.Open.K < 0,
		Notes: []string{"Line: " + lineCloseWords(m.Open, s) + ".", "Basement: " + basementCloseWords(r, m, s) + "."}}
	far := s.difference(math.Abs(m.Open.K))
	switch {
	case math.Abs(m.Open.K) < tooClose:
		n.Value = "Too close to call"
	case m.Open.K < 0:
		n.Value = far + " too cold"
	default:
		n.Value = far + " to spare"
	}
	if m.Open.Beyond {
		n.Value = "Over " + n.Value
	}
	return n
}
