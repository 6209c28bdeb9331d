package report

import (
	"winterline/pipe"
	"winterline/sim/answers"
)

// SummaryChange is one change to an installation. Amount is SI, by kind.
type SummaryChange struct {
	Key     string        `json:"key"`
	Kind    string        `json:"kind"`
	Segment *string       `json:"segment"` // null: none
	Amount  *float64      `json:"amount"`
	Words   string        `json:"words"`
	Edits   []SummaryEdit `json:"edits"`        // of layout.toml
	Split   *int          `json:"split_cycles"` // every logged pump run becomes so many; null: as logged
	Takes   []string      `json:"takes"`
	Risks   []string      `json:"risks"`
	Barred  *string       `json:"barred"` // why it is not possible here; null: it is
}

// SummaryEdit is a value written into layout.toml; an empty one takes the key out.
type SummaryEdit struct {
	Path  string `json:"path"`
	Value string `json:"value"`
}

// SummaryRemedy is what changes made of the winter. Volumes are litres.
type SummaryRemedy struct {
	Changes []SummaryChange `json:"changes"`
	Effect  string          `json:"effect"` // prevents, keeps-dry, helps, nothing or harms
	State   string          `json:"state"`  // as in summary.json
	Shut    *float64        `json:"shut_h"`
	Relief  *float64        `json:"relief_l"`
	Rim     *float64        `json:"rim_l"`
	Floor   *float64        `json:"floor_l"`
	Refused *float64        `json:"refused_l"`
	Starts  int             `json:"most_starts_per_hour"`
	WallIce *float64        `json:"ice_beside_house_m"`
	OpenK   *float64        `json:"open_k"` // margins; null: not looked for
	DryK    *float64        `json:"dry_k"`
	MoreOf  []string        `json:"new_risks_simulated"`
}

// SummaryRemedies is the part of an answer that says what changes would have done.
type SummaryRemedies struct {
	Froze    bool            `json:"froze"`
	AsItWas  SummaryRemedy   `json:"as_it_was"`
	Singles  []SummaryRemedy `json:"single_changes"` // the best first
	Pairs    []SummaryRemedy `json:"two_changes"`    // the best first; empty where a single one is enough
	Barred   []SummaryChange `json:"not_possible"`
	NoRelief *SummaryRemedy  `json:"without_relief"` // null: there is none
}

// summaryRemedies gives that part; l is the layout as it is.
func summaryRemedies(r *answers.Remedies, l *pipe.Layout) SummaryRemedies {
	out := SummaryRemedies{Froze: r.Froze, AsItWas: summaryRemedy(r.Base, l), Singles: summaryRemediesOf(r.Singles, l),
		Pairs: summaryRemediesOf(r.Pairs, l), Barred: summaryChanges(r.Barred, l)}
	if r.Reverse != nil {
		reverse := summaryRemedy(*r.Reverse, l)
		out.NoRelief = &reverse
	}
	return out
}

func summaryRemediesOf(all []answers.Remedy, l *pipe.Layout) []SummaryRemedy {
	out := []SummaryRemedy{}
	for _, r := range all {
		out = append(out, summaryRemedy(r, l))
	}
	return out
}

func summaryRemedy(r answers.Remedy, l *pipe.Layout) SummaryRemedy {
	t := r.Toll
	out := SummaryRemedy{Changes: summaryChanges(r.Changes, l), Effect: r.Effect.String(), State: t.State.String(), Shut: finite(roundTo(t.ShutFor/3600, 4)),
		Relief: summaryLitres(t.Relief), Rim: summaryLitres(t.Beside), Floor: summaryLitres(t.Floor), Refused: summaryLitres(t.Refused), Starts: t.Starts, WallIce: finite(t.WallIce),
		MoreOf: wordsOrNone(r.MoreOf.Words())}
	if m := r.Margin; m != nil {
		out.OpenK, out.DryK = finite(m.Open.K), finite(m.Dry.K)
	}
	return out
}

func summaryChanges(changes []answers.Change, l *pipe.Layout) []SummaryChange {
	out := []SummaryChange{}
	for _, c := range changes {
		s := SummaryChange{Key: c.Key, Kind: c.Kind.String(), Amount: finite(c.Amount), Words: changeWords(c, l, SI), Edits: []SummaryEdit{},
			Takes: wordsOrNone(c.Takes.Words()), Risks: wordsOrNone(c.Risks.Words())}
		if c.Segment >= 0 {
			s.Segment = &l.Segments[c.Segment].Name
		}
		for _, e := range c.Edits {
			s.Edits = append(s.Edits, SummaryEdit(e))
		}
		if c.Split > 1 {
			s.Split = &c.Split
		}
		if c.Barred != answers.BarNone {
			why := barWords(c)
			s.Barred = &why
		}
		out = append(out, s)
	}
	return out
}

// wordsOrNone is a list that JSON writes as [] where it is empty.
func wordsOrNone(words []string) []string { return append([]string{}, words...) }
