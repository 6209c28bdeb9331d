package main

import (
	"bytes"
	"strings"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
	"winterline/sim/answers"
)

func (l *loader) readLayout(o *inputOptions) {
	var edits []pipe.Edit
	for _, plan := range []struct{ flag, key, text string }{{"--cycles", "water.cycles", o.cycles}, {"--arrives", "water.arrives", o.arrives}} {
		if plan.text != "" {
			edits = append(edits, pipe.Edit{Path: plan.key, Value: plan.text})
			l.sums.keep(plan.flag, []byte(plan.text))
		}
	}
	l.bindLayout(o, func(name string, text []byte) (*pipe.Layout, units.Problems) {
		l.source = answers.Source{Name: l.name, File: name, Text: text, Edits: edits, Invented: l.demo}
		return pipe.ReadLayoutWith(name, text, edits)
	})
}

// readGround reads the layout for the sake of its ground.
func (l *loader) readGround(o *inputOptions) { l.bindLayout(o, pipe.ReadGround) }

// bindLayout reads the layout's file and has it bound.
func (l *loader) bindLayout(o *inputOptions, bind func(name string, text []byte) (*pipe.Layout, units.Problems)) {
	shown, text, ok := l.read(o.layout, "layout.toml", "the layout of the line; winterline new DIR makes one to start from", pipe.MaxLayout)
	l.layoutFile = shown
	if !ok {
		return
	}
	layout, problems := bind(shown, text)
	if l.problems = append(l.problems, problems...); layout == nil {
		return
	}
	profile, problems := layout.MakeProfile(shown)
	l.problems = append(l.problems, problems...)
	l.layout, l.profile = layout, profile
}

// weatherAdvice says what to fetch where there is no weather.
func weatherAdvice(file string) string {
	return strings.Join([]string{
		"No weather: a winter at your place is needed, hour by hour, October to April. Save it as " + file + ", or use --weather FILE.",
		"  What     air temperature, and wind and snow depth where there are any: time,air_temp_c,wind_m_s,snow_depth_cm",
		"  Where    the national weather archive's nearest station, or an open reanalysis service for the house's coordinates; read as downloaded. winterline weather --snap makes a design cold snap instead.",
		"  Station  one near by and at the same height: a station in another valley can freeze on other nights than your yard.",
		"  Time     local standard time all winter: a file in UTC moves the cold of the night, and with it the answer, by hours.",
	}, "\n")
}

// readSupply reads the water that comes: the file that a flag names, else the case's
// pump.csv or inflow.csv. --cycles and --arrives leave both unread.
func (l *loader) readSupply(o *inputOptions) {
	pump, inflow := l.has("pump.csv"), l.has("inflow.csv")
	switch {
	case o.cycles != "":
	case o.arrives != "":
		l.needFloat("--arrives")
	case o.pump != "":
		l.readCycles(o.pump)
	case o.inflow != "":
		l.readInflow(o.inflow)
	case pump && inflow:
		l.fault(l.shown("inflow.csv"), "", l.shown("pump.csv")+" beside it", "one of the two, or --pump or --inflow to say which")
	case pump:
		l.readCycles("")
	case inflow:
		l.readInflow("")
	case l.layout != nil && l.layout.Water.Arrives.Flow > 0:
		l.needFloat("[water] arrives")
	}
}

func (l *loader) readCycles(flag string) {
	shown, text, ok := l.read(flag, "pump.csv", "pump cycles", pipe.MaxSchedule)
	if !ok {
		return
	}
	cycles, problems := pipe.ReadCycles(shown, bytes.NewReader(text))
	l.problems = append(l.problems, problems...)
	l.supply = sim.Supply{Cycles: cycles, Given: true}
}

// readInflow reads water reaching the basin, of which a float makes pump cycles.
func (l *loader) readInflow(flag string) {
	shown, text, ok := l.read(flag, "inflow.csv", "water reaching the basin", pipe.MaxSchedule)
	if !ok {
		return
	}
	rows, problems := pipe.ReadInflow(shown, bytes.NewReader(text))
	l.problems = append(l.problems, problems...)
	l.supply = sim.Supply{Inflow: rows}
	l.needFloat(shown)
}

// needFloat asks for the basin and the pump without which no float makes pump cycles of
// what reaches the basin. said is where that is said.
func (l *loader) needFloat(said string) {
	if l.layout == nil {
		return
	}
	if l.layout.Basin == nil {
		l.fault(l.layoutFile, "basin", "nothing", "[basin], because "+said+" says what reaches it")
	}
	if len(l.layout.Pumps) == 0 {
		l.fault(l.layoutFile, "pump", "nothing", "[[pump]], because "+said+" says what it has to lift")
	}
}
