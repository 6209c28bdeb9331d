package answers

import (
	"fmt"
	"math"
	"strings"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
)

// Change is a single change to an installation: edits of its layout, and of the water that comes where
// a float's setting decides how it comes. Whoever makes the edits in the layout's file gets the same
// case to the bit.
type Change struct {
	Key     string // stable and unique within a list, such as "insulation/yard run/25 mm"
	Kind    Kind
	Segment int     // what it is done to, an index in the layout's segments; -1: no segment
	Amount  float64 // how much of it, by kind [SI]
	Edits   []pipe.Edit
	Split   int   // every pump run that was logged becomes so many shorter ones; under 2: as logged
	Takes   Takes // what it takes to do
	Risks   Risks // what it brings that was not there before
	Barred  Bar   // why it is not possible here; 0: it is
	// Problems say what of levels, falls, covers and ground forbids it, where Barred is BarRefused.
	Problems units.Problems
}

// Kind says what is changed.
type Kind int

// Kinds of change, with what Amount means.
const (
	Insulate        Kind = iota // closed-cell foam round a segment: its thickness [m]
	InsulateAll                 // the same round all that lies outside the house [m]
	DeepenCover                 // the whole line laid deeper: soil on top of the pipe at the segment's shallower end [m]
	Steepen                     // a run laid steeper: its slope [-]
	RemoveSag                   // a run laid straight: the depth of the belly that goes [m]
	WidenPipe                   // buried pipe of a larger size: its bore [m]
	BuryOpen                    // a segment in the open laid underground: soil on top of the pipe [m]
	AddRelief                   // a relief opening where there is none: its height above ground [m]
	RaiseRelief                 // all relief openings set higher: the lowest one's height above ground [m]
	ClearRelief                 // the relief openings kept free of snow
	EnlargeRelief               // all relief openings made wider: the first one's width [m]
	AddStandpipe                // a glued line parted by a standpipe: the house pipe's end above ground [m]
	AddStandpipeTop             // the same without a relief opening in it, so that its rim is the way out [m]
	RaiseHousePipe              // house pipe's end and standpipe's rim set higher: the end above ground [m]
	EnlargePocket               // a larger rock pit: its volume, rock and all [m³]
	AddPocket                   // a rock pit, with a weep slot to feed it where there is none: its volume [m³]
	EnlargeWeep                 // a larger weep slot: its height [m]
	OpenOutlet                  // an open end to daylight instead of the lid: how much longer the last segment gets [m]
	RoofWaterOff                // water other than the pump's taken off the line: the roof's area [m²]
	BackupOwnLine               // a backup pump with a line of its own
	BackupSameLine              // a backup pump on the same line
	ShortCycles                 // shorter, more frequent pump runs: so many of one
	KeepSnow                    // snow left lying on the line: the share of it [-]
	NoRelief                    // the relief openings shut: the reverse test
)

var kindWords = []string{"insulation", "insulation-all", "cover", "slope", "sag", "pipe", "bury", "relief", "relief-height", "relief-clear", "relief-width",
	"standpipe", "standpipe-top", "house-pipe-end", "pocket", "new-pocket", "weep", "open-outlet", "roof-water", "backup-own-line", "backup-same-line",
	"short-cycles", "snow", "no-relief"}

// String gives the stable word of a kind.
func (k Kind) String() string { return kindWords[k] }

// Takes is a set of what a change takes.
type Takes int

// What a change takes.
const (
	TakesOwner    Takes = 1 << iota // an owner can do it
	TakesDig                        // digging, so first the marking of buried utilities
	TakesLicensed                   // licensed work: plumbing or wiring
	TakesApproval                   // may need approval, as where water goes and a hole in a wall do
	TakesGround                     // ground at the far end that lies lower; nothing in the layout says whether it does
)

var takesWords = []string{"owner", "dig", "licensed work", "may need approval", "lower ground at the far end"}

// Words are the stable words of the set, in its order.
func (t Takes) Words() []string { return set(int(t), takesWords) }

// Risks is a set of what a change brings that was not there before.
type Risks int

// New risks.
const (
	RiskStarts    Risks = 1 << iota // the pump starts more often
	RiskWallWater                   // water and ice beside the house where the relief opening or the rim lets it go
	RiskErosion                     // an open end washes soil away
	RiskDraught                     // an open end lets frosty air be drawn through the line
	RiskWalk                        // snow is left where people may walk
	RiskDeepWater                   // water in a deeper trench or pit stands lower than before, where it drains less readily
)

var riskWords = []string{"pump-starts", "ice-beside-house", "erosion", "cold-draught", "snow-on-walk", "deep-water"}

// Words are the stable words of the set, in its order.
func (r Risks) Words() []string { return set(int(r), riskWords) }

// set lists the words of the bits that are set.
func set(bits int, words []string) []string {
	var out []string
	for i, w := range words {
		if bits>>i&1 == 1 {
			out = append(out, w)
		}
	}
	return out
}

// Bar says why a change is not possible here.
type Bar int

// Bars.
const (
	BarNone      Bar = iota
	BarRefused       // levels, falls, covers and ground contradict it: see Problems
	BarOutletLow     // the far end would lie under the ground there
	BarNoFall        // no fall left between the wall and the outlet: its start would lie too shallow
	BarNoRiser       // no riser in the house that could be cut or lengthened to meet it
	BarShortRuns     // the pump would run for under 10 s at a time
	BarStarts        // the pump would start over 20 times an hour
	BarNoSnow        // the weather record says nothing of snow
	BarNoBasin       // no basin and pump are known: the level that would start it, and what it would stand in for
)

// key makes a change's key of its kind, the segment's name and an amount.
func key(k Kind, parts ...string) string {
	return strings.Join(append([]string{k.String()}, parts...), "/")
}

// mm writes a length for a key.
func mm(m float64) string { return fmt.Sprintf("%.0f mm", m*1000) }

// metres writes a length into a layout, to a tenth of a millimetre so that a person can copy it.
func metres(m float64) string { return units.Write(units.Length, math.Round(m*1e4)/1e4) }

// pair writes two lengths as `cover` takes them.
func pair(a, b float64) string { return fmt.Sprintf("[%q, %q]", metres(a), metres(b)) }

// With makes the case of a source with changes. What is wrong with one comes as units.Problems.
func (s Source) With(changes ...Change) (*sim.Case, error) {
	var edits []pipe.Edit
	for _, c := range changes {
		edits = append(edits, c.Edits...)
		s.Supply = split(s.Supply, c.Split)
	}
	return s.Case(edits...)
}
