package main

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"
)

// zoneFlag is local standard time less UTC, for weather files in UTC.
type zoneFlag struct{ hours *float64 }

// String gives the zone as it was typed, for help texts.
func (z *zoneFlag) String() string {
	if z.hours == nil {
		return ""
	}
	return strconv.FormatFloat(*z.hours, 'f', -1, 64)
}

// Type names the value, for help texts.
func (z *zoneFlag) Type() string { return "HOURS" }

// Set takes a number of hours.
func (z *zoneFlag) Set(text string) error {
	const farthest = 14 // from UTC anywhere
	hours, err := strconv.ParseFloat(text, 64)
	if err != nil || !(hours >= -farthest && hours <= farthest) {
		return fmt.Errorf("found %q; expected hours from -14 to 14, such as -6 for local standard time six hours behind UTC", text)
	}
	z.hours = &hours
	return nil
}

func (z *zoneFlag) add(c *cobra.Command) {
	c.Flags().Var(z, "zone", "local standard time less UTC, such as -6, for weather files in UTC")
}
