package report

import (
	"io"
	"math"

	"winterline/sim"
)

// groundKind is the kind of summary that the ground has; that of a run has none.
const groundKind = "ground"

// GroundSummary is the summary.json of a folder on the ground. All keys are always present;
// what never happened, or is not known, is null. Depths are metres below the surface,
// temperatures °C, differences K.
type GroundSummary struct {
	Schema   string            `json:"schema"`
	Kind     string            `json:"kind"` // "ground"
	Version  string            `json:"version"`
	Case     string            `json:"case"`
	Surface  SummarySurface    `json:"surface"`
	Deepest  *SummaryFrost     `json:"deepest_frost"` // null: nothing froze
	Seasons  []SummarySeason   `json:"seasons"`       // one a winter in which the ground froze
	Segments []SummaryBuried   `json:"segments"`      // buried ones, in flow order
	Lowest   []SummaryLowest   `json:"lowest"`        // temperature at each depth asked for
	Measured []SummaryMeasured `json:"measured"`
	Guesses  []SummaryGuess    `json:"guesses"`
	Balance  SummaryHeat       `json:"balance"`
	SpinUp   int               `json:"spin_up_years"` // times that the first year was repeated before the record
	Inputs   map[string]string `json:"inputs"`
	Findings []SummaryFinding  `json:"findings"`
	Warnings []SummaryWarning  `json:"warnings"`
	Caution  string            `json:"caution"`
}

// SummarySurface says what lies over the ground and what drove it.
type SummarySurface struct {
	Cover       string   `json:"cover"`               // grass, bare, gravel or paved
	Drive       string   `json:"drive"`               // air, n-factor, energy or thermometer
	Snow        string   `json:"snow"`                // where its depth comes from
	SnowOn      *float64 `json:"snow_on"`             // share of it that lies there, 0 to 1
	Thermometer *float64 `json:"thermometer_depth_m"` // null: none drives the ground
}

// SummaryFrost is the lowest frozen point and when it was first reached.
type SummaryFrost struct {
	Depth *float64 `json:"depth_m"`
	Hour  float64  `json:"hour"`
	Time  string   `json:"time"`
}

// SummarySeason is one winter's frost, from July to June.
type SummarySeason struct {
	Winter       string       `json:"winter"`
	From         *Moment      `json:"from"` // first row with anything frozen
	To           *Moment      `json:"to"`   // last one
	Deepest      SummaryFrost `json:"deepest"`
	FreezingDays *float64     `json:"freezing_index_k_d"` // of the air in between
}

// SummaryBuried says where a buried segment lies and when frost stood at its depth in the
// ground beside it, winter by winter; winters in which it did not are left out.
type SummaryBuried struct {
	Segment string         `json:"segment"`
	Top     *float64       `json:"top_m"`    // of the pipe at its shallowest
	Bottom  *float64       `json:"bottom_m"` // of the pipe at its deepest
	Frost   []SummaryVisit `json:"frost"`
}

// SummaryVisit is the frost of one winter at the depth of a segment.
type SummaryVisit struct {
	Winter    string  `json:"winter"`
	From      *Moment `json:"from"`
	To        *Moment `json:"to"`
	BelowFrom *Moment `json:"below_from"` // first row with frost under the segment; null: never
	BelowTo   *Moment `json:"below_to"`
}

// SummaryLowest is the lowest temperature at a depth and when it was first reached.
type SummaryLowest struct {
	Depth *float64 `json:"depth_m"`
	Temp  *float64 `json:"temp_c"`
	Time  *Moment  `json:"time"`
}

// SummaryMeasured compares with a thermometer in the ground.
type SummaryMeasured struct {
	Depth   *float64              `json:"depth_m"`
	All     SummaryMisfit         `json:"all"`
	Winters []SummaryWinterMisfit `json:"winters"` // November to March
}

// SummaryMisfit compares computed with measured values; null without any.
type SummaryMisfit struct {
	N    int      `json:"n"`
	Bias *float64 `json:"bias_k"` // computed less measured
	RMSE *float64 `json:"rmse_k"`
}

// SummaryWinterMisfit is that of one winter.
type SummaryWinterMisfit struct {
	Winter string `json:"winter"`
	SummaryMisfit
}

// SummaryHeat holds the closing error of the heat book, relative to the heat exchanged.
type SummaryHeat struct {
	HeatRelative *float64 `json:"heat_relative"`
}

// driveNames are the words for what drives the ground.
var driveNames = map[sim.SurfaceDrive]string{
	sim.AirDrive: "air", sim.NFactorDrive: "n-factor", sim.EnergyDrive: "energy", sim.ThermometerDrive: "thermometer",
}

// SummarizeGround gives the summary of a result on the ground.
func SummarizeGround(r *sim.GroundResult, p Provenance) *GroundSummary {
	out := &GroundSummary{
		Schema: groundSchema, Kind: groundKind, Version: p.Version, Case: r.Name,
		Surface: SummarySurface{
			Cover: r.Surface.Cover.String(), Drive: driveNames[r.Surface.Drive],
			Snow: r.Surface.SnowKind.String(), SnowOn: finite(r.Surface.SnowOn),
		},
		Seasons: []SummarySeason{}, Segments: []SummaryBuried{}, Lowest: []SummaryLowest{}, Measured: []SummaryMeasured{},
		Guesses: summaryGuesses(r.Guesses), Balance: SummaryHeat{finite(r.HeatRelative)}, SpinUp: r.SpinUpYears,
		Inputs: orEmpty(p.Inputs), Findings: layoutFindings(p.Findings), Warnings: summaryWarnings(r.Warnings),
		Caution: groundCaution,
	}
	if r.Surface.Drive == sim.ThermometerDrive {
		out.Surface.Thermometer = finite(r.Surface.Depth)
	}
	if w, froze := deepestFrost(r); froze {
		deepest := summaryFrost(r, w)
		out.Deepest = &deepest
	}
	for _, w := range r.Seasons {
		out.Seasons = append(out.Seasons, SummarySeason{
			Winter: winterName(winterOf(r.Start, w.From)), From: momentAt(r.Start, w.From), To: momentAt(r.Start, w.To),
			Deepest: summaryFrost(r, w), FreezingDays: finite(roundTo(w.FreezingDays, 1)),
		})
	}
	for _, b := range buriedRanges(r.Layout, r.Profile) {
		out.Segments = append(out.Segments, summaryBuried(r, b))
	}
	for _, t := range r.Tracks {
		out.Lowest = append(out.Lowest, summaryLowest(r, t))
	}
	for _, m := range r.Measured {
		out.Measured = append(out.Measured, summaryMeasured(m))
	}
	return out
}

// GroundSummaryFile gives the summary.json of a folder on the ground.
func GroundSummaryFile(r *sim.GroundResult, p Provenance) File {
	return File{SummaryName, func(w io.Writer) error { return SummarizeGround(r, p).Encode(w) }}
}

// Encode writes the summary as indented JSON.
func (s *GroundSummary) Encode(w io.Writer) error { return encode(w, s) }

// metre rounds a length for the summary [m].
func metre(m float64) *float64 { return finite(roundTo(m, 4)) }

func summaryFrost(r *sim.GroundResult, w sim.FrostSeason) SummaryFrost {
	at := momentAt(r.Start, w.DeepestAt)
	return SummaryFrost{metre(w.Deepest), at.Hour, at.Time}
}

func summaryBuried(r *sim.GroundResult, b buriedRange) SummaryBuried {
	out := SummaryBuried{b.name, metre(b.top), metre(b.bottom), []SummaryVisit{}}
	over, _ := b.groundOver(r)
	for _, w := range over.Seasons {
		v := b.visit(over, w)
		if !v.reached {
			continue
		}
		visit := SummaryVisit{Winter: winterName(winterOf(r.Start, w.From)), From: momentAt(r.Start, v.from), To: momentAt(r.Start, v.to)}
		if v.below {
			visit.BelowFrom, visit.BelowTo = momentAt(r.Start, v.under.from), momentAt(r.Start, v.under.to)
		}
		out.Frost = append(out.Frost, visit)
	}
	return out
}

func summaryLowest(r *sim.GroundResult, t sim.GroundTrack) SummaryLowest {
	out := SummaryLowest{Depth: metre(t.Depth)}
	if low, at := lowest(t.Temp); at >= 0 {
		out.Temp, out.Time = finite(roundTo(low, 3)), momentAt(r.Start, r.Time[at])
	}
	return out
}

func summaryMeasured(m sim.MeasuredDepth) SummaryMeasured {
	out := SummaryMeasured{metre(m.Depth), summaryMisfit(m.All), []SummaryWinterMisfit{}}
	for _, w := range m.Winters {
		out.Winters = append(out.Winters, SummaryWinterMisfit{winterName(w.Winter), summaryMisfit(w.Misfit)})
	}
	return out
}

func summaryMisfit(m sim.Misfit) SummaryMisfit {
	if m.N == 0 {
		m.Bias, m.RMSE = math.NaN(), math.NaN()
	}
	return SummaryMisfit{m.N, finite(roundTo(m.Bias, 4)), finite(roundTo(m.RMSE, 4))}
}
