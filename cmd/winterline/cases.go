package main

import (
	"errors"

	"winterline/pipe"
	"winterline/report"
	"winterline/sim"
)

// cases makes the case ready to run; where nothing says how often the pump runs, the
// supposed ones, which then come second as well.
func (in *inputs) cases() ([]*sim.Case, []sim.Supposed, error) {
	k, err := sim.NewCase(in.name, in.layout, in.profile, in.series, in.supply)
	if err == nil {
		k.Invented = in.demo
		return []*sim.Case{k}, nil, nil
	}
	if !errors.Is(err, sim.ErrNoSupply) {
		return nil, nil, err
	}
	supposed, err := sim.SupposeCycles(in.name, in.layout, in.profile, in.series)
	var cases []*sim.Case
	for _, s := range supposed {
		s.Case.Invented = in.demo
		cases = append(cases, s.Case)
	}
	return cases, supposed, err
}

// provenance is what a summary says about where a result came from.
func (in *inputs) provenance() report.Provenance {
	return report.Provenance{Version: version, Inputs: in.sums, Findings: pipe.Practice(in.layout, in.profile)}
}

// usual is the case that is told first: the only one, or where nothing says how often the pump runs that with the usual
// schedule, which then comes second.
func (in *inputs) usual() (*sim.Case, *sim.Supposed, error) {
	cases, supposed, err := in.cases()
	switch {
	case err != nil:
		return nil, nil, err
	case supposed != nil:
		return cases[sim.UsualSchedule], &supposed[sim.UsualSchedule], nil
	}
	return cases[0], nil, nil
}
