package sim

import (
	"winterline/pipe"
	"winterline/sim/heat"
)

// backup is the second pump. A float of its own starts it when the basin rises above the main pump's float, and it
// has power when the house has none (a battery, or water pressure). Ice in a line that both pumps share stops it too; a
// line of its own is taken to stay open (unsafe side).
type backup struct {
	lift  lift
	own   bool    // it has a line of its own
	start float64 // level above the basin's bottom [m]
}

// newBackup is nil where there is none.
func newBackup(k *Case, main *lift) *backup {
	if k.Layout.Basin == nil {
		return nil
	}
	for _, p := range k.Layout.Pumps {
		if p.Role == pipe.BackupPump {
			b := &backup{lift: *main, own: p.OwnLine, start: p.Start}
			b.lift.curve = p.Curve
			return b
		}
	}
	return nil
}

// takeOver lets the backup pump what the main pump cannot, from t to end [s] at most. It reports
// whether it did, and until when. Its own line takes all at once.
func (w *winter) takeOver(t, end float64) (until float64, did bool, err error) {
	b := w.second
	if b == nil {
		return t, false, nil
	}
	if w.basin.levelWith(w.run.left) < b.start {
		return t, false, nil
	}
	asked := w.run.left + w.basin.backlog
	if b.own {
		w.water.backup.add(asked)
		w.record.backedUp(t, asked)
		w.draw(asked)
		return w.closeCycle(t), true, nil
	}
	main := w.lift
	w.lift = &b.lift
	defer func() { w.lift = main }()
	rate := b.lift.to(w.line.crest)
	p := w.parting(t, rate)
	through := p.line + p.relief + p.rim
	mass := min(asked, through*heat.WaterDensity*(end-t))
	if through < refusedShare*rate || mass <= 0 {
		return t, false, nil
	}
	run := mass / (through * heat.WaterDensity)
	if err := w.send(t, run, mass, p); err != nil {
		return t, false, err
	}
	w.record.backedUp(t, mass)
	w.draw(mass)
	if w.run.left > 1e-9*asked {
		w.busy = t + run
		return w.busy, true, nil
	}
	return w.closeCycle(t + run), true, nil
}
