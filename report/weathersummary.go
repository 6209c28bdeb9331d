package report

import (
	"io"
	"math"
	"time"

	"winterline/weather"
)

// weatherSchema names the form of the summary of a weather record.
const weatherSchema = "winterline.weather/1"

// WeatherSummary is what `weather --json` prints. All keys are always present; what is not
// known is null. Temperatures are °C, other values SI, times local standard time.
type WeatherSummary struct {
	Schema     string            `json:"schema"`
	Version    string            `json:"version"`
	Source     string            `json:"source"`
	Format     string            `json:"format"`
	Typical    bool              `json:"typical_year"`
	Design     []string          `json:"design_snap"` // how it was made; empty: a record
	Spans      []SummarySpan     `json:"spans"`
	Rows       int               `json:"rows"`
	Step       *float64          `json:"step_s"`
	Missing    *float64          `json:"rows_missing_h"` // bridged
	Present    *float64          `json:"present"`        // share of the time with rows and air temperature
	Columns    []SummaryColumn   `json:"columns"`
	Coldest    SummaryReading    `json:"coldest_hour"`
	ColdestDay *SummaryReading   `json:"coldest_day"`
	Below      []SummaryBelow    `json:"longest_below"`
	Winters    []SummaryWinter   `json:"winters"`
	Spells     []SummarySpell    `json:"cold_spells"` // of three days, coldest first
	Notes      []SummaryNote     `json:"notes"`
	Ledger     []SummaryRepair   `json:"ledger"`
	Inputs     map[string]string `json:"inputs"`
}

// SummarySpan is from a first row to a last one.
type SummarySpan struct {
	From string `json:"from"`
	To   string `json:"to"`
}

// SummaryColumn is what a quantity's values are like; of an amount the mean is that of a day.
type SummaryColumn struct {
	Name    string   `json:"name"`
	Depth   *float64 `json:"depth_m"` // of a soil temperature, else null
	Low     *float64 `json:"lowest"`
	Mean    *float64 `json:"mean"`
	High    *float64 `json:"highest"`
	Missing *float64 `json:"missing_h"` // bridged
}

// SummaryReading is an air temperature and its time.
type SummaryReading struct {
	Time string   `json:"time"`
	Temp *float64 `json:"temp_c"`
}

// SummaryBelow is the longest time below a limit; time null: never.
type SummaryBelow struct {
	Limit float64  `json:"limit_c"`
	Time  *string  `json:"from"`
	Hours *float64 `json:"hours"`
}

// SummaryWinter is the cold of one winter, from July to June.
type SummaryWinter struct {
	Winter     string   `json:"winter"`
	DegreeDays *float64 `json:"freezing_degree_days_k_d"`
	Lowest     *float64 `json:"lowest_c"`
	Days       *float64 `json:"days"`
}

// SummarySpell is a cold spell of three days.
type SummarySpell struct {
	From   string   `json:"from"`
	Mean   *float64 `json:"mean_c"`
	Lowest *float64 `json:"lowest_c"`
	Wind   *float64 `json:"wind_m_s"`
	Snow   *float64 `json:"snow_depth_m"`
}

// SummaryNote is what a reader assumed or noticed.
type SummaryNote struct {
	File     string `json:"file"`
	Line     int    `json:"line"` // 0: the file as a whole
	About    string `json:"about"`
	Text     string `json:"text"`
	Evidence string `json:"evidence"`
	Warning  bool   `json:"warning"`
}

// SummaryRepair is an entry of the ledger.
type SummaryRepair struct {
	Kind     string   `json:"kind"`
	Column   string   `json:"column"`
	File     string   `json:"file"`
	Line     int      `json:"line"`
	Time     string   `json:"time"`
	Count    int      `json:"count"`
	Hours    *float64 `json:"hours"` // length of a gap, else null
	Evidence string   `json:"evidence"`
}

// SummarizeWeather gives the summary of a weather record.
func SummarizeWeather(d *weather.Digest, p Provenance) *WeatherSummary {
	out := &WeatherSummary{
		Schema: weatherSchema, Version: p.Version, Source: d.Source, Format: d.Format, Typical: d.Typical, Design: append([]string{}, d.Design...),
		Rows: d.Rows, Step: finite(d.Step), Coldest: summaryReading(d.Coldest),
		Missing: finite(roundTo(d.RowsMissing, 4)), Present: finite(roundTo(d.Present(), 6)),
		Spells: []SummarySpell{}, Notes: []SummaryNote{}, Ledger: []SummaryRepair{},
		Inputs: orEmpty(p.Inputs),
	}
	for _, e := range d.Spans {
		out.Spans = append(out.Spans, SummarySpan{recordTime(e.Start), recordTime(e.End)})
	}
	for _, c := range d.Columns {
		depth := math.NaN()
		if c.Depth > 0 {
			depth = c.Depth
		}
		out.Columns = append(out.Columns, SummaryColumn{c.Name, finite(depth), finite(roundTo(c.Low, 6)), finite(roundTo(c.Mean, 6)), finite(roundTo(c.High, 6)), finite(roundTo(c.Missing, 4))})
	}
	if d.ColdestDay != nil {
		day := summaryReading(*d.ColdestDay)
		out.ColdestDay = &day
	}
	for _, b := range d.Below {
		out.Below = append(out.Below, summaryBelow(b))
	}
	for _, w := range d.Winters {
		out.Winters = append(out.Winters, SummaryWinter{recordWinter(d, w), finite(roundTo(w.DegreeDays, 2)), finite(roundTo(w.Lowest, 3)), finite(roundTo(w.Days, 4))})
	}
	for _, s := range d.Spells {
		out.Spells = append(out.Spells, SummarySpell{recordTime(s.Start), finite(roundTo(s.Mean, 3)), finite(roundTo(s.Lowest, 3)),
			finite(roundTo(s.Wind, 3)), finite(roundTo(s.Snow, 4))})
	}
	for _, n := range d.Notes {
		out.Notes = append(out.Notes, SummaryNote(n))
	}
	for _, e := range d.Ledger {
		out.Ledger = append(out.Ledger, summaryRepair(e))
	}
	return out
}

// Encode writes the summary as indented JSON.
func (s *WeatherSummary) Encode(w io.Writer) error { return encode(w, s) }

func summaryReading(r weather.Reading) SummaryReading {
	return SummaryReading{recordTime(r.Time), finite(roundTo(r.Value, 3))}
}

func summaryBelow(b weather.TimeBelow) SummaryBelow {
	out := SummaryBelow{Limit: b.Limit, Hours: finite(roundTo(b.Length/float64(time.Hour/time.Second), 2))}
	if b.Length > 0 {
		at := recordTime(b.Start)
		out.Time = &at
	}
	return out
}

func summaryRepair(e weather.Repair) SummaryRepair {
	length := math.NaN()
	if e.Kind.Gap() {
		length = roundTo(e.Hours, 4)
	}
	return SummaryRepair{e.Kind.String(), e.Column, e.File, e.Line, recordTime(e.Time), e.Count, finite(length), e.Evidence}
}
