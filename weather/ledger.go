package weather

import (
	"fmt"
	"time"
)

// Repair is an entry of the ledger: one thing that was bridged or mended on reading.
type Repair struct {
	Kind     RepairKind
	Column   string    // as the file names it; "time" for whole rows
	File     string    // as the user named it
	Line     int       // in the file, of the first row that it concerns
	Time     time.Time // of that row, wall clock in local standard time carried as UTC; before a change of the clock: as the file has it
	Count    int       // rows or values that it concerns; of a gap, rows that are there but empty
	Hours    float64   // length of a gap; 0 for other kinds
	Evidence string    // what in the file speaks for it, or what was done; "" where the kind says all
	of       *quantity // of a gap in a column
}

// RepairKind says what was done.
type RepairKind int

// Gaps and how they were bridged, then other repairs.
const (
	Joined     RepairKind = iota // states: joined linearly between the values on either side
	Held                         // states at an end of the record: the nearest value kept
	TakenNil                     // amounts: taken as none fallen
	LongJoined                   // states of a lesser column over more than 6 h: joined linearly
	LongNil                      // amounts over more than 6 h: taken as none fallen

	Emptied    // a code for a missing value: one that the format has, or one by its look
	Uncoded    // a code that stands for no value of the quantity
	Flagged    // a value that its own flag rejects
	Beyond     // a value beyond its limits
	Dropped    // a row that stands twice
	Overlap    // rows that two files share
	Sorted     // rows out of order
	SummerTime // rows on a clock an hour ahead of standard time
	OneOffset  // rows whose offset differs from that of the others
	Hourly     // rows between the hours taken to the hour
	Spike      // a value that jumps away and back
	LeftOut    // a column with too little in it
	Trimmed    // rows at an end without air temperature
	Split      // the record taken apart at a long gap
)

// repairWords name the kinds in results.
var repairWords = [...]string{
	Joined: "joined linearly", Held: "nearest value held", TakenNil: "taken as none",
	LongJoined: "long gap joined linearly", LongNil: "long gap taken as none",
	Emptied: "code for missing", Uncoded: "code without a value", Flagged: "flagged value taken out", Beyond: "value beyond limits taken out",
	Dropped: "rows twice", Overlap: "rows in two files", Sorted: "rows out of order",
	SummerTime: "summer time set back", OneOffset: "offset changed", Hourly: "taken to the hour", Spike: "spike taken out",
	LeftOut: "column left out", Trimmed: "rows left out", Split: "split at a gap",
}

// String gives the words for results.
func (k RepairKind) String() string { return repairWords[k] }

// Gap says whether the entry is a gap that was bridged; only then has it a length.
func (k RepairKind) Gap() bool { return k <= LongNil }

// OfAir says whether the entry is a gap in the air temperature: rows missing altogether, or
// rows without its value.
func (e Repair) OfAir() bool { return e.Kind.Gap() && (e.Column == "time" || e.of == airTemperature) }

// String gives an entry as one line.
func (e Repair) String() string {
	text := fmt.Sprintf("%s:%d: %s: %s", e.File, e.Line, e.Column, e.Kind)
	if e.Kind.Gap() {
		return fmt.Sprintf("%s from %s (%s)", text, showTime(e.Time), showHours(e.Hours*3600))
	}
	if e.Count > 1 {
		text += fmt.Sprintf(", %d from %s", e.Count, showTime(e.Time))
	} else {
		text += " at " + showTime(e.Time)
	}
	if e.Evidence != "" {
		text += " (" + e.Evidence + ")"
	}
	return text
}
