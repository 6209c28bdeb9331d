package report

import (
	"winterline/pipe"
	"winterline/sim"
)

// harm is what a finding did, to be compared with others: litres and hours weigh only within
// their kind.
type harm struct {
	kind harmKind
	size float64 // [m³] or [h]
}

// harmKind is a kind of harm, in rising order.
type harmKind int

const (
	harmWear   harmKind = iota // of the pump, or water where it is meant to come out
	harmIce                    // ice in the line that never shut it [h]
	harmSpread                 // water where it should not be, but not at the wall [m³]
	harmShut                   // a part of the line shut [h]
	harmBeside                 // water let go at the wall [m³]
	harmFloor                  // water on the floor [m³]
)

// harmOf weighs a finding that did something.
func harmOf(f pipe.Finding, r *sim.Result) harm {
	t := &teller{r, SI, f.Where}
	if weigh, known := harms[f.Kind]; known {
		return weigh(t)
	}
	return t.iceHarm(f.Where)
}

// harms weigh each kind of finding but those that are about the ice in one segment.
var harms = map[string]func(*teller) harm{
	pipe.FindingNoRelief:         (*teller).stuckHarm,
	pipe.FindingGluedLine:        (*teller).stuckHarm,
	pipe.FindingBackupSameLine:   (*teller).stuckHarm,
	pipe.FindingNoBackup:         (*teller).stuckHarm,
	pipe.FindingReliefFacesHouse: func(t *teller) harm { return harm{harmBeside, t.Ledger.Relief} },
	pipe.FindingSmallRelief:      (*teller).rimHarm,
	pipe.FindingReliefUnderSnow:  (*teller).rimHarm,
	pipe.FindingReliefFrosts:     (*teller).frostHarm,
	pipe.FindingIcingWalk:        (*teller).frostHarm,
	pipe.FindingNoAirGap:         (*teller).noHarm,
	pipe.FindingSmallAirGap:      (*teller).noHarm,
	pipe.FindingAirGapLost:       func(*teller) harm { return harm{kind: harmSpread} },
	pipe.FindingSharedDownspout:  func(t *teller) harm { return harm{harmSpread, t.Ledger.Extra} },
	pipe.FindingPocketInClay:     (*teller).elbowHarm,
	pipe.FindingNoWeep:           (*teller).elbowHarm,
	pipe.FindingNarrowWeep:       (*teller).elbowHarm,
	pipe.FindingOutletNear:       (*teller).noHarm,
	pipe.FindingErodingOutlet:    (*teller).noHarm,
	pipe.FindingNoCheckValve:     (*teller).noHarm,
	pipe.FindingManyStarts:       (*teller).noHarm,
	pipe.FindingShortRuns:        (*teller).noHarm,
}

func (t *teller) noHarm() harm { return harm{} }

// stuckHarm is that of water which found no way out: onto the floor, over the rim, or nowhere.
func (t *teller) stuckHarm() harm {
	if t.Ledger.Floor >= puddle {
		return harm{harmFloor, t.Ledger.Floor}
	}
	if t.Ledger.Rim >= puddle {
		return t.rimHarm()
	}
	return harm{harmShut, t.Verdict.ShutFor / 3600}
}

// rimHarm is that of water over the rim, or of a relief that only had to run.
func (t *teller) rimHarm() harm {
	if t.Ledger.Rim >= puddle {
		return harm{harmBeside, t.Ledger.Rim}
	}
	return harm{harmSpread, t.Ledger.Relief}
}

// frostHarm is that of water let go at the finding's place in frost.
func (t *teller) frostHarm() harm {
	volume, _ := t.letGo(0)
	return harm{harmSpread, volume}
}

// elbowHarm is that of the ice in the pipe under the lid.
func (t *teller) elbowHarm() harm {
	name, _ := t.underLid()
	return t.iceHarm(name)
}

// iceHarm is what ice did in a segment.
func (t *teller) iceHarm(segment string) harm {
	for _, s := range t.Segments {
		switch {
		case s.Name != segment:
		case s.HoursClosed > 0:
			return harm{harmShut, s.HoursClosed}
		default:
			return harm{harmIce, s.HoursWithIce}
		}
	}
	return harm{}
}
