package report

import (
	"io"

	"winterline/sim/answers"
	"winterline/weather/chance"
)

// compareSchema names the form of the summary of layouts side by side.
const compareSchema = "winterline.compare/1"

// CompareSummary is the summary.json of layouts side by side. All keys are always present; what never happened, is not
// known or was not asked for is null. Temperatures are °C, differences K, volumes litres, times local standard time.
type CompareSummary struct {
	Schema  string            `json:"schema"`
	Kind    string            `json:"kind"` // "compare"
	Version string            `json:"version"`
	Basis   string            `json:"basis"` // winters, every one of a long record; or record, the one that there was
	Winters []string          `json:"winters"`
	LeftOut []answers.LeftOut `json:"left_out"`
	Layouts []SummaryRival    `json:"layouts"`
	Quote   string            `json:"quote"` // the paragraph
	Notes   []string          `json:"notes"`
	Doubts  []string          `json:"weather_doubts"`
	Inputs  map[string]string `json:"inputs"`
	Caution string            `json:"caution"`
}

// SummaryRival is one layout. How often it fails, and what that costs a year, is null where there is but one record.
type SummaryRival struct {
	Key      string                 `json:"key"` // its letter
	Case     string                 `json:"case"`
	Title    string                 `json:"title"`
	Changes  []SummaryEdit          `json:"changes"` // of the first layout; empty: a case of its own
	Count    SummaryWintersCount    `json:"count"`
	Shut     *SummaryFrequency      `json:"freezes_shut"`
	Wet      *SummaryFrequency      `json:"gets_wet"` // beside the house or on the floor
	Margin   SummaryMargin          `json:"margin"`   // of the winter with the least
	Mean     SummaryWinterVolumes   `json:"mean_litres"`
	Events   []SummaryFirst         `json:"events"` // of the one record; empty for many winters
	Ledger   *SummaryLedger         `json:"ledger"` // likewise; null for many winters
	Costs    SummaryRivalCosts      `json:"costs"`
	Winters  []SummaryWinterOutcome `json:"outcomes"`
	Guesses  []SummaryGuess         `json:"guesses"`
	Warnings []SummaryWarning       `json:"warnings"`
}

// SummaryFirst is when a kind of event first came, and how often it did.
type SummaryFirst struct {
	Event string `json:"event"`
	First Moment `json:"first"`
	Times int    `json:"times"`
}

// SummaryRivalCosts is what a layout costs, in its currency.
type SummaryRivalCosts struct {
	Installed *float64        `json:"installed"`
	Winter    *float64        `json:"this_winter"` // null: many winters, or no costs are said
	Yearly    *SummaryLoss    `json:"yearly_loss"` // null: one record, or no costs are said
	Payback   *SummaryPayback `json:"against_first"`
}

// SummaryPayback is how long a layout takes to pay for itself against the first.
type SummaryPayback struct {
	Worth string       `json:"worth"` // pays-back, at-once, never or used-up
	Years SummaryRange `json:"years"`
	Open  bool         `json:"open"` // at one end of the interval it takes longer than 50 years, or for ever
	Words string       `json:"words"`
}

// SummarizeCompare gives the summary of layouts side by side. Its paragraph gives degrees in both units.
func SummarizeCompare(c *Comparison, o Options) *CompareSummary {
	w := SummarizeWinters(&c.WintersAnswer)
	out := &CompareSummary{
		Schema: compareSchema, Kind: "compare", Version: w.Version, Basis: "winters", Winters: w.Winters, LeftOut: w.LeftOut,
		Layouts: []SummaryRival{}, Quote: quoteWords(c, o), Notes: append([]string{}, c.Notes...), Doubts: w.Doubts, Inputs: w.Inputs, Caution: caution,
	}
	if c.Single != nil {
		out.Basis = "record"
	}
	for i, l := range w.Layouts {
		out.Layouts = append(out.Layouts, c.summaryRival(i, l))
	}
	return out
}

func (c *Comparison) summaryRival(i int, l SummaryWintersLayout) SummaryRival {
	out := SummaryRival{
		Key: rivalKey(i), Case: l.Case, Title: l.Title, Changes: []SummaryEdit{}, Count: l.Count, Mean: c.meanVolumes(i), Events: []SummaryFirst{},
		Costs: c.summaryCosts(i), Winters: l.Winters, Guesses: l.Guesses, Warnings: l.Warnings,
	}
	for _, e := range c.Changes[i] {
		out.Changes = append(out.Changes, SummaryEdit(e))
	}
	if m, ok := c.LeastMargin(i); ok {
		out.Margin = summaryMargin(&m)
	}
	if c.Single == nil {
		out.Shut, out.Wet, out.Costs.Yearly = &l.Shut, &l.Wet, l.Loss
		out.Warnings = append(summaryWarnings(c.supposed(i)), l.Warnings...)
		return out
	}
	r := c.Single[i]
	ledger := summaryLedger(r.Ledger)
	out.Ledger, out.Warnings = &ledger, summaryWarnings(c.resultWarnings(i))
	for _, kind := range markedKinds {
		if first, n := eventsOf(r, kind.kind); n > 0 {
			out.Events = append(out.Events, SummaryFirst{string(kind.kind), *momentAt(r.Start, first), n})
		}
	}
	return out
}

func (c *Comparison) summaryCosts(i int) (out SummaryRivalCosts) {
	if c.Priced(i) {
		out.Installed = finite(c.About.Layouts[i].Cost.Installed)
	}
	if cost, ok := c.WinterCost(i); ok {
		out.Winter = finite(cost)
	}
	if p, ok := c.PayBack(i); ok {
		out.Payback = summaryPayback(p)
	}
	return out
}

func (c *Comparison) meanVolumes(i int) SummaryWinterVolumes {
	mean := func(of func(answers.WinterOutcome) float64) *float64 {
		return summaryLitres(c.meanPath(i, of))
	}
	return SummaryWinterVolumes{
		Pumped:  mean(func(o answers.WinterOutcome) float64 { return o.Pumped }),
		Outlet:  mean(func(o answers.WinterOutcome) float64 { return o.Outlet }),
		ToSoil:  mean(func(o answers.WinterOutcome) float64 { return o.ToSoil }),
		Relief:  mean(func(o answers.WinterOutcome) float64 { return o.Relief }),
		Rim:     mean(func(o answers.WinterOutcome) float64 { return o.Rim }),
		Floor:   mean(func(o answers.WinterOutcome) float64 { return o.OnFloor }),
		Refused: mean(func(o answers.WinterOutcome) float64 { return o.Refused }),
	}
}

func summaryPayback(p chance.Payback) *SummaryPayback {
	out := &SummaryPayback{Worth: p.Worth.String(), Open: p.Open, Words: p.String()}
	if p.Worth == chance.PaysBack || p.Worth == chance.UsedUp {
		out.Years = summaryRange(p.Years, p.Low, p.High)
	}
	return out
}

// CompareSummaryFile gives summary.json.
func CompareSummaryFile(c *Comparison, o Options) File {
	return File{SummaryName, func(w io.Writer) error { return SummarizeCompare(c, o).Encode(w) }}
}

// Encode writes the summary as indented JSON.
func (s *CompareSummary) Encode(w io.Writer) error { return encode(w, s) }
