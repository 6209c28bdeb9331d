package answers

import (
	"errors"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// Source is a case as its files give it, from which changed cases are made.
type Source struct {
	Name     string // of the case
	File     string // the layout's file, as messages name it
	Text     []byte // of the layout
	Edits    []pipe.Edit
	Weather  *weather.Series
	Supply   sim.Supply
	Invented bool // the built-in demonstration
}

// Under is the source under other weather.
func (s Source) Under(w *weather.Series) Source {
	s.Weather = w
	return s
}

// Case reads the layout with its own edits, which options stand for, and then others, and makes the case. Where nothing
// says how often the pump runs it is the case with the usual schedule. What is wrong with an edit, or with a layout
// that it leads to, comes as units.Problems.
func (s Source) Case(edits ...pipe.Edit) (*sim.Case, error) {
	all := append(append([]pipe.Edit(nil), s.Edits...), edits...)
	layout, problems := pipe.ReadLayoutWith(s.File, s.Text, all)
	if len(problems) > 0 {
		return nil, problems
	}
	profile, problems := layout.MakeProfile(s.File)
	if len(problems) > 0 {
		return nil, problems
	}
	k, err := sim.NewCase(s.Name, layout, profile, s.Weather, s.Supply)
	if errors.Is(err, sim.ErrNoSupply) {
		var supposed []sim.Supposed
		if supposed, err = sim.SupposeCycles(s.Name, layout, profile, s.Weather); err == nil {
			k = supposed[sim.UsualSchedule].Case
		}
	}
	if err != nil {
		return nil, err
	}
	k.Invented = s.Invented
	return k, nil
}
