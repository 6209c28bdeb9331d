package main

import (
	"strings"

	"github.com/spf13/cobra"

	"winterline/pipe"
)

// inputOptions are the flags that name input files, or stand in for one.
type inputOptions struct {
	layout, weather, pump, inflow, cycles, arrives string
	zone                                           zoneFlag
}

func (o *inputOptions) addFlags(c *cobra.Command) {
	o.addGroundFlags(c)
	f := c.Flags()
	f.StringVar(&o.pump, "pump", "", "`FILE` of pump cycles instead of the case's pump.csv or inflow.csv")
	f.StringVar(&o.inflow, "inflow", "", "`FILE` of water reaching the basin instead of the case's pump.csv or inflow.csv")
	f.StringVar(&o.cycles, "cycles", "", "`PLAN` of regular pump runs instead of a file: \"every 6 h for 45 s\"")
	f.StringVar(&o.arrives, "arrives", "", "`PLAN` of water reaching the basin instead of a file: \"2 gal/h\", \"8 gal/h falling by half every 2 days\"")
}

// addGroundFlags adds those that a command without water needs.
func (o *inputOptions) addGroundFlags(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&o.layout, "layout", "", "layout `FILE` instead of the case's layout.toml")
	f.StringVar(&o.weather, "weather", "", "weather `FILE`, or folder of weather files, instead of the case's own")
	o.zone.add(c)
}

// check refuses flags that contradict each other.
func (o *inputOptions) check() error {
	var given []string
	for _, f := range []struct{ name, value string }{{"--pump", o.pump}, {"--inflow", o.inflow}, {"--cycles", o.cycles}, {"--arrives", o.arrives}} {
		if f.value != "" {
			given = append(given, f.name)
		}
	}
	if len(given) > 1 {
		return usage("found %s; expected one of them", strings.Join(given, " and "))
	}
	if o.cycles != "" {
		if _, _, err := pipe.ParseCycles(o.cycles); err != nil {
			return usage("--cycles: %w", err)
		}
	}
	if o.arrives != "" {
		if _, err := pipe.ParseArrival(o.arrives); err != nil {
			return usage("--arrives: %w", err)
		}
	}
	return nil
}
