package report

import (
	"io"

	"winterline/sim/answers"
	"winterline/weather/chance"
)

// wintersSchema names the form of the summary of many winters.
const wintersSchema = "winterline.winters/1"

// WintersSummary is the summary.json of many winters. All keys are always present; what never happened, or was not asked
// for, is null. Temperatures are °C, differences K, volumes litres, times local standard time.
type WintersSummary struct {
	Schema  string                 `json:"schema"`
	Version string                 `json:"version"`
	Winters []string               `json:"winters"`
	LeftOut []answers.LeftOut      `json:"left_out"`
	Layouts []SummaryWintersLayout `json:"layouts"`
	Doubts  []string               `json:"weather_doubts"`
	Inputs  map[string]string      `json:"inputs"`
	Caution string                 `json:"caution"`
}

// SummaryWintersLayout is one layout through all winters.
type SummaryWintersLayout struct {
	Case     string                 `json:"case"`
	Title    string                 `json:"title"`
	Count    SummaryWintersCount    `json:"count"`
	Shut     SummaryFrequency       `json:"freezes_shut"`
	Wet      SummaryFrequency       `json:"gets_wet"`    // beside the house or on the floor
	Loss     *SummaryLoss           `json:"yearly_loss"` // null: the layout says no costs
	Draws    *SummaryDraws          `json:"draws"`       // null: nothing was drawn
	Winters  []SummaryWinterOutcome `json:"outcomes"`
	Guesses  []SummaryGuess         `json:"guesses"`
	Warnings []SummaryWarning       `json:"warnings"`
}

// SummaryWintersCount is in how many winters something happened.
type SummaryWintersCount struct {
	Winters int `json:"winters"`
	Iced    int `json:"iced"`
	Shut    int `json:"shut"`
	Relief  int `json:"relief"`
	Spilled int `json:"spilled"`
	Flooded int `json:"flooded"`
	Wet     int `json:"wet"` // any of spilled, flooded and refused
	Refused int `json:"refused"`
}

// SummaryFrequency is how often winters fail. Its chances hold the true one in 90 of 100 cases; the period in winters is
// null where the chance is counted.
type SummaryFrequency struct {
	Words  string         `json:"words"`
	Basis  string         `json:"basis"` // fitted, or why the chance is counted
	Chance SummaryRange   `json:"chance"`
	Period *SummaryPeriod `json:"period_winters"`
}

// SummaryRange is a value with its interval.
type SummaryRange struct {
	Best *float64 `json:"best"`
	Low  *float64 `json:"low"`
	High *float64 `json:"high"`
}

// SummaryPeriod is the mean time between failed winters; open: its high end may lie higher.
type SummaryPeriod struct {
	SummaryRange
	Open bool `json:"open"`
}

// SummaryLoss is what failures cost in a year, in the layout's currency.
type SummaryLoss struct{ SummaryRange }

// summaryRange rounds to six decimals.
func summaryRange(best, low, high float64) SummaryRange {
	return SummaryRange{finite(roundTo(best, 6)), finite(roundTo(low, 6)), finite(roundTo(high, 6))}
}

func summaryFrequency(f chance.Frequency, margins bool) SummaryFrequency {
	out := SummaryFrequency{Words: f.String(), Basis: f.Basis.String(), Chance: summaryRange(f.Chance.Best, f.Chance.Low, f.Chance.High)}
	if !margins {
		out.Basis = "no-margins"
	}
	if p, ok := f.Period(); ok {
		out.Period = &SummaryPeriod{summaryRange(p.Best, p.Low, p.High), p.Open}
	}
	return out
}

func summaryLoss(l *chance.Loss) *SummaryLoss {
	if l == nil {
		return nil
	}
	return &SummaryLoss{summaryRange(l.Best, l.Low, l.High)}
}

// SummaryWinterOutcome is one winter of one layout. Hours of moments count from the start of its simulation.
type SummaryWinterOutcome struct {
	Winter     string               `json:"winter"`
	From       string               `json:"from"` // of the simulation
	To         string               `json:"to"`
	State      string               `json:"state"`
	Coldest    SummaryReading       `json:"coldest_hour"`
	DegreeDays *float64             `json:"freezing_degree_days_k_d"`
	Frost      *float64             `json:"frost_m"`
	FirstIce   *Moment              `json:"first_ice"`
	Shut       *Moment              `json:"closed"`
	Spill      *Moment              `json:"spill"`
	Floor      *Moment              `json:"floor"`
	IceHours   *float64             `json:"ice_h"`
	ShutHours  *float64             `json:"closed_h"`
	StillShut  bool                 `json:"still_closed"`
	ReliefRuns int                  `json:"relief_runs"`
	ReliefFor  *float64             `json:"relief_h"`
	Litres     SummaryWinterVolumes `json:"litres"`
	Snow       string               `json:"snow"`
	Margin     *SummaryWinterMargin `json:"margin"`
	Drawn      *SummaryDrawnWinter  `json:"drawn"` // in how many draws the same happened; null: nothing was drawn
}

// SummaryWinterVolumes is where a winter's water went [L].
type SummaryWinterVolumes struct {
	Pumped  *float64 `json:"pumped"`
	Outlet  *float64 `json:"outlet"`
	Relief  *float64 `json:"relief"`
	Rim     *float64 `json:"rim"`
	ToSoil  *float64 `json:"pocket_to_soil"`
	Floor   *float64 `json:"floor"`
	Refused *float64 `json:"refused"`
}

// SummaryWinterMargin is how many kelvin colder a winter could have been; where beyond is true it is that or more.
type SummaryWinterMargin struct {
	Open       *float64 `json:"open_k"`
	OpenBeyond bool     `json:"open_beyond"`
	Dry        *float64 `json:"dry_k"`
	DryBeyond  bool     `json:"dry_beyond"`
	Monotone   bool     `json:"monotone"` // colder was always worse
}

// SummarizeWinters gives the summary of many winters.
func SummarizeWinters(a *answers.WintersAnswer) *WintersSummary {
	out := &WintersSummary{
		Schema: wintersSchema, Version: a.About.Version, Winters: a.About.Winters, LeftOut: []answers.LeftOut{}, Layouts: []SummaryWintersLayout{},
		Doubts: a.About.Doubts, Inputs: orEmpty(a.About.Inputs), Caution: caution,
	}
	for _, l := range a.About.LeftOut {
		l.Days = roundTo(l.Days, 2)
		out.LeftOut = append(out.LeftOut, l)
	}
	for i, l := range a.About.Layouts {
		s := a.Summarize(i)
		one := SummaryWintersLayout{
			Case: l.Name, Title: l.Title, Count: summaryCount(s.Count),
			Shut: summaryFrequency(s.Shut, a.About.Margins), Wet: summaryFrequency(s.Wet, a.About.Margins), Loss: summaryLoss(s.Loss), Draws: summaryDraws(a, i), Winters: []SummaryWinterOutcome{},
			Guesses: summaryGuesses(l.Guesses), Warnings: summaryWarnings(l.Warnings),
		}
		drawn := a.DrawnOf(i)
		for j, o := range a.Of(i) {
			winter := summaryWinterOutcome(o)
			if drawn != nil {
				winter.Drawn = &SummaryDrawnWinter{drawn[j].Shut, drawn[j].Wet, drawn[j].Flooded}
			}
			one.Winters = append(one.Winters, winter)
		}
		out.Layouts = append(out.Layouts, one)
	}
	return out
}

func summaryCount(c answers.WintersCount) SummaryWintersCount {
	return SummaryWintersCount{Winters: c.Winters, Iced: c.Iced, Shut: c.Shut, Relief: c.Relief, Spilled: c.Spilled, Flooded: c.Flooded, Wet: c.Wet, Refused: c.Refused}
}

func summaryWinterOutcome(o answers.WinterOutcome) SummaryWinterOutcome {
	moment := func(t *float64) *Moment { return momentIf(o.Start, t) }
	hours := func(s float64) *float64 { return finite(roundTo(s/3600, 4)) }
	return SummaryWinterOutcome{
		Winter: o.Winter, From: recordTime(o.Start), To: recordTime(o.End), State: o.State,
		Coldest:    SummaryReading{recordTime(o.LowestAt), finite(roundTo(o.Lowest, 3))},
		DegreeDays: finite(roundTo(o.DegreeDays, 2)), Frost: finite(roundTo(o.Frost, 4)),
		FirstIce: moment(o.FirstIce), Shut: moment(o.Shut), Spill: moment(o.Spill), Floor: moment(o.Floor),
		IceHours: hours(o.IceFor), ShutHours: hours(o.ShutFor), StillShut: o.StillShut,
		ReliefRuns: o.ReliefRuns, ReliefFor: hours(o.ReliefFor),
		Litres: SummaryWinterVolumes{summaryLitres(o.Pumped), summaryLitres(o.Outlet), summaryLitres(o.Relief), summaryLitres(o.Rim), summaryLitres(o.ToSoil), summaryLitres(o.OnFloor), summaryLitres(o.Refused)},
		Snow:   o.Snow, Margin: summaryWinterMargin(o.Margin),
	}
}

func summaryWinterMargin(m *answers.Margin) *SummaryWinterMargin {
	if m == nil {
		return nil
	}
	return &SummaryWinterMargin{finite(m.Open.K), m.Open.Beyond, finite(m.Dry.K), m.Dry.Beyond, m.Open.Monotone && m.Dry.Monotone}
}

// Encode writes the summary as indented JSON.
func (s *WintersSummary) Encode(w io.Writer) error { return encode(w, s) }

// WintersSummaryFile gives summary.json.
func WintersSummaryFile(a *answers.WintersAnswer) File {
	return File{SummaryName, func(w io.Writer) error { return SummarizeWinters(a).Encode(w) }}
}
