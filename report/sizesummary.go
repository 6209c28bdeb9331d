package report

import (
	"io"

	"winterline/pipe"
	"winterline/sim/answers"
)

// sizeSchema names the form of the summary of a folder on sizing.
const sizeSchema = "winterline.size/1"

// SizeSummary is the summary.json of a folder on sizing. Values are SI; what is not known or was not asked is null.
type SizeSummary struct {
	Schema   string            `json:"schema"`
	Kind     string            `json:"kind"` // "size"
	Version  string            `json:"version"`
	Case     string            `json:"case"`
	Keep     string            `json:"keep"` // open or dry
	MarginK  *float64          `json:"margin_k"`
	Answer   *SummarySized     `json:"answer"` // of one quantity; null: two were asked for
	Both     []SummaryBeside   `json:"both"`   // of two; empty: one was asked for
	Guesses  []SummaryGuess    `json:"guesses"`
	Inputs   map[string]string `json:"inputs"`
	Findings []SummaryFinding  `json:"findings"`
	Warnings []SummaryWarning  `json:"warnings"`
	Caution  string            `json:"caution"`
}

// SummarySized is the answer for one quantity.
type SummarySized struct {
	Quantity string         `json:"quantity"`
	Segment  *string        `json:"segment"`
	Now      *float64       `json:"now"` // null: the layout has none
	Least    *SummaryTried  `json:"least"`
	From     *SummaryTried  `json:"from"` // from there on all that were tried survive
	Monotone bool           `json:"monotone"`
	Curve    []SummaryTried `json:"curve"`
}

// SummaryTried is one value.
type SummaryTried struct {
	Value    *float64      `json:"value"`
	Survives bool          `json:"survives"`
	MarginK  *float64      `json:"margin_k"` // null: not worked out
	Change   SummaryChange `json:"change"`
}

// SummaryBeside is a value of the first quantity with the answer for the second.
type SummaryBeside struct {
	Quantity string        `json:"quantity"`
	Value    *float64      `json:"value"`
	Change   SummaryChange `json:"change"`
	Second   *SummarySized `json:"second"` // null: that value is not possible here
}

// SummarizeSize gives the summary of an answer.
func SummarizeSize(a *SizeAnswer, p Provenance) *SizeSummary {
	keep := a.keep()
	out := &SizeSummary{Schema: sizeSchema, Kind: "size", Version: p.Version, Case: a.Name, Keep: keep.Goal.String(), MarginK: finite(keep.Margin),
		Both: []SummaryBeside{}, Guesses: summaryGuesses(guessesOf(a.Layout)), Inputs: orEmpty(p.Inputs), Findings: layoutFindings(p.Findings),
		Warnings: summaryWarnings(a.Warnings), Caution: caution}
	if a.Sized != nil {
		out.Answer = summarySized(a.Sized, a.Layout)
		return out
	}
	for _, v := range a.Two.Values {
		b := SummaryBeside{Quantity: a.Two.First.Quantity.String(), Value: finite(v.Value), Change: summaryChanges([]answers.Change{v.Change}, a.Layout)[0]}
		if v.Second != nil {
			b.Second = summarySized(v.Second, a.Layout)
		}
		out.Both = append(out.Both, b)
	}
	return out
}

func summarySized(z *answers.Sized, l *pipe.Layout) *SummarySized {
	out := &SummarySized{Quantity: z.Vary.Quantity.String(), Now: finite(z.Now), Least: summaryTried(z.Least, l), From: summaryTried(z.From, l), Monotone: z.Monotone}
	if z.Vary.Quantity.OfSegment() {
		out.Segment = &l.Segments[z.Vary.Segment].Name
	}
	for i := range z.Curve {
		out.Curve = append(out.Curve, *summaryTried(&z.Curve[i], l))
	}
	return out
}

func summaryTried(t *answers.Tried, l *pipe.Layout) *SummaryTried {
	if t == nil {
		return nil
	}
	out := &SummaryTried{Value: finite(t.Value), Survives: t.Survives, Change: summaryChanges([]answers.Change{t.Change}, l)[0]}
	if t.Margin != nil {
		out.MarginK = finite(t.Margin.K)
	}
	return out
}

// SizeSummaryFile gives summary.json.
func SizeSummaryFile(a *SizeAnswer, p Provenance) File {
	return File{SummaryName, func(w io.Writer) error { return SummarizeSize(a, p).Encode(w) }}
}

// Encode writes the summary as indented JSON.
func (s *SizeSummary) Encode(w io.Writer) error { return encode(w, s) }
