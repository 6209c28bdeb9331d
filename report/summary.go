package report

import (
	"encoding/json"
	"io"
	"math"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
)

// runSchema marks a summary.json as ours and says which keys to expect.
const runSchema = "winterline.summary/1"

// groundSchema names the form of the summary of a folder on the ground.
const groundSchema = "winterline.ground/1"

// Provenance is what a summary says of a result that the result does not hold: where it came from, and how close it was.
type Provenance struct {
	Version  string               // of the program
	Inputs   map[string]string    // SHA-256 [hex] of each input file by its name in the case
	Settings RunSettings          // of a run
	Tables   map[string]string    // SHA-256 [hex] of each table of a run by its name
	Findings []pipe.Finding       // of practice, on the layout alone
	Margin   *answers.Margin      // nil: not worked out
	Sure     []answers.GuessTried // the guesses tried at the ends of their ranges; nil: not tried
}

// SummaryWarning is a sentence that belongs beside the verdict, with a stable word for its kind.
type SummaryWarning struct {
	Kind     string `json:"kind"`
	Sentence string `json:"sentence"`
}

// Summary is summary.json. All keys are always present; what never happened, or is
// not known, is null. Volumes are litres, temperatures °C, differences K.
type Summary struct {
	Schema   string              `json:"schema"`
	Version  string              `json:"version"`
	Case     string              `json:"case"`
	Verdict  SummaryVerdict      `json:"verdict"`
	Margin   SummaryMargin       `json:"margin"`
	Guesses  []SummaryGuessTried `json:"guesses"`
	Movement *SummaryMovement    `json:"movement"` // null: nothing is buried, or its soil has no class
	AirGap   *SummaryAirGap      `json:"air_gap"`  // null: no house pipe ends open in a standpipe
	Trapped  []SummaryTrapped    `json:"trapped_water"`
	Draught  *SummaryDraught     `json:"draught"` // null: no air can pass from one end of the line to the other
	Mounds   []SummaryMound      `json:"mounds"`  // empty: no water was let go
	Ledger   SummaryLedger       `json:"ledger"`
	Balance  SummaryBalance      `json:"balance"`
	Stats    SummaryStats        `json:"stats"`
	Inputs   map[string]string   `json:"inputs"`
	Settings RunSettings         `json:"settings"`
	Tables   map[string]string   `json:"tables"`
	Findings []SummaryFinding    `json:"findings"`
	Warnings []SummaryWarning    `json:"warnings"`
	Caution  string              `json:"caution"`
}

// SummaryVerdict says what became of line and basement.
type SummaryVerdict struct {
	State           string  `json:"state"`            // clear, iced, shut-relieved, spilled or flooded
	FirstIce        *Moment `json:"first_ice"`        // ice first formed anywhere
	Closed          *Moment `json:"closed"`           // line first froze shut
	ClosedDendritic *Moment `json:"closed_dendritic"` // when it would first have shut had the water supercooled
	Relief          *Moment `json:"relief"`           // a relief opening first ran
	Spill           *Moment `json:"spill"`            // water first let go beside the house
	Floor           *Moment `json:"floor"`            // basement floor first wet
}

// Moment is an instant, written as {"hour": 1180.3333, "time": "2026-01-19 04:20"}:
// hours since the first weather row to 1e-4 h, and local standard time to the nearest
// minute.
type Moment struct {
	Hour float64 `json:"hour"`
	Time string  `json:"time"`
}

// momentAt is the instant t [s] of a record.
func momentAt(start time.Time, t float64) *Moment {
	return &Moment{Hour: roundTo(t/3600, 4), Time: tableTime(start, t)}
}

// momentIf is likewise the instant of something that may never have happened; nil then.
func momentIf(start time.Time, t *float64) *Moment {
	if t == nil {
		return nil
	}
	return momentAt(start, *t)
}

// SummaryMargin is how many degrees colder the winter could have been [K], to 0.1 K:
// until the line first shuts, and until water spills or reaches the floor; negative: how many warmer would have saved
// it. 25 and −25 stand for that or more. Null where it has not been worked out.
type SummaryMargin struct {
	OpenK *float64 `json:"open_k"`
	DryK  *float64 `json:"dry_k"`
}

// SummaryGuess is an input that nobody measured, in SI. Value, low and high are null
// for a guess that is a word, text is null for one that is a number.
type SummaryGuess struct {
	Key    string   `json:"key"`
	Value  *float64 `json:"value"`
	Low    *float64 `json:"low"`
	High   *float64 `json:"high"`
	Unit   string   `json:"unit"`
	Text   *string  `json:"text"`
	Source string   `json:"source"`
}

// SummaryLedger says where the water went [L]; held volumes are the change from the
// first row to the last.
type SummaryLedger struct {
	Arrived      *float64 `json:"arrived_l"`
	Pumped       *float64 `json:"pumped_l"`
	Extra        *float64 `json:"extra_inflow_l"`
	Returned     *float64 `json:"came_back_l"`
	Backup       *float64 `json:"backup_line_l"`
	Outlet       *float64 `json:"outlet_l"`
	Relief       *float64 `json:"relief_l"`
	Rim          *float64 `json:"rim_l"`
	PocketToSoil *float64 `json:"pocket_to_soil_l"`
	HeldLine     *float64 `json:"held_line_l"`
	HeldPocket   *float64 `json:"held_pocket_l"`
	HeldBasin    *float64 `json:"held_basin_l"`
	Floor        *float64 `json:"floor_l"`
	Error        *float64 `json:"closing_error_l"`
}

// SummaryBalance holds the closing errors of both books, relative to what was pumped
// or held and to the heat exchanged.
type SummaryBalance struct {
	WaterRelative *float64 `json:"water_relative"`
	HeatRelative  *float64 `json:"heat_relative"`
}

// SummaryStats counts the work done.
type SummaryStats struct {
	Cells    int `json:"cells"`
	Nodes    int `json:"nodes"`
	Cycles   int `json:"cycles"`
	Steps    int `json:"steps"`
	Rejected int `json:"rejected"`
	Newton   int `json:"newton"`

	NewtonResidual *float64 `json:"newton_residual_k"` // largest that Newton's method left in a volume; no book shows it
}

// Summarize gives the summary of a result.
func Summarize(r *sim.Result, p Provenance) *Summary {
	v := r.Verdict
	moment := func(t *float64) *Moment { return momentIf(r.Start, t) }
	return &Summary{
		Schema:  runSchema,
		Version: p.Version,
		Case:    r.Name,
		Verdict: SummaryVerdict{
			State:           v.State.String(),
			FirstIce:        moment(v.FirstIce),
			Closed:          moment(v.Closed),
			ClosedDendritic: moment(v.ClosedDendritic),
			Relief:          moment(v.Relief),
			Spill:           moment(v.Spill),
			Floor:           moment(v.Floor),
		},
		Margin:   summaryMargin(p.Margin),
		Guesses:  summaryTriedGuesses(r, p.Sure),
		Movement: summaryMovement(r),
		AirGap:   summaryAirGap(r),
		Trapped:  summaryTrapped(r),
		Draught:  summaryDraught(r),
		Mounds:   summaryMounds(r),
		Ledger:   summaryLedger(r.Ledger),
		Balance:  SummaryBalance{finite(r.Balance.WaterRelative), finite(r.Balance.HeatRelative)},
		Stats:    summaryStats(r),
		Inputs:   orEmpty(p.Inputs),
		Settings: p.Settings,
		Tables:   orEmpty(p.Tables),
		Findings: winterFindings(r, p.Findings),
		Warnings: summaryWarnings(r.Warnings),
		Caution:  caution,
	}
}

func summaryStats(r *sim.Result) SummaryStats {
	s := r.Stats
	return SummaryStats{s.Cells, s.Nodes, s.Cycles, s.Steps, s.Rejected, s.Newton, finite(r.Balance.NewtonResidual)}
}

func summaryMargin(m *answers.Margin) SummaryMargin {
	if m == nil {
		return SummaryMargin{}
	}
	return SummaryMargin{finite(m.Open.K), finite(m.Dry.K)}
}

// SummaryFile gives summary.json.
func SummaryFile(r *sim.Result, p Provenance) File {
	return File{SummaryName, func(w io.Writer) error { return Summarize(r, p).Encode(w) }}
}

// Encode writes the summary as indented JSON.
func (s *Summary) Encode(w io.Writer) error { return encode(w, s) }

func encode(w io.Writer, summary any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(summary)
}

func guessesOf(layout *pipe.Layout) []pipe.Guess {
	if layout == nil {
		return nil
	}
	return layout.Guesses
}

func summaryGuesses(guesses []pipe.Guess) []SummaryGuess {
	out := []SummaryGuess{}
	for _, g := range guesses {
		s := SummaryGuess{Key: g.Key, Unit: siUnit(g.Dimension), Source: g.Source}
		if g.Text != "" {
			s.Text = &g.Text
		} else {
			s.Value, s.Low, s.High = finite(g.Value), finite(g.Low), finite(g.High)
		}
		out = append(out, s)
	}
	return out
}

func summaryLedger(l sim.Ledger) SummaryLedger {
	return SummaryLedger{
		Arrived: summaryLitres(l.Arrived), Pumped: summaryLitres(l.Pumped), Extra: summaryLitres(l.Extra), Returned: summaryLitres(l.Returned),
		Backup: summaryLitres(l.Backup), Outlet: summaryLitres(l.Outlet), Relief: summaryLitres(l.Relief), Rim: summaryLitres(l.Rim),
		PocketToSoil: summaryLitres(l.PocketToSoil),
		HeldLine:     summaryLitres(l.HeldLine), HeldPocket: summaryLitres(l.HeldPocket), HeldBasin: summaryLitres(l.HeldBasin),
		Floor: summaryLitres(l.Floor),
		Error: finite(l.Error * litresPerM3),
	}
}

func summaryWarnings(warnings []sim.Warning) []SummaryWarning {
	out := []SummaryWarning{}
	for _, w := range warnings {
		out = append(out, SummaryWarning(w))
	}
	return out
}

func orEmpty(m map[string]string) map[string]string {
	if m == nil {
		return map[string]string{}
	}
	return m
}

// summaryLitres is a volume [m³] as summaries have it, in litres to the microlitre.
func summaryLitres(m3 float64) *float64 { return finite(roundTo(m3*litresPerM3, 6)) }

// finite gives what JSON can hold: nil for NaN and infinities, no sign on zero.
func finite(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v += 0 // -0 + 0 is 0
	return &v
}
