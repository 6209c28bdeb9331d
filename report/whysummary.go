package report

import (
	"io"
	"math"

	"winterline/sim"
	"winterline/sim/answers"
)

// whySchema names the form of the summary of a folder on causes and changes.
const whySchema = "winterline.why/1"

// WhySummary is the summary.json of a folder on causes and changes. All keys are always present; what never happened, or
// is not known, is null. Values are SI, volumes litres.
type WhySummary struct {
	Schema    string              `json:"schema"`
	Version   string              `json:"version"`
	Case      string              `json:"case"`
	Verdict   SummaryVerdict      `json:"verdict"`
	Why       string              `json:"why"` // in one sentence
	Seen      []SummarySeen       `json:"seen"`
	Closures  []SummaryClosure    `json:"closures"`
	Remedies  SummaryRemedies     `json:"remedies"`
	Reverse   *string             `json:"reverse"` // what the winter would have been without the relief openings; null: there are none
	CannotSee []blindSpot         `json:"cannot_see"`
	Guesses   []SummaryGuessTried `json:"guesses"`
	Inputs    map[string]string   `json:"inputs"`
	Findings  []SummaryFinding    `json:"findings"`
	Warnings  []SummaryWarning    `json:"warnings"`
	Caution   string              `json:"caution"`
}

// SummarySeen is something that the owner saw beside the simulation.
type SummarySeen struct {
	What       string          `json:"what"`
	Seen       *Moment         `json:"seen"`
	Simulated  *Moment         `json:"simulated"`    // nearest of its kind; null: that never happened
	Difference *float64        `json:"difference_h"` // simulated less seen
	Held       bool            `json:"was_so"`       // it was so in the simulation when it was seen
	Outside    bool            `json:"outside_record"`
	Far        bool            `json:"far"` // over two days apart, or it never happened
	Nearer     []SummaryNearer `json:"nearer_with"`
	Words      string          `json:"words"`
}

// SummaryNearer is a guess at an end of its range that brings the simulation nearer to what was seen.
type SummaryNearer struct {
	Key        string   `json:"key"`
	End        string   `json:"end"` // low or high
	Simulated  *Moment  `json:"simulated"`
	Difference *float64 `json:"difference_h"`
	Agrees     bool     `json:"agrees"`
	Measure    string   `json:"measure"`
}

// SummaryGuessTried is a guess with what it does to the verdict.
type SummaryGuessTried struct {
	SummaryGuess
	Changes *bool   `json:"changes_verdict"` // at either end of its range; null: not tried
	Low     *string `json:"low_state"`       // the verdict's state there; null: not tried, or the layout does not allow it
	High    *string `json:"high_state"`
	Measure string  `json:"measure"` // what to measure in its place
}

// SummaryClosure is one time that the line froze shut, with what brought it about.
type SummaryClosure struct {
	Where      string         `json:"where"`
	Distance   *float64       `json:"distance_m"` // from the wall
	From       *float64       `json:"from_m"`     // the plug
	To         *float64       `json:"to_m"`
	Shut       *Moment        `json:"shut"`
	Reopened   *Moment        `json:"reopened"`
	After      *int           `json:"after"` // index of what was shut already; null: nothing was
	OnGround   bool           `json:"ice_on_ground"`
	Slush      bool           `json:"slush"`
	Barrier    string         `json:"barrier"`
	Stood      *float64       `json:"stood_l"` // there, in one cell of the line
	Fill       *float64       `json:"fill"`
	Stretch    *float64       `json:"stretch_l"` // in the whole stretch
	Warm       *Moment        `json:"last_warm"` // water
	WarmVolume *float64       `json:"last_warm_l"`
	FirstIce   *Moment        `json:"first_ice"`
	AboveZero  *float64       `json:"heat_above_zero_j"`
	ToShut     *float64       `json:"heat_to_shut_j"`
	LossToIce  *float64       `json:"loss_to_ice_w"`
	Loss       *float64       `json:"loss_w"`
	Layers     []SummaryLayer `json:"layers"` // from the ice out to the air
	Air        *float64       `json:"air_c"`
	MeanAir    *float64       `json:"air_since_warm_c"`
	Wind       *float64       `json:"wind_m_s"`
	Ground     *float64       `json:"ground_c"`
	Frost      *float64       `json:"frost_m"`
	Snow       *float64       `json:"snow_m"`
	PocketFull *float64       `json:"pocket_full"`
	Runs       int            `json:"runs_while_shut"`
	Relief     *float64       `json:"relief_while_shut_l"`
	Rim        *float64       `json:"rim_while_shut_l"`
	Refused    *float64       `json:"refused_while_shut_l"`
	Words      []string       `json:"words"`
}

// SummaryLayer is one resistance to the heat on its way out.
type SummaryLayer struct {
	Kind       string   `json:"kind"`
	Material   string   `json:"material"`
	Thickness  *float64 `json:"thickness_m"`
	Resistance *float64 `json:"resistance_m_k_w"` // of a metre of pipe
	Share      *float64 `json:"share"`
}

// SummarizeWhy gives the summary of an answer.
func SummarizeWhy(a *WhyAnswer, p Provenance) *WhySummary {
	r := a.Result
	out := &WhySummary{Schema: whySchema, Version: p.Version, Case: r.Name, Verdict: Summarize(r, p).Verdict, Why: whyHeadline(a.Why, SI), Seen: []SummarySeen{},
		Closures: []SummaryClosure{}, Remedies: summaryRemedies(a.Remedies, r.Layout), CannotSee: []blindSpot{}, Guesses: summaryTriedGuesses(r, a.Sure),
		Inputs: orEmpty(p.Inputs), Findings: winterFindings(r, p.Findings), Warnings: summaryWarnings(r.Warnings), Caution: caution}
	for _, m := range a.Seen {
		out.Seen = append(out.Seen, summarySeen(r, m))
	}
	for i := range r.Closures {
		out.Closures = append(out.Closures, summaryClosure(r, i))
	}
	if words := reverseWords(a.Why, SI); words != nil {
		out.Reverse = &words[0]
	}
	if showsBlindSpots(a.Why) {
		out.CannotSee = blindSpots
	}
	return out
}

// summaryTriedGuesses are the guesses of a result with what they do; tried is nil where they were not tried.
func summaryTriedGuesses(r *sim.Result, tried []answers.GuessTried) []SummaryGuessTried {
	out := []SummaryGuessTried{}
	guesses := guessesOf(r.Layout)
	for i, g := range summaryGuesses(guesses) {
		s := SummaryGuessTried{SummaryGuess: g, Measure: howToMeasure(guesses[i])}
		if i < len(tried) && tried[i].Tried() {
			t := &tried[i]
			s.Changes, s.Low, s.High = &t.Changes, stateOf(t.Low), stateOf(t.High)
		}
		out = append(out, s)
	}
	return out
}

// stateOf is the word for the verdict at an end of a guess.
func stateOf(end *answers.GuessEnd) *string {
	if end == nil {
		return nil
	}
	word := end.State.String()
	return &word
}

// instant is the instant t [s] of a result; null where it is not known.
func instant(r *sim.Result, t float64) *Moment {
	if math.IsNaN(t) {
		return nil
	}
	return momentAt(r.Start, t)
}

func summarySeen(r *sim.Result, m answers.SeenSet) SummarySeen {
	out := SummarySeen{What: m.What, Seen: momentAt(r.Start, m.Seen), Simulated: momentIf(r.Start, m.Simulated), Difference: finite(roundTo(m.Difference/3600, 4)),
		Held: m.Held, Outside: m.Outside, Far: m.Far(), Nearer: []SummaryNearer{}, Words: seenSentence(r, m.SeenMatch)}
	for _, n := range m.Nearer {
		end := "low"
		if n.High {
			end = "high"
		}
		out.Nearer = append(out.Nearer, SummaryNearer{n.Guess.Key, end, momentIf(r.Start, n.Match.Simulated), finite(roundTo(n.Match.Difference/3600, 4)), !n.Match.Far(), howToMeasure(n.Guess)})
	}
	return out
}

func summaryClosure(r *sim.Result, i int) SummaryClosure {
	c := &r.Closures[i]
	out := SummaryClosure{Where: r.Segments[c.Where].Name, Distance: finite(c.Distance), From: finite(c.From), To: finite(c.To), Shut: instant(r, c.Shut),
		Reopened: momentIf(r.Start, c.Reopened), OnGround: c.Mound, Slush: c.Slush, Barrier: string(c.Stood.Barrier), Stood: summaryLitres(c.Stood.Volume), Fill: finite(c.Stood.Fill),
		Stretch: summaryLitres(c.Stood.Stretch), Warm: instant(r, c.Warm.Time), WarmVolume: summaryLitres(c.Warm.Volume), Layers: []SummaryLayer{},
		Air: finite(c.Met.Air), MeanAir: finite(c.Met.MeanSince), Wind: finite(c.Met.Wind), Ground: finite(c.Met.Ground), Frost: finite(c.Met.Frost), Snow: finite(c.Met.Snow),
		Runs: c.During.Cycles, Relief: summaryLitres(c.During.Relief), Rim: summaryLitres(c.During.Rim), Refused: summaryLitres(c.During.Refused), Words: causeWords(r, i, SI)}
	if c.After >= 0 {
		out.After = &c.After
	}
	if c.Pocket != nil {
		out.PocketFull = finite(c.Pocket.Full)
	}
	if !c.Mound {
		h := c.Heat
		out.FirstIce, out.AboveZero, out.ToShut, out.LossToIce, out.Loss = instant(r, h.FirstIce), finite(h.AboveZero), finite(h.ToShut), finite(h.LossToIce), finite(h.Loss)
	}
	for _, l := range c.Layers {
		out.Layers = append(out.Layers, SummaryLayer{l.Kind, l.Material, finite(l.Thickness), finite(l.Resistance), finite(l.Share)})
	}
	return out
}

// WhySummaryFile gives summary.json.
func WhySummaryFile(a *WhyAnswer, p Provenance) File {
	return File{SummaryName, func(w io.Writer) error { return SummarizeWhy(a, p).Encode(w) }}
}

// Encode writes the summary as indented JSON.
func (s *WhySummary) Encode(w io.Writer) error { return encode(w, s) }
